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

// WriteJSON writes the Record as compact JSON, in SI units; values that are repeated stand once,
// in the list "once", and "§" with their number there stands for them. The error wraps
// [ErrSheet]: a Record that [ReadJSON] would refuse; nothing is written of it.
func WriteJSON(w io.Writer, record stages.Record) error {
	text, err := encoded(record)
	if err != nil {
		return err
	}
	if err := valid(record); err != nil {
		return err
	}
	if _, err := w.Write(text); err != nil {
		return fmt.Errorf("%w: %w", ErrSheet, err)
	}
	return nil
}

// encoded is a record as JSON in one line, in which what is repeated stands once.
func encoded(record stages.Record) ([]byte, error) {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(record); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	return once(out.Bytes()), nil
}

// valid is [stages.Record.Check] with the sentinel of this package.
func valid(record stages.Record) error {
	if err := record.Check(); err != nil {
		return fmt.Errorf("%w: %w", ErrSheet, err)
	}
	return nil
}

// ReadJSON reads a Record that [WriteJSON] wrote; it equals the one written. The
// error wraps [ErrSheet] and says what is wrong: JSON that is not one Record, another
// format number than [stages.Format], fields that are not known, or what
// [stages.Record.Check] reports, e.g. a table that does not recompute.
func ReadJSON(r io.Reader) (stages.Record, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return stages.Record{}, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	record, err := decoded(text)
	if err == nil {
		err = valid(record)
	}
	if err != nil {
		return stages.Record{}, err
	}
	return record, nil
}

// decoded is the record of a text that is one record of this format.
func decoded(text []byte) (record stages.Record, err error) {
	var head struct {
		Format int
		Once   []json.RawMessage
	}
	if err := json.Unmarshal(text, &head); err != nil {
		if first := json.NewDecoder(bytes.NewReader(text)); first.Decode(&head) == nil {
			return record, fmt.Errorf("%w: more follows behind the record, from byte %d: must be one record in a file: %w", ErrSheet, first.InputOffset()+1, err)
		}
		return record, fmt.Errorf("%w: no record: %w", ErrSheet, err)
	}
	switch {
	case head.Format > stages.Format:
		return record, fmt.Errorf("%w: record of format %d: must be format %d; a newer version of this library wrote it: read it with that", ErrSheet, head.Format, stages.Format)
	case head.Format < stages.Format:
		return record, fmt.Errorf("%w: record of format %d: must be format %d; run its calculation again", ErrSheet, head.Format, stages.Format)
	}
	if text, err = expanded(text, head.Once); err != nil {
		return record, err
	}
	var file struct {
		stages.Record
		Once []json.RawMessage `json:"once"`
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&file); err != nil {
		return record, fmt.Errorf("%w: %w", ErrSheet, err)
	}
	return file.Record, nil
}
