package stages

import (
	"fmt"
	"reflect"
	"slices"

	"github.com/tempstage/tempstage/beam"
)

// Hung are supports on a second member that counts by its stiffness only: hangers of
// an overhead gantry, or jacks on a falsework girder. They share by its bending and
// their own Stiffness in series (0: a rigid hanger). Its At is in the x of the girder.
// OutOfLevel must be stated unless every support is adjusted by force: has a Preload,
// or is Held. Hangers of equal force in one situation (a Group) that have no Group in
// the next keep those forces, as with lock rings, and share only later loads.
// Neglected: weight, earlier deflection and strength of the member. Elements that act
// apart may share one member only where statics gives the forces of each.
func Hung(from beam.Link, supports ...Support) []Support {
	hung := make([]Support, len(supports))
	for i, s := range supports {
		s.Link = &from
		hung[i] = s
	}
	return hung
}

// checkLink reports what a support on a second member cannot be.
func (s Support) checkLink() error {
	if s.Link == nil {
		return nil
	}
	for i, e := range s.Link.Stiffness {
		if e.BendingAt != nil || e.ShearAt != nil {
			return fmt.Errorf("in Link %q: Stiffness[%d] has a function: must be numbers, for the record", s.Link.Name, i)
		}
	}
	switch x := s.X - s.Link.At; {
	case s.Hook != nil || s.Fixed || s.RotationalStiffness > 0 || s.sense() < 0:
		return fmt.Errorf("a %s on Link %q with Hook = %t, Fixed = %t, RotationalStiffness = %g N·m/rad: must be a support that lifts or pushes up, and nothing else",
			s.word(), s.Link.Name, s.Hook != nil, s.Fixed, s.RotationalStiffness)
	case !(x >= 0 && x <= s.Link.Length):
		return fmt.Errorf("field X is not on Link %q: must be between its ends, %g m and %g m", s.Link.Name, s.Link.At, s.Link.At+s.Link.Length)
	}
	return s.Link.Check()
}

// checkLinks reports two members of one name.
func checkLinks(supports []Support) error {
	known := map[string]*beam.Link{}
	for _, s := range supports {
		if s.Link == nil {
			continue
		}
		if before := known[s.Link.Name]; before != nil && !reflect.DeepEqual(before, s.Link) {
			return fmt.Errorf("support at x = %g m: Link %q differs from the one before: must be one member of that name", s.X, s.Link.Name)
		}
		known[s.Link.Name] = s.Link
	}
	return nil
}

// byForce is true for supports on a second member, all adjusted by force.
func byForce(supports []Support) bool {
	return !slices.ContainsFunc(supports, func(s Support) bool { return !s.Held && (s.Link == nil || s.Preload == 0) })
}

// links are the second members that couple the supports.
func (a *arrangement) links() []beam.Link {
	var list []beam.Link
	for _, s := range a.supports {
		if s.Link == nil || slices.ContainsFunc(list, func(l beam.Link) bool { return l.Name == s.Link.Name }) {
			continue
		}
		l := *s.Link
		l.At -= a.body.from
		list = append(list, l)
	}
	return list
}

// apart refuses bodies that would share by one member: each is solved alone.
func apart(acts []*arrangement) error {
	for _, a := range acts {
		if !a.elastic {
			continue
		}
		for _, l := range a.links() {
			for _, o := range acts {
				if o != a && slices.ContainsFunc(o.links(), func(k beam.Link) bool { return k.Name == l.Name }) {
					return fmt.Errorf("in Link %q carries pieces that do not act together and share by its stiffness: must be joined, or have as many supports each as statics answers", l.Name)
				}
			}
		}
	}
	return nil
}

// linkNotes says of what second members are left out.
func (s *situation) linkNotes() []string {
	var notes []string
	for _, a := range s.acts {
		for _, l := range a.links() {
			note := fmt.Sprintf("%s: taken by its stiffness only; its strength, stability and own deflection are not checked", l.Name)
			if !slices.Contains(notes, note) {
				notes = append(notes, note)
			}
		}
	}
	return notes
}
