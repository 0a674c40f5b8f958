package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// WriteHTML writes the calculation sheet as one self-contained HTML file that
// prints to A4. The error wraps [ErrSheet] for a Record with neither stages nor
// results or with a table or line that does not recompute from its printed digits, or
// is that of w.
func WriteHTML(w io.Writer, record stages.Record, settings Settings) error {
	return write(w, record, settings, func(a *author) string { return renderHTML(a.main()) })
}

// WriteMarkdown writes the calculation sheet as Markdown, without figures. The
// error is that of [WriteHTML].
func WriteMarkdown(w io.Writer, record stages.Record, settings Settings) error {
	return write(w, record, settings, func(a *author) string { return renderMarkdown(a.main(), "") })
}

// WriteOperationHTML writes the operation sheets, each stage on pages of its own, as
// one self-contained HTML file. A stage that fails, is unchecked, has a check that is
// not evaluated or an unanswered question, and each stage after it, says DO NOT PROCEED
// and prints no limit; so does a stage that ends with the element off its supports when
// its set-down does. A conditional stage prints its limits under PROCEED ONLY AFTER.
// The error is that of [WriteHTML], and one for a Record without stages.
func WriteOperationHTML(w io.Writer, record stages.Record, settings Settings) error {
	return writeOperations(w, record, settings, func(a *author) string { return renderHTML(a.operations()) })
}

// WriteOperationMarkdown writes the same as [WriteOperationHTML] as Markdown.
func WriteOperationMarkdown(w io.Writer, record stages.Record, settings Settings) error {
	return writeOperations(w, record, settings, func(a *author) string { return renderMarkdown(a.operations(), "") })
}

func writeOperations(w io.Writer, record stages.Record, settings Settings, render func(*author) string) error {
	if len(record.Stages) == 0 && len(record.Results) > 0 {
		return fmt.Errorf("%w: the record of %q has results and no stage: must have a stage for an operation sheet", ErrSheet, record.Element)
	}
	return write(w, record, settings, render)
}

func write(w io.Writer, record stages.Record, settings Settings, render func(*author) string) error {
	a, err := newAuthor(record, settings)
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, render(a))
	return err
}

// WriteFiles writes into a folder, which is made if it is missing: calculation and
// operation sheets as HTML and Markdown, the Record as JSON, and each figure as SVG; no
// operation sheets of a Record without stages. File names begin with the element's
// mark, and a part of its hash where the mark is no valid file name. All files are
// written under temporary names and then renamed, so that none is ever incomplete. It
// returns the names of the files in order; the error wraps [ErrSheet].
func WriteFiles(folder string, record stages.Record, settings Settings) ([]string, error) {
	files, err := filesOf(record, settings)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return nil, fmt.Errorf("%w: folder %q: %w", ErrSheet, folder, err)
	}
	names := make([]string, 0, len(files))
	temporaries := make([]string, 0, len(files))
	for _, f := range files {
		temporary, err := temporaryFile(folder, f.content)
		if err != nil {
			return nil, fmt.Errorf("%w: %w", ErrSheet, errors.Join(err, removed(temporaries)))
		}
		temporaries = append(temporaries, temporary)
	}
	for i, f := range files {
		if err := os.Rename(temporaries[i], filepath.Join(folder, f.name)); err != nil {
			return names, fmt.Errorf("%w: %w", ErrSheet, errors.Join(err, removed(temporaries[i:])))
		}
		names = append(names, f.name)
	}
	return names, nil
}

// file is a file to be written.
type file struct{ name, content string }

func filesOf(record stages.Record, settings Settings) ([]file, error) {
	a, err := newAuthor(record, settings)
	if err != nil {
		return nil, err
	}
	var data strings.Builder
	if err := WriteJSON(&data, record); err != nil {
		return nil, err
	}
	prefix := fileName(record.Element) + "-"
	calculation := a.main()
	files := []file{{prefix + "calculation.html", renderHTML(calculation)}, {prefix + "calculation.md", renderMarkdown(calculation, prefix)}}
	figures := figuresIn(calculation.blocks)
	if len(record.Stages) > 0 {
		operations := a.operations()
		figures = append(figures, figuresIn(operations.blocks)...)
		files = append(files, file{prefix + "operation.html", renderHTML(operations)}, file{prefix + "operation.md", renderMarkdown(operations, prefix)})
	}
	files = append(files, file{prefix + "record.json", data.String()})
	for _, f := range figures {
		files = append(files, file{prefix + f.name + ".svg", `<?xml version="1.0" encoding="UTF-8"?>` + "\n" + f.svg})
	}
	return files, nil
}

// figuresIn are the figures of blocks, in order.
func figuresIn(blocks []block) []figure {
	var figures []figure
	for _, b := range blocks {
		switch b := b.(type) {
		case part:
			figures = append(figures, figuresIn(b.blocks)...)
		case drawings:
			figures = append(figures, b.figures...)
		case beside:
			for _, column := range b.columns {
				figures = append(figures, figuresIn(column)...)
			}
		}
	}
	return figures
}

// fileName is a mark with other characters than letters, digits, '-' and '_' replaced
// by '-'. Where that is not the mark itself, 6 digits of the hash of the mark
// distinguish two marks.
func fileName(mark string) string {
	name := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_' {
			return r
		}
		return '-'
	}, mark)
	name = strings.Trim(name, "-")
	if len(name) > 60 {
		name = name[:60]
	}
	if name == "" {
		name = "element"
	}
	if name == mark {
		return name
	}
	sum := sha256.Sum256([]byte(mark))
	return name + "-" + hex.EncodeToString(sum[:3])
}

// temporaryFile is the name of a new file in a folder with that content; it is removed
// when the writing fails.
func temporaryFile(folder, content string) (name string, err error) {
	temporary, err := os.CreateTemp(folder, ".writing-*")
	if err != nil {
		return "", err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(temporary.Name()))
		}
	}()
	if _, err = temporary.WriteString(content); err != nil {
		return "", errors.Join(err, temporary.Close())
	}
	if err = errors.Join(temporary.Chmod(0o644), temporary.Sync(), temporary.Close()); err != nil {
		return "", err
	}
	return temporary.Name(), nil
}

// removed deletes files.
func removed(names []string) error {
	var all error
	for _, name := range names {
		all = errors.Join(all, os.Remove(name))
	}
	return all
}
