package segmental

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// EpoxyRule is the least pressure on an epoxied joint while the epoxy cures: its mean over
// the face and its minimum at any point of it.
type EpoxyRule struct {
	Mean    float64 // Pa, 0.05e6 to 2e6
	Minimum float64 // Pa, 0 to Mean
	Source  formula.Source
}

// EpoxyAASHTO are 0.28 MPa mean and 0.21 MPa minimum.
var EpoxyAASHTO = EpoxyRule{Mean: 0.28e6, Minimum: 0.21e6, Source: formula.Source{Document: "AASHTO LRFD Bridge Construction Specifications", Place: "epoxied joints, 40 and 30 psi", Confirm: true}}

// EpoxyFIP are 0.3 MPa mean and 0.2 MPa minimum.
var EpoxyFIP = EpoxyRule{Mean: 0.3e6, Minimum: 0.2e6, Source: formula.Source{Document: "FIP and European practice of epoxied joints", Confirm: true}}

// EpoxiedJoint is an epoxied joint of a girder.
type EpoxiedJoint struct {
	Name        string  // marks of its segments, left/right, as in the checks of stages
	X           float64 // m
	Left, Right int     // its pieces, from 0
}

// EpoxiedJoints are the epoxied joints of a girder, from left to right along its pieces.
func EpoxiedJoints(g stages.Girder) (list []EpoxiedJoint) {
	for right, p := range g.Pieces {
		if p.Joint != stages.Epoxied {
			continue
		}
		for left, q := range g.Pieces {
			if left != right && math.Abs(q.To()-p.At) <= 1e-6*math.Max(1, g.Length()) {
				list = append(list, EpoxiedJoint{q.Element.Mark + "/" + p.Element.Mark, p.At, left, right})
			}
		}
	}
	return list
}

// Checks are mean and minimum of the pressure on joints of a girder, by their names
// (left/right), or on every epoxied joint where none is named: of each the worse of both
// sides, on which the outline of the segment is the face. Both segments must be joined.
// Pressures are nominal (self-weight, mean prestress) by the theory of bending: a bar
// that is anchored so near that its force has not spread over the face is counted in full.
// The error wraps [ErrSegmental].
func (r EpoxyRule) Checks(e stages.Effects, g stages.Girder, joints ...string) (list []stages.OwnCheck, err error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	chosen, err := chosenJoints(g, joints)
	if err != nil {
		return nil, err
	}
	for _, j := range chosen {
		left, right := pressureOn(e, g, j, j.Left, -1), pressureOn(e, g, j, j.Right, 1)
		mean, minimum := left, left
		if right.mean < left.mean {
			mean = right
		}
		if right.minimum() < left.minimum() {
			minimum = right
		}
		for _, of := range []func() (stages.OwnCheck, error){func() (stages.OwnCheck, error) { return r.meanOf(mean) }, func() (stages.OwnCheck, error) { return r.minimumOf(minimum) }} {
			c, err := of()
			if err != nil {
				return nil, fmt.Errorf("%w: joint %s: %w", ErrSegmental, j.Name, err)
			}
			list = append(list, c)
		}
	}
	return list, nil
}

// check reports the first value that is out of its range.
func (r EpoxyRule) check() error {
	if !(r.Mean >= 0.05e6 && r.Mean <= 2e6) {
		return fmt.Errorf("%w: field %s", ErrSegmental, formula.OutOfRange("EpoxyRule.Mean", r.Mean, "Pa", "", 0.05e6, 2e6))
	}
	if !(r.Minimum >= 0 && r.Minimum <= r.Mean) {
		return fmt.Errorf("%w: field %s", ErrSegmental, formula.OutOfRange("EpoxyRule.Minimum", r.Minimum, "Pa", "", 0, r.Mean))
	}
	if r.Source.Document == "" {
		return fmt.Errorf("%w: field EpoxyRule.Source is empty: must name a document", ErrSegmental)
	}
	return nil
}

