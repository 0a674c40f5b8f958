package derive

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// Draft is a table in full precision, as the engine fills it.
type Draft struct {
	Of   formula.Quantity // what is added up; Value is the engine's own sum
	By   Relation         // how values follow from cells
	At   section.Point    // for Bending: where, m
	Rows []Action         // at least one
}

// Action is a row in full precision; only fields of the Draft's Relation count.
type Action struct {
	Label   string   // the action, in words
	On      int      // number of the section state or cut
	Tendons *Tendons // nil for an action that is no tendon
	N       float64  // N, tension +
	My, Mz  float64  // N·m
	Vy, Vz  float64  // N
	T       float64  // N·m, about the shear centre
	Other   float64  // Pa: warping of the section, restraint within it
	Value   float64  // at factor 1 by the engine, SI
	Factors []Factor // none: 1
	Rests
}

// Tendons are equal tendons of one row.
type Tendons struct {
	Count      int           // at least 1
	Force      float64       // of one, N; a loss negative
	Cos        float64       // x part of its direction
	CosY, CosZ float64       // y and z parts of its direction
	At         section.Point // m; Y is the mean of all
}

// product is the value times all factors.
func (a Action) product() float64 { return times(a.Value, a.Factors) }

// numbers are those of the row.
func (a Action) numbers(at section.Point) numbers {
	n := numbers{
		normal: a.N, momentY: a.My, momentZ: a.Mz, other: a.Other, shearY: a.Vy, shearZ: a.Vz, torsion: a.T,
		pointY: at.Y, pointZ: at.Z, value: a.Value,
	}
	if t := a.Tendons; t != nil {
		n[count], n[force], n[cosX], n[cosY], n[cosZ] = float64(t.Count), t.Force, t.Cos, t.CosY, t.CosZ
		n[levelY], n[levelZ] = t.At.Y, t.At.Z
	}
	return n
}

// valid reports the first number that is not finite, a table without rows and a
// sum that is not that of the rows: more than a tenth of a unit apart.
func (d Draft) valid() error {
	if len(d.Rows) == 0 {
		return fmt.Errorf("%w: table of %s without rows: must have at least one", ErrDerive, d.Of.Symbol)
	}
	sum := 0.0
	for _, a := range d.Rows {
		n, product := a.numbers(d.At), a.product()
		if unbounded(product) || slices.ContainsFunc(n[:], unbounded) {
			return fmt.Errorf("%w: row %q of %s has a number that is not finite: must be finite",
				ErrDerive, a.Label, d.Of.Symbol)
		}
		if a.Tendons != nil && a.Tendons.Count < 1 {
			return fmt.Errorf("%w: row %q of %s with %d tendons: must be at least 1",
				ErrDerive, a.Label, d.Of.Symbol, a.Tendons.Count)
		}
		sum += product
	}
	if last := Coarsest(d.Of.Unit); !(math.Abs(sum-d.Of.Value) <= scaled(0.1, last)) {
		return fmt.Errorf("%w: %s is %.9g %s by its rows and %.9g by the engine: must agree to %g",
			ErrDerive, d.Of.Symbol, sum, d.Of.Unit, d.Of.Value, scaled(0.1, last))
	}
	return nil
}

// largest is beyond any number of an element; its square is finite.
const largest = 1e150

// unbounded is true for what is not finite, or beyond any number of an element.
func unbounded(v float64) bool { return math.IsNaN(v) || math.Abs(v) > largest }

// Bundle joins rows of tendons that have equal numbers: state, relation to x,
// force, direction to x and z, level, factors. Their y may differ (a left and a
// right one): the mean is kept, which gives the same Mz, and the sums of Vy, T, Mz
// and Value. Label is that of all, e.g. "W2 L+R"; join makes it of two.
func Bundle(rows []Action, join func(a, b string) string) []Action {
	out := make([]Action, 0, len(rows))
	tendons := map[int][]int{} // rows of tendons on each state
	for k := range rows {
		a := &rows[k]
		if a.Tendons == nil {
			out = append(out, *a)
			continue
		}
		b := alike(out, tendons[a.On], a)
		if b == nil {
			t := *a.Tendons
			out = append(out, *a)
			out[len(out)-1].Tendons = &t
			tendons[a.On] = append(tendons[a.On], len(out)-1)
			continue
		}
		n, m := float64(b.Tendons.Count), float64(a.Tendons.Count)
		b.Tendons.At.Y = (n*b.Tendons.At.Y + m*a.Tendons.At.Y) / (n + m)
		b.Tendons.CosY = (n*b.Tendons.CosY + m*a.Tendons.CosY) / (n + m)
		b.Tendons.Count += a.Tendons.Count
		b.N, b.My, b.Mz, b.Vy, b.Vz, b.T = b.N+a.N, b.My+a.My, b.Mz+a.Mz, b.Vy+a.Vy, b.Vz+a.Vz, b.T+a.T
		b.Other, b.Value, b.Label = b.Other+a.Other, b.Value+a.Value, join(b.Label, a.Label)
	}
	return out
}

// Summed are rows with those of one label as one where they are on one state or cut and on
// the same supports, run the same way at the same place and have the same factors: a tendon
// with what it has lost since, an action on all parts. What is left has their sums.
func Summed(rows []Action) []Action {
	var out []Action
next:
	for k := range rows {
		a := &rows[k]
		for i := range out {
			if b := &out[i]; b.adds(a) {
				b.N, b.My, b.Mz, b.Vy, b.Vz, b.T = b.N+a.N, b.My+a.My, b.Mz+a.Mz, b.Vy+a.Vy, b.Vz+a.Vz, b.T+a.T
				b.Other, b.Value = b.Other+a.Other, b.Value+a.Value
				if b.Tendons != nil {
					b.Tendons.Force += a.Tendons.Force
				}
				continue next
			}
		}
		out = append(out, *a)
		if a.Tendons != nil {
			t := *a.Tendons
			out[len(out)-1].Tendons = &t
		}
	}
	return out
}

// adds is true for rows of which one is the rest of the other.
func (a *Action) adds(b *Action) bool {
	if a.Label != b.Label || a.On != b.On || a.Rests != b.Rests || !slices.Equal(a.Factors, b.Factors) {
		return false
	}
	s, t := a.Tendons, b.Tendons
	if s == nil || t == nil {
		return s == t
	}
	return s.Count == t.Count && s.Cos == t.Cos && s.CosY == t.CosY && s.CosZ == t.CosZ && s.At == t.At
}

// alike is the row, of those in a list, in which a row of a tendon may be as well; nil for
// none.
func alike(rows []Action, list []int, a *Action) *Action {
	for _, i := range list {
		if equal(a, &rows[i]) {
			return &rows[i]
		}
	}
	return nil
}

// equal is true for rows of tendons on one state that may be in one: alike to 1e-9, far
// below any printed digit, so that left and right ones of one drawing meet.
func equal(a, b *Action) bool {
	s, t := a.Tendons, b.Tendons
	near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-9*math.Max(1, math.Abs(x)) }
	return near(s.Force, t.Force) && near(s.Cos, t.Cos) && near(s.CosZ, t.CosZ) && near(s.At.Z, t.At.Z) &&
		slices.Equal(a.Factors, b.Factors)
}
