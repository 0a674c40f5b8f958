//go:build !race

package main

// tested is how many pairs are built: all of them.
const tested = pairs
