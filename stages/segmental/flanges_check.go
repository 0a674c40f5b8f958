package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The engine has every stress on the full section. With reduced properties in every entry of its
// ledger the section would change with each step, and locked-in stresses with it; the effective
// width is moreover that of the moments of a step, not that of an entry. So the sum of the internal
// forces of the step is put on the section once more: N, from tendons that have spread, on the
// full area, bending in height on the effective section. Slabs are reduced only while arms are
// short, so that this is looked at in the first steps alone.

var widthSource = formula.Source{Document: "EN 1992-1-1:2004", Place: "5.3.2.1, (5.7); l_0 of a cantilever 2 × its length", Confirm: true}

// onFlanges is the stress at a joint with the effective width of its slabs.
type onFlanges struct {
	joint       string
	x, side     float64 // side: from which its section is
	arm         float64 // m
	slabs       flanges
	full, part  section.Properties
	limit       limits.Limit
	at          section.Point // corner with the largest tension, m
	stress      float64       // there, Pa, tension +
	onFullWidth float64       // there with full slabs, Pa
}

// flangeChecks are the check of the joint of a free cantilever whose tension with the effective
// width of the slabs is nearest to the limit; none where slabs count in full.
func (s *state) flangeChecks(_ Move, g stages.Girder, e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
	var worst *onFlanges
	for _, p := range s.deck.Piers {
		if !s.free(p) {
			continue
		}
		for _, a := range s.arms(p) {
			for i := 1; i < len(s.joined); i++ {
				if x := s.at[i]; !s.joined[i] || x < a.from+nearly || x > a.to-nearly {
					continue
				}
				more, err := s.onFlangesAt(i, a, g, e, standard)
				if err != nil {
					return nil, fmt.Errorf("joint %s: %w", s.deck.jointName(i), err)
				}
				for k := range more {
					if o := &more[k]; worst == nil || o.spare() < worst.spare() {
						worst = o
					}
				}
			}
		}
	}
	if worst == nil {
		return nil, nil
	}
	check, err := worst.check()
	return []stages.OwnCheck{check}, err
}

// spare is what is left of the permissible tension (Pa).
func (o onFlanges) spare() float64 { return o.limit.Line.Result.Value - o.stress }

// onFlangesAt is the joint left of segment i under each limit of the standard.
func (s *state) onFlangesAt(i int, a arm, g stages.Girder, e stages.Effects, standard limits.Standard) (list []onFlanges, err error) {
	o := onFlanges{joint: s.deck.jointName(i), x: s.at[i], arm: a.to - a.from, side: 1}
	if a.side == Left {
		o.side = -1
	}
	shape := grossBeside(g, o.x, o.side)
	if o.slabs, err = effectiveFlanges(shape, 2*o.arm); err != nil || !o.slabs.reduced() {
		return nil, err
	}
	o.full = shape.Properties()
	if o.part, err = shape.Without(o.slabs.bands...); err != nil {
		return nil, err
	}
	weaker, mark, err := s.weaker(i)
	if err != nil {
		return nil, err
	}
	answers, err := standard.Limits(limits.Question{Kind: limits.Tension, Phase: e.Situation.Phase, Concrete: weaker, Place: limits.Place{Piece: mark, Joint: o.joint}})
	if err != nil {
		return nil, err
	}
	for _, o.limit = range answers {
		if err := o.measure(e, shape); err != nil {
			return nil, err
		}
		list = append(list, o)
	}
	return list, nil
}

// stressAt is the stress at a point of forces about the axis y = z = 0: bending in height on
// the section of which it is asked, N and bending across on the full one.
func (o onFlanges) stressAt(on section.Properties, f section.Forces, at section.Point) float64 {
	f = toCentroid(f, o.full.Centroid)
	return o.full.Stress(section.Forces{N: f.N, Mz: f.Mz}, at) + on.Stress(section.Forces{My: f.My}, at)
}

// measure finds the corner with the largest tension over all ranges.
func (o *onFlanges) measure(e stages.Effects, shape section.Shape) error {
	o.stress = math.Inf(-1)
	most := func(on section.Properties, at section.Point) (float64, error) {
		left, right, err := e.Ranges(o.x, o.limit.Factors, func(f section.Forces) float64 { return o.stressAt(on, f, at) })
		return math.Max(left.Most, right.Most), err
	}
	for _, at := range extremeCorners(shape) {
		of, err := most(o.part, at)
		if err != nil {
			return err
		}
		if of > o.stress {
			o.stress, o.at = of, at
		}
	}
	var err error
	o.onFullWidth, err = most(o.full, o.at)
	return err
}

// extremeCorners are the corners of a section at its top and its bottom.
func extremeCorners(shape section.Shape) (list []section.Point) {
	p := shape.Properties()
	for _, c := range shape.Corners() {
		if c.Z > p.Centroid.Z+p.Top-nearly || c.Z < p.Centroid.Z-p.Bottom+nearly {
			list = append(list, c)
		}
	}
	return list
}

// check derives width and stress.
func (o onFlanges) check() (stages.OwnCheck, error) {
	c := &formula.Chain{}
	arm := formula.Q("l_a", o.arm, formula.Metre, "length of the arm at this step, from the pier axis to the tip")
	c.Derive(formula.Q("l_0", 0, formula.Metre, "length between points of zero moment"), "2*l_a", widthSource, arm)
	for k, name := range [2]string{"top", "bottom"} {
		symbol := [2]string{"t", "b"}[k]
		c.Derive(formula.Q("β_"+symbol, 0, formula.One, "effective part of the "+name+" slab, of each part b_i beside a web min(b_i, 0.2·b_i + 0.1·l_0, 0.2·l_0)"), "b_eff_"+symbol+"/b_"+symbol, widthSource,
			formula.Q("b_eff_"+symbol, o.slabs.effective[k], formula.Metre, "effective width"), formula.Q("b_"+symbol, o.slabs.full[k], formula.Metre, "full width"))
	}
	c.Given(formula.Q("I_eff", o.part.SecondMomentY, formula.MetreToFourth, "second moment of area of the effective section, for bending in height"), formula.Mechanics, "")
	c.Given(formula.Q("I", o.full.SecondMomentY, formula.MetreToFourth, "of the full section"), formula.Mechanics, "")
	full := formula.Q("σ_full", o.onFullWidth, formula.Pascal, "with full slabs, gross section")
	more := formula.Q("Δσ_eff", o.stress-o.onFullWidth, formula.Pascal, "change by the effective width: bending in height on the effective section")
	demand := c.Derive(formula.Q("σ_eff", 0, formula.Pascal, "maximum stress of the joint with the effective width (tension +), over all ranges"), "σ_full + Δσ_eff", formula.Mechanics, full, more)
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	limit := o.limit
	limit.Kind, limit.Name = "", "tension with effective flange width at joint "+o.joint
	check := stages.NewCheck(limit, demand)
	check.X, check.Place = o.x, fmt.Sprintf("joint %s, y = %.2f m, z = %.2f m", o.joint, o.at.Y, o.at.Z)
	check.Note = fmt.Sprintf("arm %.2f m: top slab %.2f, bottom slab %.2f of its width; all tendons in full", o.arm, o.slabs.effective[0]/o.slabs.full[0], o.slabs.effective[1]/o.slabs.full[1])
	return check.Derived(append(lines, limit.Line)...), nil
}
