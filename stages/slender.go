package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// Slender is what a roll check needs beside section and supports: how far the element
// is from straight and from the middle of what holds it. Every field is stated on
// purpose; a zero is none.
type Slender struct {
	Sweep  float64      // lateral bow at mid-length, as measured or the tolerance of casting, m, 0 to 1; that of the weight of an unsymmetric section is added
	Offset float64      // of lift points or supports from the centre of gravity by setting out, m, 0 to 1; that of the plan is added
	Camber float64      // rise at mid-length, m, −1 to 1
	Seat   *RollingSeat // bearings, bunks or a trailer on which it rolls; nil: the stiffness of its elastic supports
	Braces *Braces      // fixed before the slings are released; nil: none
}

// RollingSeat is how the supports of an element give way when it rolls.
type RollingSeat struct {
	Stiffness  float64 // K of all supports together, N·m/rad, 1e3 to 1e12
	Below      float64 // of the roll centre below the places where the element rests, m, −5 to 20; 0 for bearings
	RollCentre float64 // of the roll centre above the ground, m, 0 to 5; 0 for bearings
	HalfBase   float64 // from the middle to the line about which it tips: half the width of a pad, half the wheel spacing, m, 0.01 to 5
	Kern       float64 // within which the resultant must stay for K to be linear, m, 0 to 5: a sixth of the width of a pad; 0 where K does not depend on it

	sum string // how K follows from elastic supports; "" where it is stated
}

func (l *Slender) check(length float64) error {
	if l == nil {
		return nil
	}
	fields := []ranged{{"Sweep", l.Sweep, "m", 0, 1}, {"Offset", l.Offset, "m", 0, 1}, {"Camber", l.Camber, "m", -1, 1}}
	if seat := l.Seat; seat != nil {
		fields = append(fields, ranged{"Seat.Stiffness", seat.Stiffness, "N·m/rad", 1e3, 1e12}, ranged{"Seat.Below", seat.Below, "m", -5, 20},
			ranged{"Seat.RollCentre", seat.RollCentre, "m", 0, 5}, ranged{"Seat.HalfBase", seat.HalfBase, "m", 0.01, 5}, ranged{"Seat.Kern", seat.Kern, "m", 0, 5})
	}
	if err := outside("Slender.", fields...); err != nil || l.Braces == nil {
		return err
	}
	return l.Braces.check(length)
}

// slim is an element between two lines of supports, as package roll takes it.
type slim struct {
	girder      roll.Girder
	mass        Mass
	left, right float64 // of the lines from its ends, m
	middle      section.Point
	wind        roll.Wind // its height above the centre of gravity
}

// slimOf is a body as a slender girder; an error says what it lacks.
func (r *run) slimOf(s *situation, b int) (slim, error) {
	a := s.acts[b]
	if len(a.body.pieces) != 1 {
		return slim{}, fmt.Errorf("roll of several elements that act as one is not evaluated")
	}
	lines := a.linesAcross()
	if len(lines) != 2 {
		return slim{}, fmt.Errorf("roll on %d lines of supports is not evaluated: must be two", len(lines))
	}
	piece := r.girder.Pieces[a.body.pieces[0]]
	_, most := r.tolerance(piece.WeightGroup)
	of := slim{mass: massOf(r.partsOf(a.body)), left: lines[0].X - a.body.from, right: a.body.to - lines[1].X}
	of.middle = section.Point{Y: (lines[0].Y + lines[1].Y) / 2, Z: (lines[0].Z + lines[1].Z) / 2}
	p := piece.Element.Section.At(piece.Element.Length / 2).Properties()
	of.girder = roll.Girder{
		Length: piece.Element.Length, Weight: of.mass.Weight * most, Modulus: s.concrete[a.body.pieces[0]].Modulus,
		Iy: p.SecondMomentY, Iz: p.SecondMomentZ, Iyz: p.ProductMoment, Sweep: s.Slender.Sweep, Camber: s.Slender.Camber,
	}
	of.wind = r.crosswind(s, b, of.mass.Z)
	tilt, err := r.crackTilt(s, b, of)
	if err != nil {
		return of, err
	}
	of.girder.Cracks = math.Max(1, tilt*of.girder.Moment(of.left, of.right)) // 1 N·m: it is cracked upright
	return of, nil
}

