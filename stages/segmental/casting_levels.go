package segmental

import "math"

// joints are the joints with their camber and what the casting cell sets.
func (f *follower) joints() []CastingJoint {
	last := f.seen[len(f.seen)-1]
	for _, angle := range f.formed {
		angle()
	}
	list := make([]CastingJoint, len(f.state.at))
	for j, x := range f.state.at {
		i := f.deck.owner(j)
		counted := f.counted(last, j)
		of := CastingJoint{Name: f.deck.jointAt(j), Arm: f.deck.armName(i, j), X: x, Deflection: counted.all, Camber: -counted.all}
		of.Least, of.Most = counted.band()
		of.Ordinate = f.shape(j) - f.pierLine(i, x)
		of.Lever = f.lever(i, x)
		face := f.deck.Segments[i].Element
		p := face.Section.At(math.Min(math.Max(x-f.state.at[i], 0), face.Length)).Properties()
		of.Depth = p.Top + p.Bottom
		if next := f.castAgainst(i, j); next >= 0 {
			of.Cast = f.deck.Segments[next].Element.Mark
			of.Angle = f.angle[j]
			if f.casting.Rule == MatchCast {
				of.Angle = f.chord(next) - f.chord(i)
				if next < i {
					of.Angle = -of.Angle
				}
				of.Offset = of.Angle * f.deck.Segments[i].Element.Length
			}
		}
		list[j] = of
	}
	return list
}

// castAgainst is the segment that is cast against the outer joint of segment i; −1 for none:
// a tip, a closure, falsework.
func (f *follower) castAgainst(i, j int) int {
	next := j
	if j == i {
		next = i - 1
	}
	if next < 0 || next >= len(f.deck.Segments) || f.deck.Segments[next].Type != Typical || f.deck.pier(next) != f.deck.pier(i) {
		return -1
	}
	return next
}

// chord is the slope of the chord of segment i as cast, + rising to the right.
func (f *follower) chord(i int) float64 {
	return (f.shape(i+1) - f.shape(i)) / f.deck.Segments[i].Element.Length
}

// pierLine is the line through the joints of the segment on the pier of segment i, at x (m).
func (f *follower) pierLine(i int, x float64) float64 {
	p := f.deck.pier(i)
	return f.shape(p) + f.chord(p)*(x-f.state.at[p])
}

// lever is the distance from x to the tip of the arm of segment i (m).
func (f *follower) lever(i int, x float64) float64 {
	p, sense := f.deck.pier(i), f.deck.arm(i)
	if sense == 0 {
		if sense = 1; x < (f.state.at[i]+f.state.at[i+1])/2 {
			sense = -1
		}
	}
	arm := f.deck.armOf(p, sense)
	if len(arm) == 0 {
		return 0
	}
	return math.Max(0, float64(sense)*(f.deck.tip(arm[len(arm)-1], sense)-x))
}

// levels are the targets of the joints that stand after a move.
func (f *follower) levels(s snapshot) StepLevels {
	of := StepLevels{Step: s.step, Move: s.move, Name: s.name, Day: s.day, Equipment: s.equipment}
	level := func(j int) moved { return moved{all: f.shape(j)}.plus(f.counted(s, j), 1) }
	for j, x := range f.state.at {
		i := f.deck.owner(j)
		if !s.carried[i] {
			continue
		}
		z := level(j)
		target := JointLevel{Name: f.deck.jointAt(j), X: x, Level: z.all, Deflection: f.counted(s, j).all, New: s.attached[i]}
		target.Least, target.Most = z.band()
		target.Slope = (level(i+1).all - level(i).all) / f.deck.Segments[i].Element.Length
		of.Joints = append(of.Joints, target)
	}
	return of
}
