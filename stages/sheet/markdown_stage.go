package sheet

import (
	"fmt"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

func (p *page) stage(s stages.StageRecord) {
	p.line("\n## Stage %d: %s, age %s d", s.Number, escape(s.Name), number(s.Age))
	for i, situation := range s.Situations {
		title := situation.Name
		if len(s.Situations) > 1 {
			title = fmt.Sprintf("%d.%d %s", s.Number, i+1, situation.Name)
		}
		p.situation(title, situation)
	}
}

func (p *page) situation(title string, s stages.SituationRecord) {
	until := ""
	if s.Until > 0 {
		until = fmt.Sprintf(", until age %s d", number(s.Until))
	}
	kind := "passing"
	if s.Standing {
		kind = "standing"
	}
	p.forget()
	p.line("\n### %s\n", escape(title))
	p.line("%s situation at age %s d (project day %s)%s, on %s.\n", kind, number(s.Age), number(s.Day), until, escape(s.System))
	for _, event := range s.Events {
		p.line("%s", escape("Event: "+event.Title))
		p.lines(event.Lines)
		p.line("")
	}
	p.line("Strength of the day from: %s.\n", escape(s.Basis))
	p.lines(s.Concrete)
	p.line("")
	p.lines(s.Factors)
	p.reactions(s)
	p.tendons(s)
	p.stations(s)
	p.checks(s)
}

func (p *page) reactions(s stages.SituationRecord) {
	p.line("\n**Reactions**, least and most over weight tolerance and dynamic factors\n")
	p.line("| Support | x m | y m | Weight × 1 kN | Least kN | Most kN |\n|---|---:|---:|---:|---:|---:|")
	for i, r := range s.Reactions {
		p.line("| %d | %.3f | %s | %s | %s | %s |", i+1, r.X, fixed(r.Y, formula.Metre, 3),
			fixed(r.AtFactorOne, formula.Newton, 1), fixed(r.Least, formula.Newton, 1), fixed(r.Most, formula.Newton, 1))
	}
}

func (p *page) tendons(s stages.SituationRecord) {
	if len(s.Tendons) == 0 {
		return
	}
	p.line("\n**Tendon forces** after friction, draw-in and elastic loss\n")
	p.line("| Tendon | Left kN | Middle kN | Right kN | |\n|---|---:|---:|---:|---|")
	for _, t := range s.Tendons {
		bond := "not bonded"
		if t.Bonded {
			bond = "bonded"
		}
		p.line("| %s | %s | %s | %s | %s |", escape(t.Mark), fixed(t.Left, formula.Newton, 1), fixed(t.Middle, formula.Newton, 1), fixed(t.Right, formula.Newton, 1), bond)
	}
}

func (p *page) stations(s stages.SituationRecord) {
	p.line("\n**Effects and stresses**, weight × 1 (w) and mean prestress (p); stresses over all service factors, C compression, T tension\n")
	p.line("| x m | My,w kN·m | Vz,w kN | T,w kN·m | N,p kN | My,p kN·m | Vz,p kN | Mz,p kN·m | top MPa | bottom MPa |")
	p.line("|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|")
	for _, at := range s.Stations {
		top, bottom := "not evaluated", "not evaluated"
		if at.Evaluated {
			top = span(at.TopLeast, at.TopMost)
			bottom = span(at.BottomLeast, at.BottomMost)
		}
		p.line("| %.3f | %s | %s | %s | %s | %s | %s | %s | %s | %s |", at.X,
			fixed(at.Weight.My, formula.NewtonMetre, 0), fixed(at.Weight.Vz, formula.Newton, 0), fixed(at.Weight.T, formula.NewtonMetre, 0),
			fixed(at.Prestress.N, formula.Newton, 0), fixed(at.Prestress.My, formula.NewtonMetre, 0), fixed(at.Prestress.Vz, formula.Newton, 0),
			fixed(at.Prestress.Mz, formula.NewtonMetre, 0), top, bottom)
	}
}

// span is a range of stresses.
func span(least, most float64) string { return signed(least) + " … " + signed(most) }

// signed is a stress with its sign and C or T.
func signed(stress float64) string {
	text := fixed(stress, formula.Pascal, 2)
	switch {
	case strings.Trim(text, "0.") == "":
		return text
	case stress < 0:
		return text + " C"
	}
	return "+" + text + " T"
}

func (p *page) checks(s stages.SituationRecord) {
	p.line("\n**Checks**, each derived below; a line that stands above with the same numbers is not repeated\n")
	p.line("| Check | | x m | Place | Demand | | Limit | Margin | Utilisation | State |")
	p.line("|---|---|---:|---|---:|---|---:|---:|---:|---|")
	for _, c := range s.Checks {
		p.line("| %s | %s | %.3f | %s | %s | %s | %s | %s | %.2f | %s |", escape(c.Name), c.LimitState, c.X, escape(c.Place),
			quantity(c.Demand.Value, c.Demand.Unit), c.Sense, quantity(c.Limit.Value, c.Limit.Unit), quantity(c.Margin, c.Limit.Unit), c.Utilisation, state(c))
	}
	for _, c := range s.Checks {
		p.check(c)
	}
	if len(s.NotChecked) > 0 {
		p.line("\nNot checked in this situation:\n")
		for _, item := range s.NotChecked {
			p.line("- %s", escape(item))
		}
	}
}

// state is the outcome with what must be shown.
func state(c stages.Check) string {
	text := string(c.State)
	if c.Required.Value > 0 {
		text += fmt.Sprintf(": show %s ≥ %s", c.Required.Symbol, quantity(c.Required.Value, c.Required.Unit))
	}
	return text
}

func (p *page) check(c stages.Check) {
	p.line("\n**%s** at x = %.3f m, %s\n", escape(c.Name), c.X, escape(c.Place))
	if c.Corner != "" {
		p.line("Worst factors: %s.\n", escape(c.Corner))
	}
	p.lines(c.Derivation)
	compare := "≤"
	if c.Sense == limits.AtLeast {
		compare = "≥"
	}
	p.line("- %s = %s %s %s = %s: margin %s, **%s** [%s]", c.Demand.Symbol, quantity(c.Demand.Value, c.Demand.Unit), compare, c.Limit.Symbol,
		quantity(c.Limit.Value, c.Limit.Unit), quantity(c.Margin, c.Limit.Unit), state(c), source(c.Source))
	if c.Condition != "" {
		p.line("- %s", escape(c.Condition))
	}
	if c.Note != "" {
		p.line("- %s", escape(c.Note))
	}
}

func (p *page) notChecked(r stages.Record) {
	p.list("Not checked here", r.NotChecked)
}
