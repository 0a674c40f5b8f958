// Command verify compares the library with values from outside: closed forms,
// published tables and general-purpose libraries.
//
// Every check is a row of data: what is compared, where the value was
// published, how sure the source is, the value as printed, the tolerance with
// its reason, and a function that computes ours through the public API. The
// rows of one subject are in one file. `go test ./examples/verify` runs them all;
// `go run ./examples/verify` prints them as a table and exits 1 if one fails;
// with -json it prints an object with the caution and an array of checks.
//
// A value of a general-purpose library is made by a script in recipes, which
// never sees this library: python3 -B recipes/torsion.py.
//
// To add a value, add a row to its subject's list; nothing else.
//
// An aid: a licensed engineer must confirm every result.
package main
