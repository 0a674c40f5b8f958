package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// bound is a value with the range in which it must be.
type bound struct {
	name        string
	value       float64
	unit        string
	least, most float64
}

// within reports the first value that is not in its range.
func within(of string, bounds ...bound) error {
	for _, b := range bounds {
		if !(b.value >= b.least && b.value <= b.most) {
			return fmt.Errorf("%w: field %s", ErrSegmental, formula.OutOfRange(of+b.name, b.value, b.unit, "", b.least, b.most))
		}
	}
	return nil
}

// check reports the first field of the deck that is not as it must be; segments and
// tendons are checked by the girder as well.
func (d Deck) check() error {
	if d.Mark == "" {
		return fmt.Errorf("%w: field Deck.Mark is empty: must be its name", ErrSegmental)
	}
	if len(d.Segments) == 0 {
		return fmt.Errorf("%w: deck %q has no segment: must have at least one", ErrSegmental, d.Mark)
	}
	marks, piers := map[string]bool{}, 0
	for i, s := range d.Segments {
		mark := s.Element.Mark
		if mark == "" || marks[mark] {
			return fmt.Errorf("%w: Segments[%d]: mark %q is empty or used before: must be marks that differ", ErrSegmental, i, mark)
		}
		marks[mark] = true
		switch s.Type {
		case OnPier:
			piers++
		case Typical, Closure, OnGround:
		default:
			return fmt.Errorf("%w: segment %s: Type = %q: must be one of %q", ErrSegmental, mark, s.Type, []Type{Typical, OnPier, Closure, OnGround})
		}
		if err := within("Segment "+mark+" ", bound{"Strength", s.Strength, "Pa", 0, 100e6}, bound{"Element.Length", s.Element.Length, "m", 0.1, 100}); err != nil {
			return err
		}
		if _, err := s.Element.CentreOfGravity(); err != nil {
			return fmt.Errorf("%w: segment %s: %w", ErrSegmental, mark, err)
		}
	}
	if piers == 0 {
		return fmt.Errorf("%w: deck %q has no segment of the type %q: must have one for each pier from which it is built out", ErrSegmental, d.Mark, OnPier)
	}
	if _, _, err := d.Dynamic.Range(); err != nil || d.Dynamic.Least == 0 && d.Dynamic.Most == 0 {
		return fmt.Errorf("%w: field Deck.Dynamic is not stated or out of range: must be the range of the factor on a segment that is lifted, loads.AtRest() for none", ErrSegmental)
	}
	for _, check := range []func() error{d.checkLoads, d.checkKeys, d.checkTieBacks, d.checkBars, d.checkFrames, d.checkPiers, d.checkClosures} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

func (d Deck) checkLoads() error {
	l := d.Loads
	if l == (ArmLoads{}) {
		return nil
	}
	return within("Deck.Loads.", bound{"Width", l.Width, "m", 1, 60}, bound{"OneArm", l.OneArm, "Pa", 0, 5e3}, bound{"OtherArm", l.OtherArm, "Pa", 0, l.OneArm}, bound{"Uplift", l.Uplift, "Pa", 0, 5e3},
		bound{"Across", l.Across, "Pa", 0, 5e3}, bound{"AcrossOther", l.AcrossOther, "Pa", 0, l.Across}, bound{"Above", l.Above, "m", 0, 10})
}

// checkKeys checks the keys of the deck and those of single segments.
func (d Deck) checkKeys() error {
	if d.Keys != nil {
		if err := d.Keys.check("Deck.Keys."); err != nil {
			return err
		}
	}
	for _, s := range d.Segments {
		if s.Keys != nil {
			if err := s.Keys.check("Segment " + s.Element.Mark + " Keys."); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkTieBacks checks the tie-backs of the deck, of its tendons and of its bars, and the ties
// inside the bends of tendons.
func (d Deck) checkTieBacks() error {
	if err := d.TieBack.check("Deck.TieBack."); err != nil {
		return err
	}
	for _, t := range d.Tendons {
		if err := t.TieBack.check("Tendon " + t.Mark + " TieBack."); err != nil {
			return err
		}
		if err := t.Held.check("Tendon " + t.Mark + " Held."); err != nil {
			return err
		}
	}
	for i, b := range d.Bars {
		if err := b.TieBack.check(fmt.Sprintf("Deck.Bars[%d].TieBack.", i)); err != nil {
			return err
		}
	}
	return nil
}

func (d Deck) checkBars() error {
	for i, b := range d.Bars {
		of := fmt.Sprintf("Deck.Bars[%d].", i)
		if len(b.At) == 0 {
			return fmt.Errorf("%w: field %sAt is empty: must have the place of at least one bar", ErrSegmental, of)
		}
		if err := within(of, bound{"Back", b.Back, "m", 0.05, 100}, bound{"Over", b.Over, "m", 0.05, 100}, bound{"Stress", b.Stress, "Pa", 10e6, 2000e6}, bound{"DrawIn", b.DrawIn, "m", 0, 0.02}); err != nil {
			return err
		}
		for n, at := range b.At {
			if err := within(fmt.Sprintf("%sAt[%d].", of, n), bound{"Rise", at.Rise, "", -0.5, 0.5}); err != nil {
				return err
			}
		}
		for _, mark := range b.Of {
			k, err := d.index(mark)
			if err != nil {
				return fmt.Errorf("%w: field %sOf: %w", ErrSegmental, of, err)
			}
			if d.arm(k) == 0 {
				return fmt.Errorf("%w: field %sOf has %s, which is on a pier: must be segments that are built out", ErrSegmental, of, mark)
			}
		}
	}
	return nil
}

// checkClosures checks that each work is of a closure of its own.
func (d Deck) checkClosures() error {
	seen := map[string]bool{}
	for i, w := range d.Closures {
		k, err := d.index(w.Closure)
		if err != nil {
			return fmt.Errorf("%w: field Deck.Closures[%d].Closure: %w", ErrSegmental, i, err)
		}
		if d.Segments[k].Type != Closure || seen[w.Closure] {
			return fmt.Errorf("%w: field Deck.Closures[%d].Closure = %q, a %q: must be a closure, each once", ErrSegmental, i, w.Closure, d.Segments[k].Type)
		}
		seen[w.Closure] = true
		if err := w.within(); err != nil {
			return err
		}
	}
	return nil
}

// checkPiers checks that each pier is below a segment of its own.
func (d Deck) checkPiers() error {
	at := d.at()
	for _, p := range d.Piers {
		below := false
		for i, s := range d.Segments {
			below = below || s.Type == OnPier && p.At > at[i] && p.At < at[i+1]
		}
		if !below {
			return fmt.Errorf("%w: pier %q: At = %g m: must be below a segment of the type %q", ErrSegmental, p.Mark, p.At, OnPier)
		}
	}
	return nil
}
