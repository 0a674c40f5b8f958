package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Settings are the units and the title block of a sheet. The zero value is SI, with
// project and revision left blank.
type Settings struct {
	Units    Units  // SI or US; "" means SI
	Project  string // for the title block
	Revision string // for the title block
}

// Fingerprint identifies a Record on both of its sheets, so that an operation sheet
// cannot be paired with another calculation: the first 16 digits of the SHA-256 of the
// Record's JSON, in groups of four. The Record read back from JSON has the same one.
// The error wraps [ErrSheet]: a Record with a number that is not finite.
func Fingerprint(record stages.Record) (string, error) {
	data, err := json.Marshal(record)
	if err != nil {
		return "", fmt.Errorf("%w: %w", ErrSheet, err)
	}
	sum := sha256.Sum256(data)
	digits := hex.EncodeToString(sum[:8])
	return digits[:4] + "-" + digits[4:8] + "-" + digits[8:12] + "-" + digits[12:], nil
}

// printable reports a Record that no sheet can be made of: with neither stages nor
// results, with a table or line that does not recompute from its digits, or with a
// check that refers to one that is not there.
func printable(record stages.Record) error {
	switch {
	case len(record.Results) > 0:
		return valid(record)
	case len(record.Stages) == 0:
		return fmt.Errorf("%w: the record of %q has no stage: must have at least one, or results", ErrSheet, record.Element)
	}
	for _, s := range record.Stages {
		if len(s.Situations) == 0 {
			return fmt.Errorf("%w: stage %d of the record of %q has no situation: must have at least one", ErrSheet, s.Number, record.Element)
		}
	}
	if err := whole(record); err != nil {
		return fmt.Errorf("%w: the record of %q: %w", ErrSheet, record.Element, err)
	}
	if err := record.Lists.Check(); err != nil {
		return fmt.Errorf("%w: the record of %q: %w", ErrSheet, record.Element, err)
	}
	for _, group := range append(record.Inputs[:len(record.Inputs):len(record.Inputs)], record.Appendix...) {
		if err := record.Has(derive.Proof{Lines: group.Lines}); err != nil {
			return fmt.Errorf("%w: the record of %q, %s: %w", ErrSheet, record.Element, group.Title, err)
		}
	}
	for _, stage := range record.Stages {
		if err := provenIn(record, stage); err != nil {
			return fmt.Errorf("%w: stage %d of the record of %q, %w", ErrSheet, stage.Number, record.Element, err)
		}
	}
	return nil
}

// whole reports a table or rows of numbers that are not complete, which would be
// printed in part.
func whole(record stages.Record) error {
	for _, t := range record.Tables {
		if len(t.Rows) == 0 {
			return fmt.Errorf("table %d has no row: must have at least one", t.Number)
		}
		for i, r := range t.Rows {
			if len(r.Cells) > len(t.Columns) {
				return fmt.Errorf("table %d, row %d has %d cells: must be at most its %d columns", t.Number, i+1, len(r.Cells), len(t.Columns))
			}
		}
	}
	for _, stage := range record.Stages {
		for i, s := range stage.Situations {
			for _, rows := range []derive.Rows{s.Stations, s.Diagram} {
				if len(stages.StationsOf(rows)) != len(rows.Values) {
					return fmt.Errorf("situation %s, a row of stations: must have its %d numbers", numbered(stage, i), len(rows.Columns))
				}
			}
		}
	}
	return nil
}

// provenIn reports a table or line of a stage that is not in the record.
func provenIn(record stages.Record, stage stages.StageRecord) error {
	for _, c := range checksOf(stage) {
		if err := record.Has(c.Proof); err != nil {
			return fmt.Errorf("%s: %w", c.Name, err)
		}
	}
	for _, s := range stage.Situations {
		for _, group := range append(s.Events[:len(s.Events):len(s.Events)], stages.Group{Title: "strength", Lines: s.Concrete}) {
			if err := record.Has(derive.Proof{Lines: group.Lines}); err != nil {
				return fmt.Errorf("%s: %w", group.Title, err)
			}
		}
	}
	return nil
}

// author builds the documents of one Record.
type author struct {
	record      stages.Record
	settings    Settings
	units       Units
	fingerprint string
	references  *references
	meanings    *meanings                     // of symbols
	inputsKnown map[string]float64            // lines of the inputs: symbol and formula to value
	known       map[string]float64            // lines that are in this part of the sheet already
	tableAt     map[int]string                // the check with which a table was printed
	lineAt      map[int]string                // the check with which a line was printed
	sides       map[int]func(float64) float64 // see sidesOf
	printed     map[string]repeated           // by kind of figure or table
	same        []string                      // what was not printed again
	site        bool                          // elevations for operation sheets: places and names, no numbers to mistake for limits of readings
}

func newAuthor(record stages.Record, settings Settings) (*author, error) {
	if err := printable(record); err != nil {
		return nil, err
	}
	fingerprint, err := Fingerprint(record)
	if err != nil {
		return nil, err
	}
	units, err := UnitsOf(string(settings.Units))
	if err != nil {
		return nil, err
	}
	return &author{
		record: record, settings: settings, units: units, fingerprint: fingerprint, references: &references{slices.Clone(record.Sources)}, printed: map[string]repeated{},
		known: map[string]float64{}, inputsKnown: map[string]float64{}, tableAt: map[int]string{}, lineAt: map[int]string{}, sides: sidesOf(record),
	}, nil
}
