package sheet

import (
	"fmt"
	"io"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// WriteMarkdown writes the calculation sheet: caution, governing checks, basis,
// inputs, stages with their checks and derivations, and what is not checked. The
// error wraps [ErrSheet] for a Record without a stage, or is that of w.
func WriteMarkdown(w io.Writer, record stages.Record) error {
	if len(record.Stages) == 0 {
		return fmt.Errorf("%w: the record of %q has no stage: allowed at least one", ErrSheet, record.Element)
	}
	p := &page{w: w}
	p.head(record)
	p.governing(record)
	p.list("Basis", record.Basis)
	p.inputs(record)
	for _, stage := range record.Stages {
		p.stage(stage)
	}
	p.notChecked(record)
	p.appendix(record)
	return p.err
}

// page writes lines until the first error.
type page struct {
	w     io.Writer
	err   error
	known map[string]formula.Line // printed in this situation, by symbol
}

func (p *page) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// appendix writes the derivations of creep and shrinkage.
func (p *page) appendix(r stages.Record) {
	if len(r.Appendix) == 0 {
		return
	}
	p.line("\n## Appendix: creep and shrinkage")
	p.forget()
	for _, group := range r.Appendix {
		p.line("\n### %s\n", escape(group.Title))
		p.lines(group.Lines)
	}
}

// escape keeps text of the Record from being read as table or markup.
func escape(text string) string {
	return strings.NewReplacer("|", `\|`, "\n", " ", "<", "&lt;", ">", "&gt;").Replace(text)
}

func (p *page) head(r stages.Record) {
	p.line("# Temporary stages of element %s\n", escape(r.Element))
	p.line("| | |\n|---|---|\n| Element | %s, %s long |\n| Project | |\n| Revision | |\n| Prepared | |\n| Checked | |\n| Approved | |\n", escape(r.Element), quantity(r.Length, formula.Metre))
	p.line("**Caution**\n")
	for _, text := range r.Caution {
		p.line("- %s", escape(text))
	}
	p.line("- † written from memory of the standard: confirm against the edition in force.")
	p.line("\n**Result: %s**\n", verdict(r.Status()))
}

// verdict is the outcome in capitals, as it stands at the head of the sheet.
func verdict(s stages.State) string {
	switch s {
	case stages.Pass:
		return "every check made here passes; see also what is not checked"
	case stages.Conditional:
		return "CONDITIONAL: something must be shown first"
	case stages.Fail:
		return "FAIL: a check does not hold"
	}
	return "NOT EVALUATED"
}

func (p *page) list(title string, items []string) {
	p.line("\n## %s\n", title)
	for _, item := range items {
		p.line("- %s", escape(item))
	}
}

func (p *page) governing(r stages.Record) {
	perStage, worst := r.Governing()
	p.line("## Governing check of each stage\n")
	p.line("| Stage | Age d | Governing check | Demand | | Limit | Utilisation | State |")
	p.line("|---|---:|---|---:|---|---:|---:|---|")
	for i, c := range perStage {
		mark := ""
		if i == worst {
			mark = " (worst of all)"
		}
		p.line("| %d %s | %s | %s%s | %s | %s | %s | %.2f | %s |", r.Stages[i].Number, escape(r.Stages[i].Name), number(r.Stages[i].Age),
			escape(c.Name), mark, quantity(c.Demand.Value, c.Demand.Unit), c.Sense, quantity(c.Limit.Value, c.Limit.Unit), c.Utilisation, c.State)
	}
}

func (p *page) inputs(r stages.Record) {
	p.line("\n## Inputs")
	for _, group := range r.Inputs {
		p.forget()
		p.line("\n### %s\n", escape(group.Title))
		p.lines(group.Lines)
	}
	if len(r.Tendons) == 0 {
		return
	}
	p.line("\n### Tendon paths\n")
	p.line("Ends of the pieces; θ is the sum of angles in space and s the length, both from the left anchor.\n")
	p.line("| Tendon | x m | y m | z m | θ rad | s m |\n|---|---:|---:|---:|---:|---:|")
	for _, t := range r.Tendons {
		for _, at := range t.Points {
			p.line("| %s | %.3f | %s | %.3f | %.5f | %.3f |", escape(t.Mark), at.X, fixed(at.Y, formula.Metre, 3), at.Z, at.Angle, at.Length)
		}
	}
}

// forget begins a new part of the sheet: nothing of the part before is taken as
// printed.
func (p *page) forget() { p.known = map[string]formula.Line{} }

// lines writes a derivation as a list, one line of calculation an item. A line
// that stands in this part of the sheet already, with the same numbers, is not
// printed again; nor is an operand.
func (p *page) lines(lines []formula.Line) {
	for _, l := range lines {
		if before, ok := p.known[l.Result.Symbol]; ok && before.Result == l.Result && before.Expression == l.Expression {
			continue
		}
		p.line("- %s", p.calculation(l))
		p.known[l.Result.Symbol] = l
	}
}

// calculation is one line of calculation as text: symbol, expression, result,
// the numbers of the operands that are not known, what it is and its source.
func (p *page) calculation(l formula.Line) string {
	text := escape(l.Result.Symbol)
	if l.Expression != "" {
		text += " = " + strings.ReplaceAll(escape(l.Expression), "*", "·")
	}
	text += " = **" + quantity(l.Result.Value, l.Result.Unit) + "**"
	operands := make([]string, 0, len(l.Operands))
	for _, q := range l.Operands {
		if before, ok := p.known[q.Symbol]; !ok || before.Result.Value != q.Value {
			operands = append(operands, q.Symbol+" = "+quantity(q.Value, q.Unit))
			p.known[q.Symbol] = formula.Line{Result: q, Expression: "operand"}
		}
	}
	if len(operands) > 0 {
		text += " with " + escape(strings.Join(operands, ", "))
	}
	if l.Result.Name != "" {
		text += " — " + escape(l.Result.Name)
	}
	if source := source(l.Source); source != "" {
		text += " [" + source + "]"
	}
	if l.Note != "" {
		text += "; " + escape(l.Note)
	}
	return text
}

// source is a source with a dagger in place of the words to confirm it, which
// stand once at the head of the sheet.
func source(s formula.Source) string {
	mark := ""
	if s.Confirm {
		mark = " †"
	}
	s.Confirm = false
	return escape(s.String()) + mark
}
