package stages

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Results is a calculation without stages: of a tendon, a beam or a redistribution.
// [Results.Record] makes a Record of it, so that it is printed like any other. Nothing
// in it is checked against a limit.
type Results struct {
	Mark       string       // of the member, as on the drawing; must not be empty
	Length     float64      // of the member, m, above 0, at most 1e5
	Basis      []string     // models, conventions, what is neglected
	Parts      []ResultPart // in the order of the sheet; must have at least one
	NotChecked []string     // exclusions

	// Printed as inputs, at least one of them: the section with its figure, nil for none,
	// the data of the concrete, nil for none, those of the tendons with their paths,
	// and all others with their sources.
	Section  section.Along
	Concrete concrete.Model
	Tendons  []tendon.Tendon
	Inputs   []Lines
}

// Lines is lines of calculation under a heading.
type Lines struct {
	Title string         // must not be empty
	Lines []formula.Line // each recomputes from its operands
}

// ResultPart is one heading of the results: lines, tables and figures, at least one
// of them.
type ResultPart struct {
	Title   string   // must not be empty
	Notes   []string // what the values are and what is neglected, none of them empty
	Lines   []formula.Line
	Tables  []ValueTable
	Figures []Figure
}

// ValueTable is a table of numbers in SI, with a first column of words where it has
// RowNames.
type ValueTable struct {
	Title    string        `json:"title"`              // caption
	Columns  []ValueColumn `json:"columns"`            // at least one
	Rows     [][]float64   `json:"rows"`               // at least one, each with a finite number for each column
	RowHead  string        `json:"rowHead,omitempty"`  // head of the column of words; must not be empty where there is one
	RowNames []string      `json:"rowNames,omitempty"` // words before each row; none, or one for each row

	// Stage is the number of the stage whose operation sheet states rows of the table, 0 for
	// none; Stated are the numbers of those rows, from 1. Where several tables are for one
	// stage, the last is stated.
	Stage  int   `json:"stage,omitempty"`
	Stated []int `json:"stated,omitempty"`
}

// ValueColumn is the head of a column of a ValueTable.
type ValueColumn struct {
	Name string       `json:"name"` // of the quantity, without its unit
	Unit formula.Unit `json:"unit"` // of its numbers; formula.One for a pure number

	// Small: small lengths or angles, e.g. of a camber, printed in mm or in and in mrad.
	Small bool `json:"small,omitempty"`
}

// ResultRecord is a ResultPart in a Record, its lines by number.
type ResultRecord struct {
	Title   string       `json:"title"`
	Notes   []string     `json:"notes,omitempty"`
	Lines   []int        `json:"l,omitempty"` // numbers in the Lines of the record, from 1
	Tables  []ValueTable `json:"tables,omitempty"`
	Figures []Figure     `json:"figures,omitempty"`
}

// valueDigits is the number of significant digits that a record keeps of the largest
// value of a column; the others end at the same place.
const valueDigits = 6

// Record is the results as plain data, without a stage. The error wraps [ErrStage]:
// an empty mark, title or list, a number that is not finite, or a line that does not
// recompute.
func (r Results) Record() (Record, error) {
	record := Record{
		Format: Format, Element: r.Mark, Length: r.Length, Caution: slices.Clone(caution), Basis: slices.Clone(r.Basis),
		Weights: []Load{}, Stages: []StageRecord{}, NotChecked: slices.Clone(r.NotChecked),
	}
	fail := func(err error) (Record, error) {
		return record, fmt.Errorf("%w: results of %q: %w", ErrStage, r.Mark, err)
	}
	if r.Section != nil {
		record.Outlines = drawings(0, r.Length, r.Section, nil)
	}
	for _, t := range r.Tendons {
		if err := t.Check(); err != nil {
			return fail(err)
		}
		path, err := t.Path()
		if err != nil {
			return fail(err)
		}
		record.Tendons = append(record.Tendons, newTendonRecord(t, path))
	}
	book := &derive.Book{}
	var err error
	if record.Inputs, err = written(book, r.inputs()); err != nil {
		return fail(err)
	}
	for i, p := range r.Parts {
		part, err := p.record(book)
		if err != nil {
			return fail(fmt.Errorf("part %d, %q: %w", i+1, p.Title, err))
		}
		record.Results = append(record.Results, part)
	}
	record.Lists = book.Lists()
	return record, record.Check()
}

// inputs are the data of section, concrete and tendons, and the others as they were given.
func (r Results) inputs() []lineGroup {
	var groups []lineGroup
	if !concrete.Missing(r.Concrete) {
		groups = append(groups, lineGroup{title: "Concrete", lines: r.Concrete.Inputs()})
	}
	if r.Section != nil {
		groups = append(groups, Element{Length: r.Length, Section: r.Section}.sectionInputs())
	}
	groups = append(groups, tendonInputs(r.Tendons)...)
	for _, g := range r.Inputs {
		groups = append(groups, lineGroup{title: g.Title, lines: g.Lines})
	}
	return groups
}

func (p ResultPart) record(book *derive.Book) (ResultRecord, error) {
	lines, err := linesIn(book, p.Lines)
	if err != nil {
		return ResultRecord{Title: p.Title}, err
	}
	part, err := p.plain()
	part.Lines = lines
	return part, err
}

// plain is a part without its lines, in the digits of a record.
func (p ResultPart) plain() (ResultRecord, error) {
	part := ResultRecord{Title: p.Title, Notes: slices.Clone(p.Notes)}
	for i, t := range p.Tables {
		names := make([]string, len(t.Columns))
		for j, c := range t.Columns {
			names[j] = c.Name
		}
		rows, err := derive.NewRows(names, t.Rows, valueDigits)
		if err != nil {
			return part, fmt.Errorf("table %d %q: %w", i+1, t.Title, err)
		}
		t.Columns, t.Rows, t.RowNames = slices.Clone(t.Columns), rows.Values, slices.Clone(t.RowNames)
		t.Stated = slices.Clone(t.Stated)
		part.Tables = append(part.Tables, t)
	}
	var err error
	part.Figures, err = drawn(p.Figures)
	return part, err
}

