package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// levels are how far each row is down before the first pass and after each.
func (t Strike) levels() ([]lowering, error) {
	now := make(lowering, len(t.On.Rows))
	list := []lowering{slices.Clone(now)}
	for i, p := range t.Passes {
		if len(p.Rows) == 0 {
			return nil, fmt.Errorf("in Strike.Passes[%d]: Rows is empty: must be marks of FalseworkRows.Rows", i)
		}
		if p.By != 0 {
			if err := outside(fmt.Sprintf("Strike.Passes[%d].", i), ranged{"By", p.By, "m", 1e-4, 0.5}); err != nil {
				return nil, err
			}
		}
		for k, mark := range p.Rows {
			row := t.On.index(mark)
			switch {
			case row < 0:
				return nil, fmt.Errorf("in Strike.Passes[%d]: row %q is not there: must be a mark of FalseworkRows.Rows", i, mark)
			case slices.Contains(p.Rows[:k], mark):
				return nil, fmt.Errorf("in Strike.Passes[%d]: row %q is named twice: must be named once in a pass", i, mark)
			case math.IsNaN(now[row]):
				return nil, fmt.Errorf("in Strike.Passes[%d]: row %q is struck already: must be taken away once", i, mark)
			case p.By == 0 && now[row] == 0:
				return nil, fmt.Errorf("in Strike.Passes[%d]: row %q is taken away and was not lowered: must be lowered in a pass before, until it is free", i, mark)
			case p.By == 0:
				now[row] = math.NaN()
			default:
				now[row] += p.By
			}
		}
		list = append(list, slices.Clone(now))
	}
	return list, t.ends(now)
}

// ends reports a row that is left at the end and should not be, or the other way round.
func (t Strike) ends(l lowering) error {
	for _, mark := range t.Keeps {
		if t.On.index(mark) < 0 {
			return fmt.Errorf("field Strike.Keeps names row %q, which is not there: must be marks of FalseworkRows.Rows", mark)
		}
	}
	for i, r := range t.On.Rows {
		switch kept := slices.Contains(t.Keeps, r.Mark); {
		case kept && math.IsNaN(l[i]):
			return fmt.Errorf("row %q is taken away in Strike.Passes and named in Strike.Keeps: must be one or the other", r.Mark)
		case !kept && !math.IsNaN(l[i]):
			return fmt.Errorf("row %q is left standing after the last of Strike.Passes: must be taken away, or be named in Strike.Keeps", r.Mark)
		}
	}
	return nil
}

// follows reports that the falsework is not that on which the span stands.
func (t Strike) follows(h History) error {
	on := t.On.supports(make(lowering, len(t.On.Rows)))
	for _, s := range on {
		if !slices.ContainsFunc(h.Supports, func(q Support) bool {
			return q.X == s.X && q.Y == s.Y && q.Role == s.Role && q.Stiffness == s.Stiffness && q.Level == s.Level
		}) {
			return fmt.Errorf("the span does not stand on the %s at x = %g m, y = %g m of FalseworkRows %s: must be the falsework of CastInPlace, the stage before", s.word(), s.X, s.Y, t.On.Mark)
		}
	}
	if len(on) != len(h.Supports) {
		return fmt.Errorf("the span stands on %d supports and FalseworkRows %s has %d: must be the falsework of CastInPlace, the stage before", len(h.Supports), t.On.Mark, len(on))
	}
	return nil
}

// next are the rows that the pass after the i-th takes away.
func (t Strike) next(i int) []string {
	if i+1 < len(t.Passes) && t.Passes[i+1].By == 0 {
		return t.Passes[i+1].Rows
	}
	return nil
}

// words are what a pass does.
func (t Strike) words(i int) string {
	p := t.Passes[i]
	rows := "row " + p.Rows[0]
	if len(p.Rows) > 1 {
		rows = "rows " + strings.Join(p.Rows, ", ")
	}
	if p.By == 0 {
		return rows + " away"
	}
	return fmt.Sprintf("%s lowered %g mm", rows, math.Round(p.By*1e7)/1e4)
}