// linesAcross are the middles of the supports at one x, and of the slings of one hook,
// from left to right.
func (a *arrangement) linesAcross() []Support {
	var lines []Support
	var number []float64
	for _, c := range a.columns(nil) {
		for _, i := range c.members {
			p := a.supports[i]
			at := -1
			for k, l := range lines {
				same := math.Abs(l.X-p.X) < 1e-3
				if p.Hook != nil && l.Hook != nil {
					same = *p.Hook == *l.Hook
				}
				if same {
					at = k
				}
			}
			if at < 0 {
				at = len(lines)
				lines, number = append(lines, Support{Hook: p.Hook}), append(number, 0)
			}
			n := number[at]
			l := &lines[at]
			l.X, l.Y, l.Z = (l.X*n+p.X)/(n+1), (l.Y*n+p.Y)/(n+1), (l.Z*n+p.Z)/(n+1)
			number[at]++
		}
	}
	if len(lines) == 2 && lines[0].X > lines[1].X {
		lines[0], lines[1] = lines[1], lines[0]
	}
	return lines
}

// crosswind is the transverse actions on a body as one force, above a level.
func (r *run) crosswind(s *situation, b int, level float64) roll.Wind {
	var w roll.Wind
	for i := range s.current {
		e := &s.current[i]
		if len(e.load.parts) == 0 || !s.acts[b].body.carries(e) || e.inner < 0 || r.causes[e.inner].kind != causeAction {
			continue
		}
		act := r.causes[e.inner].action
		if act.Direction != Transverse {
			continue
		}
		least, most := act.presence()
		for _, p := range e.load.parts {
			force := math.Abs(p.force) * math.Max(math.Abs(least), math.Abs(most))
			w.Force += force
			w.Height += force * (p.z - level)
		}
	}
	if w.Force > 0 {
		w.Height /= w.Force
	}
	return w
}

// crackTilt is the tilt (rad) at which the first corner of a section between the supports
// or over them reaches the mean tensile strength under the lateral bending of the weight,
// beside its stress upright, nominal. It is 0 where one is cracked upright.
func (r *run) crackTilt(s *situation, b int, of slim) (float64, error) {
	piece := s.acts[b].body.pieces[0]
	element := r.girder.Pieces[piece]
	in, err := r.inContact(s.cases[0])
	if err != nil {
		return 0, err
	}
	one, strength := r.nominal(s), s.concrete[piece].TensileMean
	w := of.girder.Weight / of.girder.Length
	first := of.girder.Weight * (of.girder.Length/2 - of.right) / (of.girder.Length - of.left - of.right)
	tilt := math.Inf(1)
	look := func(x float64) float64 {
		least := math.Inf(1)
		moment := -w*x*x/2 + first*math.Max(0, x-of.left)
		if over := x - (of.girder.Length - of.right); over > 0 {
			moment += (of.girder.Weight - first) * over
		}
		hair := ledger.Inset * r.girder.Length()
		at := element.At + math.Max(hair, math.Min(element.Element.Length-hair, x)) // another element may begin at its end
		shape := element.Element.Section.At(x)
		plane, p := r.ledger.Plane(in, at, one), shape.Properties()
		for _, c := range shape.Corners() {
			lateral := math.Abs(p.Stress(section.Forces{Mz: moment}, c))
			if spare := strength - plane.At(c); spare <= 0 {
				least = 0
			} else if lateral > 0 {
				least = math.Min(least, spare/lateral)
			}
		}
		return least
	}
	const looks = 400
	step := of.girder.Length / looks
	for i := range looks + 1 {
		tilt = math.Min(tilt, look(math.Min(of.girder.Length, float64(i)*step)))
	}
	for _, x := range []float64{of.left, of.girder.Length - of.right} {
		tilt = math.Min(tilt, look(x))
	}
	return tilt, nil
}