// Append puts tables and figures behind the stages of a record of a plan, e.g. a casting
// curve. They are values for information: nothing in them is compared with a limit. The
// error wraps [ErrStage]: a record without stages, a part with lines, which belong to the
// checks of a stage there, or one that is not complete; the record is then as it was.
func (r *Record) Append(parts ...ResultPart) error {
	if len(r.Stages) == 0 {
		return fmt.Errorf("%w: the record of %q has no stage: must be that of a plan", ErrStage, r.Element)
	}
	results := slices.Clone(r.Results)
	for i, p := range parts {
		fail := func(err error) error {
			return fmt.Errorf("%w: results of %q: part %d, %q: %w", ErrStage, r.Element, i+1, p.Title, err)
		}
		if len(p.Lines) > 0 {
			return fail(fmt.Errorf("it has %d lines: must be tables and figures", len(p.Lines)))
		}
		part, err := p.plain()
		if err == nil {
			err = r.validPart(part)
		}
		if err != nil {
			return fail(err)
		}
		results = append(results, part)
	}
	r.Results = results
	return nil
}

// validResults reports a record with neither stages nor results, or with results that are
// not complete. Without stages nothing may need a limit, and the inputs must be there.
func (r Record) validResults() error {
	switch {
	case len(r.Stages) == 0 && len(r.Results) == 0:
		return fmt.Errorf("it has no stage: must have at least one, or results")
	case len(r.Stages) > 0:
	case len(r.Factors)+len(r.Appendix) > 0:
		return fmt.Errorf("it has results with %d partial factors and %d groups of an appendix: must have none", len(r.Factors), len(r.Appendix))
	case len(r.Inputs) == 0:
		return fmt.Errorf("it has results and no inputs: must have at least one group of them")
	}
	for _, g := range r.Inputs {
		if len(r.Results) > 0 && strings.TrimSpace(g.Title) == "" {
			return fmt.Errorf("a group of inputs has no title: must have one")
		}
	}
	for i, p := range r.Results {
		if err := r.validPart(p); err != nil {
			return fmt.Errorf("result %d %q: %w", i+1, p.Title, err)
		}
	}
	return nil
}

func (r Record) validPart(p ResultRecord) error {
	if strings.TrimSpace(p.Title) == "" {
		return fmt.Errorf("title is empty: must be the heading")
	}
	if len(p.Lines)+len(p.Tables)+len(p.Figures) == 0 {
		return fmt.Errorf("it has no line, table or figure: must have at least one")
	}
	for i, note := range p.Notes {
		if strings.TrimSpace(note) == "" {
			return fmt.Errorf("note %d is empty: must be its words", i+1)
		}
	}
	if err := r.Has(derive.Proof{Lines: p.Lines}); err != nil {
		return err
	}
	for i, t := range p.Tables {
		err := t.valid()
		if err == nil {
			err = t.validStated(len(r.Stages))
		}
		if err != nil {
			return fmt.Errorf("table %d %q: %w", i+1, t.Title, err)
		}
	}
	for i, f := range p.Figures {
		if err := f.valid(); err != nil {
			return fmt.Errorf("figure %d: %w", i+1, err)
		}
	}
	return nil
}

// validStated reports rows for an operation sheet that are not in the table, or for that of a
// stage that the record has not.
func (t ValueTable) validStated(stages int) error {
	if t.Stage < 0 || t.Stage > stages {
		return fmt.Errorf("field Stage = %d: must be 0 to %d, the stages of the record", t.Stage, stages)
	}
	if t.Stage == 0 && len(t.Stated) > 0 {
		return fmt.Errorf("field Stated without Stage: must have the number of the stage whose sheet states the rows")
	}
	for _, n := range t.Stated {
		if n < 1 || n > len(t.Rows) {
			return fmt.Errorf("field Stated has row %d: must be 1 to %d", n, len(t.Rows))
		}
	}
	return nil
}

func (t ValueTable) valid() error {
	switch {
	case strings.TrimSpace(t.Title) == "":
		return fmt.Errorf("title is empty: must be the caption")
	case len(t.Columns) == 0 || len(t.Rows) == 0:
		return fmt.Errorf("%d columns and %d rows: must have at least one of each", len(t.Columns), len(t.Rows))
	}
	for j, c := range t.Columns {
		if strings.TrimSpace(c.Name) == "" || c.Unit == "" {
			return fmt.Errorf("column %d %q in %q: must have a name and a unit", j+1, c.Name, c.Unit)
		}
	}
	if len(t.RowNames) > 0 || t.RowHead != "" {
		switch {
		case strings.TrimSpace(t.RowHead) == "":
			return fmt.Errorf("it has row names and no row head: must have the head of their column")
		case len(t.RowNames) != len(t.Rows):
			return fmt.Errorf("%d row names and %d rows: must have one for each row", len(t.RowNames), len(t.Rows))
		}
		for i, name := range t.RowNames {
			if strings.TrimSpace(name) == "" {
				return fmt.Errorf("the name of row %d is empty: must be its words", i+1)
			}
		}
	}
	for i, row := range t.Rows {
		if len(row) != len(t.Columns) || !finite(row...) {
			return fmt.Errorf("row %d has %d numbers: must have %d, all finite", i+1, len(row), len(t.Columns))
		}
	}
	return nil
}
