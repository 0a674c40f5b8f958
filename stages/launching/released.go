package launching

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// SafetyPacking is packing beside a jack that follows the soffit while it is lowered.
type SafetyPacking struct {
	Gap      float64 // to the soffit when the lock rings are set, at most, m, 0 to 0.05: by it the element comes down where a locked jack is lost, which the other three must survive
	Capacity float64 // permissible force on it, accidental, N, 1e3 to 50e6
	Document string  // from which that comes
}

func (b *SafetyPacking) check() error {
	if b == nil {
		return nil
	}
	if b.Document == "" {
		return fmt.Errorf("%w: field JackDown.SafetyPacking.Document is empty: must be where its capacity comes from", ErrLaunching)
	}
	return within("JackDown.SafetyPacking.", bound{"Gap", b.Gap, "m", 0, 0.05}, bound{"Capacity", b.Capacity, "N", 1e3, 50e6})
}

// sudden is the factor stated, or the usual one.
func (j JackDown) sudden() float64 { return or(j.Sudden, 2) }

// release is how a jack no longer carries: let off slowly, or lost at once.
type release struct {
	words string
	times float64 // factor on its force
	lost  bool    // accidental: every partial factor is 1
}

// released are the checks of what carries while the stack of one jack is repacked, and when
// one jack is lost at once: the packing beside it, or the other three by statics.
func (j JackDown) released(e stages.Effects, standard limits.Standard) (list []stages.OwnCheck, err error) {
	for _, of := range []release{{"while a stack is repacked", 1, false}, {"after the loss of a jack", j.sudden(), true}} {
		if j.SafetyPacking != nil {
			c, err := j.beside(e, of)
			if err != nil {
				return nil, err
			}
			list = append(list, c)
			continue
		}
		more, err := j.onThree(e, standard, of)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

// beside is the check of the packing that takes the force of the governing jack, times a
// factor where that is lost at once.
func (j JackDown) beside(e stages.Effects, of release) (stages.OwnCheck, error) {
	most := governing(e.Reactions)
	source := formula.Source{Document: j.SafetyPacking.Document}
	c, err := compared("force on the packing beside a jack "+of.words, limits.AtMost, source, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return c.Derive(newtons("F_pack", 0, "force on the packing, in place of the jack"), "f_dyn*R_J", formula.Mechanics, lostBy(of.times),
			newtons("R_J", e.Reactions[most].Characteristic.Most, "maximum force of a jack, characteristic")), c.Given(newtons("F_p", j.SafetyPacking.Capacity, "permissible force on the packing"), source, "")
	})
	c.X, c.Place = e.Reactions[most].X, fmt.Sprintf("jack %d, the governing one", most+1)
	if !of.lost {
		gap := formula.Q("g_p", j.SafetyPacking.Gap, formula.Metre, "at every corner before its stack is repacked, gap above it")
		c.Hold = &stages.Hold{Kind: "packing beside jacks", Required: gap, AtMost: true, Assumed: gap}
	}
	return c, err
}

// onThree are the checks of the other three jacks without one, of all four the worst: the
// largest force against the rated force, the smallest against uplift.
func (j JackDown) onThree(e stages.Effects, standard limits.Standard, of release) ([]stages.OwnCheck, error) {
	factors, answered, err := j.forUplift(standard)
	if err != nil {
		return nil, err
	}
	if of.lost {
		factors, answered = limits.Factors{Source: formula.Mechanics}.Filled(), true
	}
	var rated, uplift worstCheck
	for gone := range j.Jacks {
		for at := range j.Jacks {
			if at == gone {
				continue
			}
			lost := e.Reactions[gone].Characteristic.Most
			if part := j.toOther(gone, at); part > 0 {
				c, err := j.ratedOnThree("rated force of a jack "+of.words, e.Reactions[at], lost, part, of.times)
				rated.keep(c, err, j, gone, at)
			} else {
				c, err := j.upliftOnThree("uplift at a jack "+of.words, e.Reactions[at], lost, -part, of.times, factors)
				uplift.keep(c, err, j, gone, at)
			}
		}
	}
	if !answered {
		uplift.check = unanswered("uplift at a jack "+of.words, uplift.check.X, "the standard gives no factors for equilibrium")
	}
	note := "bounded: the extremes of both jacks at once"
	if of.lost {
		note += "; accidental: every partial factor is 1; where a linked pair loses its pressure, nothing carries its line"
	}
	return listed(note, rated, uplift)
}

// worstCheck is the check with the smallest margin of those that it keeps, or the first error.
type worstCheck struct {
	check stages.OwnCheck
	found bool
	err   error
}

// keep keeps the check of a jack without another.
func (w *worstCheck) keep(c stages.OwnCheck, err error, j JackDown, gone, at int) {
	if w.err = errors.Join(w.err, err); w.err != nil || w.found && c.Margin >= w.check.Margin {
		return
	}
	c.X, c.Place = j.Jacks[at].X, fmt.Sprintf("jack %d without jack %d", at+1, gone+1)
	w.check, w.found = c, true
}

// listed are the worst checks with a note.
func listed(note string, worst ...worstCheck) (list []stages.OwnCheck, err error) {
	for _, w := range worst {
		if w.err != nil {
			return nil, w.err
		}
		if w.check.State != stages.NotEvaluated {
			w.check.Note = note
		}
		list = append(list, w.check)
	}
	return list, nil
}

// ratedOnThree is the check of the largest force of a jack that gets a part of one that is gone.
func (j JackDown) ratedOnThree(name string, r stages.Reaction, lost, part, times float64) (stages.OwnCheck, error) {
	return compared(name, limits.AtMost, maker, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return c.Derive(newtons("F_3", 0, "maximum force of a jack without another"), "R_J + f_dyn*ρ_J*R_0", formula.Mechanics,
			newtons("R_J", r.Characteristic.Most, "its maximum force on four jacks, characteristic"), lostBy(times), shareOf(part), goneWith(lost)), j.given(c)
	})
}

