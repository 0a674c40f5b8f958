package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
)

// subjects is every check of the project, in the order of the rooms.
func subjects() []Subject {
	return []Subject{
		{"Sections", sections()},
		{"Torsion", torsion()},
		{"Beams", beams()},
		{"Trains", trains()},
		{"Concrete", concretes()},
		{"Tendons", tendons()},
		{"Redistribution", redistributions()},
		{"Limits", limitValues()},
		{"Handling", handling()},
		{"Launching", launchings()},
		{"Segmental", segmentals()},
		{"Falsework", falseworks()},
		{"Hangers", hangers()},
		{"Casting curves", castings()},
	}
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the command: exit status 0 when every check passes, 1 when one fails,
// 2 when one could not be run or the flags are wrong.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("verify", flag.ContinueOnError)
	flags.SetOutput(stderr)
	asJSON := flags.Bool("json", false, "print an object with the caution and an array of checks instead of a table")
	if flags.Parse(args) != nil {
		return 2
	}
	results := []Result{}
	failed := 0
	for _, subject := range subjects() {
		for _, check := range subject.Checks {
			result, err := check.Run(subject.Name)
			if err != nil {
				fmt.Fprintln(stderr, "verify:", err)
				return 2
			}
			if !result.Pass {
				failed++
			}
			results = append(results, result)
		}
	}
	if err := write(stdout, results, failed, *asJSON); err != nil {
		fmt.Fprintln(stderr, "verify:", err)
		return 2
	}
	if failed > 0 {
		return 1
	}
	return 0
}

// caution opens the table and the JSON.
const caution = "An aid: a licensed engineer must confirm every result. Checks against values from outside are no proof that a calculation is right."

func write(w io.Writer, results []Result, failed int, asJSON bool) error {
	if asJSON {
		encoder := json.NewEncoder(w)
		encoder.SetIndent("", "  ")
		return encoder.Encode(struct {
			Caution string   `json:"caution"`
			Checks  []Result `json:"checks"`
		}{caution, results})
	}
	fmt.Fprintln(w, caution)
	subject := ""
	for _, r := range results {
		if r.Subject != subject {
			subject = r.Subject
			fmt.Fprintf(w, "\n%s\n", subject)
		}
		mark := "ok  "
		if !r.Pass {
			mark = "FAIL"
		}
		fmt.Fprintf(w, "  %s  %-64s %14.7g %14.7g %-8s ±%-9.2g %s; %s\n",
			mark, r.Check, r.Published, r.Ours, r.Unit, r.Tolerance, r.Kind, r.Source)
	}
	_, err := fmt.Fprintf(w, "\n%d checks, %d failed\n", len(results), failed)
	return err
}
