package sheet

import (
	"bufio"
	"flag"
	"fmt"
	"io"

	"github.com/tempstage/tempstage/stages"
)

// Exit statuses of a calculation script.
const (
	ExitPass  = 0 // every check passes
	ExitFail  = 1 // a check fails, or holds only if something is shown first
	ExitInput = 2 // wrong input, or the sheet could not be written
)

// Command ends a calculation script: it prints the Record as Markdown, or as
// JSON with -json, and returns the exit status. A runErr, the error of
// [stages.Plan.Run], is written to stderr and no sheet is printed.
func Command(args []string, stdout, stderr io.Writer, record stages.Record, runErr error) int {
	flags := flag.NewFlagSet("calculation", flag.ContinueOnError)
	flags.SetOutput(stderr)
	asJSON := flags.Bool("json", false, "print the record as JSON instead of the sheet")
	if err := flags.Parse(args); err != nil {
		return ExitInput
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "argument %q is not known: allowed the flags shown by -help\n", flags.Arg(0))
		return ExitInput
	}
	if runErr != nil {
		fmt.Fprintln(stderr, runErr)
		return ExitInput
	}
	write := WriteMarkdown
	if *asJSON {
		write = WriteJSON
	}
	out := bufio.NewWriter(stdout)
	err := write(out, record)
	if err == nil {
		err = out.Flush()
	}
	if err != nil {
		fmt.Fprintln(stderr, err)
		return ExitInput
	}
	switch record.Status() {
	case stages.Pass:
		return ExitPass
	default:
		return ExitFail
	}
}