// upliftOnThree is the check of the smallest force of a jack that one that is gone relieves.
func (j JackDown) upliftOnThree(name string, r stages.Reaction, lost, part, times float64, f limits.Factors) (stages.OwnCheck, error) {
	c, err := compared(name, limits.AtLeast, f.Source, func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		return c.Derive(newtons("F_3_min", 0, "minimum force of a jack without another"), "γ_inf*R_J - γ_sup*f_dyn*ρ_J*R_0", f.Source,
			formula.Q("γ_inf", f.WeightLeast, formula.One, "on what is favourable"), newtons("R_J", r.Characteristic.Least, "its minimum force on four jacks, characteristic"),
			formula.Q("γ_sup", f.WeightMost, formula.One, "on what is unfavourable"), lostBy(times), shareOf(part), goneWith(lost)), pressing(c, f.Source)
	})
	c.LimitState = limits.Equilibrium
	return c, err
}

// given is the rated force of a jack.
func (j JackDown) given(c *formula.Chain) formula.Quantity {
	return c.Given(newtons("F_J", j.Jack.Rated, "rated force of a jack"), maker, "")
}

// pressing is the minimum force of a jack that does not lift off.
func pressing(c *formula.Chain, source formula.Source) formula.Quantity {
	return c.Given(newtons("R_min", 0, "minimum permissible force of a jack"), source, "")
}

// goneWith is the force of a jack that no longer carries.
func goneWith(lost float64) formula.Quantity {
	return newtons("R_0", lost, "maximum force of the released or lost jack, characteristic")
}

// toOther is the part of the force of a jack that another gets when it is gone, by statics of
// the other three: all to the other of its line, and the couple of that to the other line.
func (j JackDown) toOther(gone, at int) float64 {
	if gone/2 == at/2 {
		return 1
	}
	line := func(n int) float64 { return j.Jacks[n+1].Y - j.Jacks[n].Y }
	part := line(gone/2*2) / line(at/2*2)
	if gone%2 != at%2 {
		return -part
	}
	return part
}

// lostBy is the factor on a force that is let off or lost.
func lostBy(times float64) formula.Quantity {
	return formula.Q("f_dyn", times, formula.One, "factor on a force that is lost at once; 1 while it is let off slowly")
}

// shareOf is the part of a force that another jack gets.
func shareOf(part float64) formula.Quantity {
	return formula.Q("ρ_J", part, formula.One, "part of the force of the released or lost jack, by statics of three points: 1 on its line, the ratio of the widths on the other line")
}

// forUplift are the factors of a standard for equilibrium, on the weight where nothing else
// acts; with actions the larger one on these counts for all that is unfavourable.
func (j JackDown) forUplift(standard limits.Standard) (f limits.Factors, answered bool, err error) {
	answers, err := standard.Limits(limits.Question{Kind: limits.Uplift, Phase: limits.Seating})
	if err != nil || len(answers) == 0 {
		return limits.Factors{Source: formula.Mechanics}.Filled(), false, err
	}
	f = answers[0].Factors.Filled()
	f.Source = answers[0].Source
	for _, a := range j.Actions {
		_, most := f.On(or(a.Kind, limits.Equipment))
		f.WeightMost = math.Max(f.WeightMost, most)
	}
	return f, true, nil
}
