package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"github.com/tempstage/tempstage/stages"
)

// Settings are how a Record is printed. The zero value prints in SI and leaves
// project and revision open to be filled in by hand.
type Settings struct {
	Units    Units  // SI when left out
	Project  string // for the title block
	Revision string // for the title block
}

// Fingerprint is what both sheets of one Record carry, so that a permit cannot be
// paired with another calculation: the first 16 digits of the SHA-256 of the
// Record's JSON, in groups of four. The Record read back from JSON has the same
// one. The error wraps [ErrSheet]: a Record that JSON cannot hold.
func Fingerprint(record stages.Record) (string, error) {
	data, err := json.Marshal(record)
	if err != nil {
		return "", fmt.Errorf("%w: %w", ErrSheet, err)
	}
	sum := sha256.Sum256(data)
	digits := hex.EncodeToString(sum[:8])
	return digits[:4] + "-" + digits[4:8] + "-" + digits[8:12] + "-" + digits[12:], nil
}

// printable reports a Record that no sheet can be made of.
func printable(record stages.Record) error {
	if len(record.Stages) == 0 {
		return fmt.Errorf("%w: the record of %q has no stage: allowed at least one", ErrSheet, record.Element)
	}
	for _, s := range record.Stages {
		if len(s.Situations) == 0 {
			return fmt.Errorf("%w: stage %d of the record of %q has no situation: allowed at least one", ErrSheet, s.Number, record.Element)
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
	passage     *passage
	printed     map[string]repeated // by kind of figure or table
	same        []string            // what was not printed again
}

func newAuthor(record stages.Record, settings Settings) (*author, error) {
	if err := printable(record); err != nil {
		return nil, err
	}
	fingerprint, err := Fingerprint(record)
	if err != nil {
		return nil, err
	}
	units := settings.Units.filled()
	a := &author{record: record, settings: settings, units: units, fingerprint: fingerprint, references: &references{units: units}, printed: map[string]repeated{}}
	a.passage = newPassage(a.units, a.references, nil)
	return a, nil
}
