// Command losses prints the force along one continuous tendon of the invented
// Estuary Link, two spans of 36 m on the quarry curve, at the jacks, after
// locking off, at 28 days and at the end of its life, with every loss named.
//
// Everything about the bridge is invented. It is an aid: a licensed engineer
// must confirm every result. Exit status: 0 when printed, 2 for wrong input.
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"

	"github.com/tempstage/tempstage/loads/tendon"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run calculates and prints, with -json an array of the stations in SI units.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("losses", flag.ContinueOnError)
	flags.SetOutput(stderr)
	asJSON := flags.Bool("json", false, "print the stations as JSON, in N, m and Pa")
	if flags.Parse(args) != nil || flags.NArg() > 0 {
		return 2
	}
	r, err := calculate()
	switch {
	case err == nil && *asJSON:
		err = r.json(stdout)
	case err == nil:
		err = r.print(stdout)
	}
	if err != nil {
		fmt.Fprintln(stderr, "losses:", err)
		return 2
	}
	return 0
}

// json writes the stations.
func (r result) json(w io.Writer) error {
	type row struct {
		X            float64       `json:"x"`
		AtJacks      float64       `json:"atJacks"`
		LockedOff    float64       `json:"lockedOff"`
		AtMonth      float64       `json:"at28Days"`
		EndOfLife    float64       `json:"endOfLife"`
		LossesMonth  tendon.Losses `json:"lossesTo28Days"`
		LossesAtLast tendon.Losses `json:"lossesToEndOfLife"`
	}
	rows := make([]row, len(r.stations))
	for i, s := range r.stations {
		rows[i] = row{s.x, s.jack, s.lockOff, s.atMonth, s.end, s.monthly, s.final}
	}
	encoder := json.NewEncoder(w)
	encoder.SetIndent("", " ")
	return encoder.Encode(rows)
}

func (r result) print(w io.Writer) error {
	t := r.force.Tendon
	fmt.Fprintln(w, "An aid: a licensed engineer must confirm every result; the technical approval of the tendon governs.")
	fmt.Fprintln(w, "Formulas are not checked against the printed standards: confirm them against the edition in force.")
	fmt.Fprintf(w, "\nTendon %s, %d × %s, %.0f m, stressed to %.0f MPa from %v at %g days, one of %d\n\n",
		t.Mark, t.Strands, t.Strand.Name, r.force.Path.Length(length), r.force.Jacking.Stress/1e6, r.force.Jacking.Ends, stressed, tendons)
	fmt.Fprintln(w, "Force in kN")
	fmt.Fprintln(w, "     x m   at the jacks   locked off      28 d   end of life")
	for _, s := range r.stations {
		fmt.Fprintf(w, "%8.1f %14.0f %12.0f %9.0f %13.0f\n", s.x, s.jack/1e3, s.lockOff/1e3, s.atMonth/1e3, s.end/1e3)
	}
	r.losses(w, "Losses up to 28 days in MPa", func(s station) tendon.Losses { return s.monthly })
	r.losses(w, "Losses up to the end of life in MPa", func(s station) tendon.Losses { return s.final })
	e := r.elongation
	fmt.Fprintf(w, "\nStressing record, read from 200 MPa: %.0f mm left, %.0f mm right, together %.0f to %.0f mm\n",
		e.Left*1e3, e.Right*1e3, e.Least*1e3, e.Most*1e3)
	left, right := r.force.DrawInReach()
	fmt.Fprintf(w, "Draw-in felt over %.1f m and %.1f m\n", left, right)
	_, err := fmt.Fprintf(w, "Restraint moment of all tendons over the pier: %.1f MN·m\n", r.secondary/1e6)
	return err
}

// losses prints one table of named parts.
func (r result) losses(w io.Writer, title string, of func(station) tendon.Losses) {
	fmt.Fprintf(w, "\n%s\n", title)
	fmt.Fprintln(w, "     x m   friction   draw-in   elastic   shrinkage   creep   relaxation   total")
	for _, s := range r.stations {
		l := of(s)
		fmt.Fprintf(w, "%8.1f %10.1f %9.1f %9.1f %11.1f %7.1f %12.1f %7.1f\n", s.x,
			l.Friction/1e6, l.DrawIn/1e6, l.Elastic/1e6, l.Shrinkage/1e6, l.Creep/1e6, l.Relaxation/1e6, l.Total()/1e6)
	}
}
