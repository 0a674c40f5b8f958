package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// Alike is true for checks of one rule at other places: the same question, limit state and
// source, and where the operation itself asks, the same name but for the marks in it.
func (c Check) Alike(other Check) bool { return c.rule() == other.rule() }

// Governs is true where a check governs over another: the worse state first, then the larger
// utilisation, then the smaller margin.
func (c Check) Governs(over Check) bool {
	if c.State == over.State && c.Utilisation == over.Utilisation {
		return c.Margin < over.Margin
	}
	return c.worse(over)
}

// rule is what checks have in common that are alike.
type rule struct {
	kind       limits.Kind
	limitState string
	source     formula.Source
	words      string
}

func (c Check) rule() rule {
	r := rule{kind: c.Kind, limitState: c.LimitState, source: c.Source}
	if c.Kind == "" || c.Source == (formula.Source{}) {
		r.words = unmarked(c.Name)
	}
	return r
}

// unmarked is a name without the words that are marks: those with a digit.
func unmarked(name string) string {
	var kept []string
	for _, word := range strings.Fields(name) {
		if !strings.ContainsFunc(word, unicode.IsDigit) {
			kept = append(kept, word)
		}
	}
	return strings.Join(kept, " ")
}

// compares is true for a check that compares numbers.
func (c Check) compares() bool {
	return c.State != NotEvaluated && (c.Demand != formula.Quantity{} || c.Limit != formula.Quantity{})
}

// checkedIn is the checks of one situation of a plan.
type checkedIn struct {
	stage  int
	brief  bool
	checks []Check
}

// derivedIn says of every check of a plan whether it is written with its derivation: in a
// brief situation one that fails, the governing one of each stage (and of those of it that
// compare numbers the one with the largest utilisation), and of the whole plan the governing
// one of those alike.
func derivedIn(plan []checkedIn) [][]bool {
	derived := make([][]bool, len(plan))
	type place struct{ situation, check int }
	at := func(p place) Check { return plan[p.situation].checks[p.check] }
	stages, used, rules := map[int]place{}, map[int]place{}, map[rule]place{}
	for i, s := range plan {
		derived[i] = make([]bool, len(s.checks))
		for k, c := range s.checks {
			here := place{i, k}
			derived[i][k] = !s.brief || c.State == Fail
			if before, ok := stages[s.stage]; !ok || c.worse(at(before)) {
				stages[s.stage] = here
			}
			if !c.compares() {
				continue
			}
			if before, ok := used[s.stage]; !ok || c.Utilisation > at(before).Utilisation {
				used[s.stage] = here
			}
			if before, ok := rules[c.rule()]; !ok || c.Governs(at(before)) {
				rules[c.rule()] = here
			}
		}
	}
	for _, list := range []map[int]place{stages, used} {
		for _, p := range list {
			derived[p.situation][p.check] = true
		}
	}
	for _, p := range rules {
		derived[p.situation][p.check] = true
	}
	return derived
}

// derived is derivedIn of an analysis.
func (a *Analysis) derived() [][]bool {
	plan := make([]checkedIn, len(a.situations))
	for i, of := range a.situations {
		s := a.run.situations[i]
		plan[i] = checkedIn{stage: s.stage, brief: s.Brief}
		for _, c := range of.checks {
			plan[i].checks = append(plan[i].checks, c.Check)
		}
	}
	return derivedIn(plan)
}

// shownKinds are the kinds of checks that are never written without a derivation.
var shownKinds = []limits.Kind{
	limits.Compression, limits.Tension, limits.TensionSteel, limits.PrincipalTension, limits.WebShear,
	limits.JackStress, limits.LockOffStress, limits.StressingStrength, limits.AnchorSpacing, limits.AnchorEdge, limits.DuctSpacing,
}

// shows is true for a check against a limit of a standard of these kinds.
func (c Check) shows() bool {
	return c.Source != (formula.Source{}) && slices.Contains(shownKinds, c.Kind)
}

// given are the lines of a check of a stage's own that has none and must be shown: demand and
// limit as the stage gave them.
func (c checked) given() []formula.Line {
	if c.proof != nil || len(c.extra) > 0 || !c.compares() {
		return c.extra
	}
	source := c.Source
	if source == (formula.Source{}) {
		source = formula.Source{Document: "input"}
	}
	return []formula.Line{formula.Given(c.Demand, source), formula.Given(c.Limit, source)}
}

// endsStage is true for the last situation of a stage.
func (r *run) endsStage(s *situation) bool {
	return s.index+1 == len(r.situations) || r.situations[s.index+1].stage != s.stage
}

// validDerived reports a check that must have its derivation and has none: one of
// shownKinds in a situation that is not brief, and in a brief one those that are derived there.
func (r Record) validDerived() error {
	var plan []checkedIn
	var names []string
	for i, stage := range r.Stages {
		for k, s := range stage.Situations {
			plan, names = append(plan, checkedIn{i, s.Brief, s.Checks}), append(names, fmt.Sprintf("stage %d, situation %d %q", i+1, k+1, s.Name))
		}
	}
	for i, derived := range derivedIn(plan) {
		for k, c := range plan[i].checks {
			if !derived[k] || !c.compares() || len(c.Tables)+len(c.Lines) > 0 || !plan[i].brief && !c.shows() {
				continue
			}
			must := "must have one; only a check of a brief situation that does not govern may go without"
			if plan[i].brief {
				must = "must have one, though the situation is brief: it fails, or governs its stage or the checks alike"
			}
			return fmt.Errorf("%s: check %q, %s, has no derivation: %s", names[i], c.Name, c.State, must)
		}
	}
	return nil
}

// uncancelled are the rows of a table without those that do nothing there, and without those
// of an action or a tendon that was applied and taken off again with the opposite forces and
// the opposite stress under the same factors: a deck that grows on its supports has a pair of
// them for each move. Rows of one tendon with its losses, or of one action, are one.
func uncancelled(rows []derive.Action) []derive.Action {
	rows = derive.Summed(rows)
	gone := make([]bool, len(rows))
	for i := range rows {
		gone[i] = gone[i] || idle(&rows[i])
		for k := i + 1; k < len(rows) && !gone[i]; k++ {
			if !gone[k] && cancel(&rows[i], &rows[k]) {
				gone[i], gone[k] = true, true
			}
		}
	}
	kept := make([]derive.Action, 0, len(rows))
	for i, row := range rows {
		if !gone[i] {
			kept = append(kept, row)
		}
	}
	return kept
}

// idle is true for a row of which no digit is printed.
func idle(a *derive.Action) bool {
	return max(math.Abs(a.N), math.Abs(a.My), math.Abs(a.Mz), math.Abs(a.Vy), math.Abs(a.Vz), math.Abs(a.T), math.Abs(a.Other), math.Abs(a.Value)) < nothing
}

// cancel is true for rows of actions on supports, or of one tendon, whose numbers add up to
// nothing.
func cancel(a, b *derive.Action) bool {
	if (a.Tendons != nil || b.Tendons != nil) && a.Label != b.Label || !slices.Equal(a.Factors, b.Factors) {
		return false
	}
	none := func(v, w float64) bool { return math.Abs(v+w) <= 1e-9*(1+math.Abs(v)) }
	return none(a.N, b.N) && none(a.My, b.My) && none(a.Mz, b.Mz) && none(a.Vy, b.Vy) && none(a.Vz, b.Vz) && none(a.T, b.T) && none(a.Other, b.Other) && none(a.Value, b.Value)
}
