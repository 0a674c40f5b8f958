// Command losses calculates the force along one continuous tendon of the invented
// Estuary Link, two spans of 36 m on the quarry curve: at the jacks, after lock-off,
// at 28 days and at the end of its life, with every loss named. It prints the
// calculation with its inputs, or writes the same files as every script, see
// [sheet.Command].
//
// Everything about the bridge is invented. An aid: a licensed engineer must confirm
// every result. Exit status: 0 when printed, 2 for wrong input; nothing is compared
// with a limit.
package main

import (
	"io"
	"os"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	r, err := calculate()
	if err != nil {
		return sheet.Command(args, stdout, stderr, stages.Record{}, err)
	}
	record, err := r.record()
	return sheet.Command(args, stdout, stderr, record, err)
}
