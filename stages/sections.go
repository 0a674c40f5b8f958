package stages

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// sectionState is the section with its ducts and bonded steel at one time: net
// where ducts are empty, transformed where tendons are grouted.
type sectionState struct {
	index    int
	grouted  []string
	concrete float64 // Ecm of the day, Pa, for the modular ratio
	steelOut bool    // bonded steel is a hole: the concrete on which its loss acts
}

// name says which section it is.
func (s *sectionState) name(tendons int) string {
	switch {
	case tendons == 0:
		return "gross"
	case len(s.grouted) == 0:
		return "net, all ducts out"
	case s.steelOut:
		return "concrete beside the bonded steel"
	default:
		return fmt.Sprintf("transformed, bonded: %s", strings.Join(s.grouted, ", "))
	}
}

// inclusion is the hole or the steel of a tendon at its place in the section.
func (s *sectionState) inclusion(t tendon.Tendon, at section.Point) section.Inclusion {
	if slices.Contains(s.grouted, t.Mark) && s.steelOut {
		return section.Inclusion{At: at, Area: t.Area()}
	}
	if slices.Contains(s.grouted, t.Mark) {
		return section.BondedSteel(at, t.Area(), t.Strand.Modulus/s.concrete)
	}
	return section.Duct(at, t.Duct)
}

// stepOfStressing is one jacking, or the release of tendons, with the section and the stiffness of its day.
type stepOfStressing struct {
	release  bool  // the tendons are let down and taken out
	tendons  []int // in Element.Tendons
	section  *sectionState
	concrete float64  // Ecm(t), Pa
	bonded   []string // tendons grouted by then
	age      float64
	ratios   []float64 // Ep/Ecm(t) of each tendon of the element
}

// modularRatios are Ep/Ecm(t) of all tendons, checked once for every station.
func (r *run) modularRatios(concrete float64) ([]float64, error) {
	ratios := make([]float64, len(r.element.Tendons))
	for i, t := range r.element.Tendons {
		var err error
		if ratios[i], err = tendon.ModularRatio(t.Strand.Modulus, concrete); err != nil {
			return nil, fmt.Errorf("%w: tendon %s: %w", ErrStage, t.Mark, err)
		}
	}
	return ratios, nil
}

// station is everything at one x that does not depend on supports.
type station struct {
	x        float64
	shape    section.Shape
	corners  []section.Point
	gross    section.Properties
	states   []section.Properties // of each sectionState
	tendons  []tendonAt
	steps    []prestressAt // running totals after each step; [0] is before the first
	longTerm []longTerm    // of each situation; nil where later losses are left out
	webs     map[int][]web // levels measured so far, by the number of grouted tendons
}

// tendonAt is a tendon where it passes x.
type tendonAt struct {
	here      bool // x lies between its anchors
	at        section.Point
	direction [3]float64
}

// prestressAt is the effect of all prestress up to a step.
type prestressAt struct {
	plane  section.Plane  // concrete stress, Pa
	forces section.Forces // on the concrete
	force  []float64      // of each tendon, N
}

// at is the station at x.
func (r *run) at(x float64) *station {
	s := &station{x: x, shape: r.element.Section.At(x)}
	s.corners, s.gross = s.shape.Corners(), s.shape.Properties()
	s.tendons = make([]tendonAt, len(r.element.Tendons))
	for i, path := range r.paths {
		if x < path.From() || x > path.To() {
			continue
		}
		t := &s.tendons[i]
		t.here, t.at = true, path.At(x)
		t.direction[0], t.direction[1], t.direction[2] = path.Direction(x)
	}
	s.states = make([]section.Properties, len(r.sections))
	inclusions := make([]section.Inclusion, 0, len(s.tendons))
	for k, state := range r.sections {
		inclusions = inclusions[:0]
		for i, t := range s.tendons {
			if t.here {
				inclusions = append(inclusions, state.inclusion(r.element.Tendons[i], t.at))
			}
		}
		s.states[k] = s.gross.With(inclusions...)
	}
	s.prestress(r)
	s.lose(r)
	return s
}

// prestressIn is the stress and the forces of all prestress in a situation,
// later losses included.
func (s *station) prestressIn(situation *situation) (section.Plane, section.Forces) {
	p := s.steps[situation.steps]
	if s.longTerm == nil {
		return p.plane, p.forces
	}
	l := s.longTerm[situation.index]
	return p.plane.Plus(l.plane), p.forces.Plus(l.forces)
}

// force is the force of a tendon in a situation (N), later losses included.
func (s *station) force(situation *situation, i int, area float64) float64 {
	force := s.steps[situation.steps].force[i]
	if s.longTerm != nil {
		force -= s.longTerm[situation.index].losses[i].Total() * area
	}
	return force
}

// prestress runs through the steps of stressing: each adds its forces on the
// section of its day and takes (Ep/Ecm)·Δσc from the tendons stressed before it
// (EN 1992-1-1 5.10.5.1). The concrete feels that loss unless the earlier tendon
// is bonded: its steel is then part of the section.
func (s *station) prestress(r *run) {
	total := prestressAt{force: make([]float64, len(s.tendons))}
	s.steps = append(make([]prestressAt, 0, len(r.steps)+1), total)
	for k := range r.steps {
		step := &r.steps[k]
		p := s.states[step.section.index]
		total.force = slices.Clone(total.force)
		var added section.Forces
		for _, i := range step.tendons {
			if !s.tendons[i].here {
				continue
			}
			before := total.force[i]
			total.force[i] = 0
			if !step.release {
				total.force[i] = r.forces[i].At(s.x)
			}
			added = added.Plus(s.tendons[i].onConcrete(total.force[i]-before, p.Centroid))
		}
		plane := p.Plane(added)
		var lost section.Forces
		for i, t := range s.tendons {
			if total.force[i] == 0 || slices.Contains(step.tendons, i) {
				continue
			}
			loss := -r.element.Tendons[i].Area() * step.ratios[i] * plane.At(t.at)
			total.force[i] -= loss
			if !slices.Contains(step.bonded, r.element.Tendons[i].Mark) {
				lost = lost.Plus(t.onConcrete(-loss, p.Centroid))
			}
		}
		total.plane = total.plane.Plus(plane).Plus(p.Plane(lost))
		total.forces = total.forces.Plus(added).Plus(lost)
		s.steps = append(s.steps, total)
	}
}

// onConcrete is what a tendon of the given force (N, tension) does to the
// concrete: the opposite of its pull on the cut.
func (t tendonAt) onConcrete(force float64, centroid section.Point) section.Forces {
	y, z := t.at.Y-centroid.Y, t.at.Z-centroid.Z
	along, aside, up := force*t.direction[0], force*t.direction[1], force*t.direction[2]
	return section.Forces{
		N: -along, My: along * z, Mz: along * y,
		Vy: aside, Vz: up, T: z*aside - y*up,
	}
}
