// Package sheet prints a [stages.Record] for the people who use it: Markdown
// for a reader, JSON for a program.
//
// It renders and computes nothing: every number on a sheet stands in the Record.
// Units are converted here and nowhere else. [Command] is the command line that
// every example program ends in.
//
// # Neglected
//
// Figures and the one-page permit sheet are not printed yet.
package sheet
