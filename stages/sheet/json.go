package sheet

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/tempstage/tempstage/stages"
)

// ErrSheet is wrapped by every error about a Record that cannot be printed or
// read.
var ErrSheet = errors.New("sheet")

// WriteJSON writes the Record as indented JSON, in SI units. The error wraps
// [ErrSheet].
func WriteJSON(w io.Writer, record stages.Record) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", " ")
	if err := encoder.Encode(record); err != nil {
		return fmt.Errorf("%w: %w", ErrSheet, err)
	}
	return nil
}

// ReadJSON reads a Record that [WriteJSON] wrote; it equals the one written. The
// error wraps [ErrSheet]: JSON that is not a Record, fields that are not known,
// or another format number than [stages.Format].
func ReadJSON(r io.Reader) (stages.Record, error) {
	var record stages.Record
	decoder := json.NewDecoder(r)
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&record); err != nil {
		return stages.Record{}, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	if record.Format != stages.Format {
		return stages.Record{}, fmt.Errorf("%w: format %d: allowed %d", ErrSheet, record.Format, stages.Format)
	}
	return record, nil
}
