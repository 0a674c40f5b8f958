package sheet

import (
	"bufio"
	"flag"
	"fmt"
	"io"
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// Exit statuses of a calculation script.
const (
	ExitPass  = 0 // every check passes, or the record has results and no stage: nothing is checked
	ExitFail  = 1 // a check fails, is conditional, or is not evaluated, or a situation has none
	ExitInput = 2 // wrong input, or the sheet could not be written
)

// Command ends a calculation script and returns the exit status. It prints the
// calculation sheet as Markdown, or the Record as JSON with -json; with -o FOLDER
// it writes calculation and operation sheets as HTML and Markdown, the Record as JSON and
// the figures as SVG into the folder and prints their names. A record without stages,
// of [stages.Results], has no operation sheet. -units us prints US customary units;
// -project and -revision fill the title block. A runErr, the error of
// [stages.Plan.Run] or [stages.Results.Record], is written to stderr and no sheet is
// printed; so are arguments that contradict each other.
func Command(args []string, stdout, stderr io.Writer, record stages.Record, runErr error) int {
	flags := flag.NewFlagSet("calculation", flag.ContinueOnError)
	flags.SetOutput(stderr)
	asJSON := flags.Bool("json", false, "print the record as JSON instead of the sheet")
	folder := flags.String("o", "", "write the sheets, the record and the figures into this `folder`")
	units := flags.String("units", "si", "units of the sheets: si or us")
	var settings Settings
	flags.StringVar(&settings.Project, "project", "", "project, for the title block")
	flags.StringVar(&settings.Revision, "revision", "", "revision, for the title block")
	if err := flags.Parse(args); err != nil {
		return ExitInput
	}
	if err := contradiction(flags, *folder, *asJSON); err != nil {
		fmt.Fprintln(stderr, err)
		return ExitInput
	}
	if runErr != nil {
		fmt.Fprintln(stderr, runErr)
		return ExitInput
	}
	var err error
	if settings.Units, err = UnitsOf(*units); err == nil {
		err = deliver(stdout, record, settings, *folder, *asJSON)
	}
	if err != nil {
		fmt.Fprintln(stderr, err)
		return ExitInput
	}
	if len(record.Stages) == 0 || record.Status() == stages.Pass && !slices.ContainsFunc(record.Stages, unchecked) {
		return ExitPass // a record without stages was delivered: it has results
	}
	return ExitFail
}

// contradiction reports arguments that contradict each other or would be ignored.
func contradiction(flags *flag.FlagSet, folder string, asJSON bool) error {
	given := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	switch {
	case flags.NArg() > 0:
		return fmt.Errorf("argument %q is not known: must be one of the flags shown by -help", flags.Arg(0))
	case given["o"] && folder == "":
		return fmt.Errorf("flag -o is empty: must be a folder")
	case given["o"] && asJSON:
		return fmt.Errorf("flags -o and -json are both given: must be one of them; the record is in the folder as JSON too")
	case asJSON && (given["units"] || given["project"] || given["revision"]):
		return fmt.Errorf("flag -json is given with -units, -project or -revision: must be without them; the record is in SI and has no title block")
	}
	return nil
}

// unchecked is true for a stage with a situation without a check.
func unchecked(stage stages.StageRecord) bool {
	return slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return len(s.Checks) == 0 })
}

// deliver prints a sheet, or writes all of them into a folder.
func deliver(stdout io.Writer, record stages.Record, settings Settings, folder string, asJSON bool) error {
	out := bufio.NewWriter(stdout)
	var err error
	switch {
	case folder != "":
		var names []string
		names, err = WriteFiles(folder, record, settings)
		for _, name := range names {
			fmt.Fprintln(out, name)
		}
	case asJSON:
		err = WriteJSON(out, record)
	default:
		err = WriteMarkdown(out, record, settings)
	}
	if err != nil {
		return err
	}
	return out.Flush()
}
