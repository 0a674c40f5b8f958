package sheet

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"github.com/tempstage/tempstage/stages"
)

// ErrSheet is wrapped by every error about a Record that cannot be printed or
// read.
var ErrSheet = errors.New("sheet")

// WriteJSON writes the Record as compact JSON, in SI units. The error wraps
// [ErrSheet].
func WriteJSON(w io.Writer, record stages.Record) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(record); err != nil {
		return fmt.Errorf("%w: %w", ErrSheet, err)
	}
	return nil
}

// ReadJSON reads a Record that [WriteJSON] wrote; it equals the one written. The
// error wraps [ErrSheet]: JSON that is not a Record, another format number than
// [stages.Format], or fields that are not known.
func ReadJSON(r io.Reader) (stages.Record, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return stages.Record{}, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	var head struct{ Format int }
	if err := json.Unmarshal(text, &head); err != nil {
		return stages.Record{}, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	if head.Format != stages.Format {
		return stages.Record{}, fmt.Errorf("%w: record of format %d: must be format %d; run its calculation again", ErrSheet, head.Format, stages.Format)
	}
	var record stages.Record
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&record); err != nil {
		return stages.Record{}, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	return record, nil
}