// chosenJoints are the joints of the given names, all where there are none.
func chosenJoints(g stages.Girder, names []string) (list []EpoxiedJoint, err error) {
	all, known := EpoxiedJoints(g), []string{}
	for _, j := range all {
		known = append(known, j.Name)
		if len(names) == 0 {
			list = append(list, j)
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%w: girder %q has no epoxied joint: must have at least one", ErrSegmental, g.Mark)
	}
	for _, name := range names {
		found := false
		for _, j := range all {
			if j.Name == name {
				list, found = append(list, j), true
			}
		}
		if !found {
			return nil, fmt.Errorf("%w: joint %q: must be one of %s", ErrSegmental, name, strings.Join(known, ", "))
		}
	}
	return list, nil
}

// facePressure is the pressure on one side of a joint.
type facePressure struct {
	of     EpoxiedJoint
	side   string        // left or right
	mean   float64       // at the centroid of the face, Pa
	height float64       // what bending in height takes off it at the corner with the least, Pa
	width  float64       // the same across
	corner section.Point // with the least, m
}

func (p facePressure) minimum() float64 { return p.mean - p.height - p.width }

// pressureOn is the pressure a hair beside a joint on the face of a piece.
func pressureOn(e stages.Effects, g stages.Girder, j EpoxiedJoint, piece int, side float64) facePressure {
	hair := 1e-7 * g.Length()
	p := g.Pieces[piece]
	shape := p.Element.Section.At(math.Min(math.Max(j.X+side*hair-p.At, 0), p.Element.Length))
	stress := e.Stress(j.X + side*hair)
	centre, corner := shape.Properties().Centroid, shape.Extremes(stress).MostAt
	of := facePressure{of: j, side: "left", mean: -stress.At(centre), height: stress.SlopeZ * (corner.Z - centre.Z), width: stress.SlopeY * (corner.Y - centre.Y), corner: corner}
	if side > 0 {
		of.side = "right"
	}
	return of
}

// meanPressure is the first line of both checks.
func (p facePressure) meanPressure(c *formula.Chain) formula.Quantity {
	return c.Given(formula.Q("p_m", p.mean, formula.Pascal, "mean pressure on the face: compression at its centroid by self-weight, frames, bars and tendons, each with factor 1 and mean prestress; the range of prestress, working load and wind are not in it"), formula.Mechanics, "beside the joint, "+p.side+" of it")
}

func (r EpoxyRule) meanOf(p facePressure) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	return r.compared(c, "mean pressure on the epoxy of joint "+p.of.Name, p, p.meanPressure(c), formula.Q("p_m_min", r.Mean, formula.Pascal, "mean pressure while the epoxy cures"), "whole face, "+p.side+" side")
}

func (r EpoxyRule) minimumOf(p facePressure) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	mean := p.meanPressure(c)
	least := c.Derive(formula.Q("p_min", 0, formula.Pascal, "minimum pressure on the face"), "p_m - Δp_z - Δp_y", formula.Mechanics, mean,
		formula.Q("Δp_z", p.height, formula.Pascal, "taken off by the bending of the same over the height: slope of the stress times the height from the centroid to the corner"), formula.Q("Δp_y", p.width, formula.Pascal, "taken off by the bending of the same across: slope times the width"))
	return r.compared(c, "minimum pressure on the epoxy of joint "+p.of.Name, p, least, formula.Q("p_lim", r.Minimum, formula.Pascal, "minimum pressure while the epoxy cures"),
		fmt.Sprintf("corner y = %.2f m, z = %.2f m, %s side", p.corner.Y, p.corner.Z, p.side))
}

// compared is the check of a pressure against its least value.
func (r EpoxyRule) compared(c *formula.Chain, name string, p facePressure, demand, limit formula.Quantity, place string) (stages.OwnCheck, error) {
	limit = c.Given(limit, r.Source, "")
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.Serviceability, Sense: limits.AtLeast, Source: r.Source, Line: formula.Given(limit, r.Source),
		Scale: formula.Q("p_scale", r.Mean, formula.Pascal, "mean pressure while the epoxy cures")}, demand)
	check.X, check.Place = p.of.X, place
	return check.Derived(lines...), nil
}
