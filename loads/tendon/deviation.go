package tendon

import (
	"fmt"
	"math"
)

// Deviation is the force of a tendon on the concrete at a kink: at a deviator or at the
// hold-down of harped strands.
type Deviation struct {
	At       float64 `json:"at"`             // m
	Angle    float64 `json:"a"`              // change of direction in space, rad
	Before   float64 `json:"b"`              // tendon force on the left, N
	After    float64 `json:"n"`              // tendon force on the right, N
	X        float64 `json:"x,omitempty"`    // force of the tendon on the concrete along x, N
	Y        float64 `json:"y,omitempty"`    // to the left, N
	Z        float64 `json:"z,omitempty"`    // upwards, N
	Force    float64 `json:"f"`              // magnitude, N
	SlopeIn  float64 `json:"sIn,omitempty"`  // in elevation before, m/m
	SlopeOut float64 `json:"sOut,omitempty"` // in elevation after, m/m
}

// Deviations are the forces at every kink of the tendon from left to right after
// locking off: the force of the part after it less that of the part before it. With
// those of [Force.Anchors] they are all forces of an external tendon on the concrete; a
// positive Z is upwards.
func (f *Force) Deviations() []Deviation {
	if !f.made() {
		return nil
	}
	return f.deviations(f.zones)
}

// DeviationsAtJack are the forces at every kink before lock-off, near a jacked end the
// largest at a deviator; those of Deviations for a force that is given.
func (f *Force) DeviationsAtJack() []Deviation {
	if !f.made() {
		return nil
	}
	return f.deviations(f.jacked)
}

func (f *Force) deviations(zones []zone) []Deviation {
	var found []Deviation
	for i, angle := range f.Path.kinks() {
		a, b := &f.Path.stretches[i-1], &f.Path.stretches[i]
		x := b.from
		in, out := a.tangent(x), b.tangent(x)
		d := Deviation{At: x, Angle: angle, After: f.after(zones, x), SlopeIn: in[2], SlopeOut: out[2]}
		d.Before = f.before(zones, x, a.angle+a.turn(x))
		p, q := d.Before/length(in), d.After/length(out)
		d.X, d.Y, d.Z = q*out[0]-p*in[0], q*out[1]-p*in[1], q*out[2]-p*in[2]
		d.Force = length([3]float64{d.X, d.Y, d.Z})
		found = append(found, d)
	}
	return found
}

// after is the force just right of a kink at x.
func (f *Force) after(zones []zone, x float64) float64 {
	if f.course != nil {
		return f.course.at(x).mean
	}
	return at(zones, x+jumpTolerance).force(f.exponent(x))
}

// before is the force just left of a kink at x, where the angle gone through is
// less by the kink.
func (f *Force) before(zones []zone, x, angle float64) float64 {
	if f.course != nil {
		return f.course.before(x).mean
	}
	z := zones[0]
	for _, next := range zones[1:] {
		if next.from < x-jumpTolerance {
			z = next
		}
	}
	return z.force(f.Tendon.Friction * (angle + f.Tendon.Wobble*f.Path.Length(x)))
}

func length(v [3]float64) float64 { return math.Sqrt(v[0]*v[0] + v[1]*v[1] + v[2]*v[2]) }

// Radial is the force per metre of a curved tendon on the concrete inside its bend at
// x, P/R (N/m), and its curvature 1/R in space there (1/m); both 0 where it is straight
// and beyond the anchors. It is the in-plane force of AASHTO LRFD 5.9.5.4.3 which can
// pull a tendon out of a thin or curved web where its cover is small.
func (f *Force) Radial(x float64) (perMetre, curvature float64) {
	if !f.made() || !(x >= f.Path.From() && x <= f.Path.To()) {
		return 0, 0
	}
	curvature = f.Path.Curvature(x)
	return f.At(x) * curvature, curvature
}

// Sharpest is the largest curvature 1/R of the tendon's curved segments (1/m) and its
// place; 0 at the left anchor for a tendon without curves. It looks at the ends of each
// piece and where it is level in space, which is exact for parabolas and for arcs in
// one plane, and at 64 places of a cubic.
func (p *Path) Sharpest() (curvature, at float64) {
	at = p.From()
	if p.empty() {
		return 0, 0
	}
	for i := range p.stretches {
		s := &p.stretches[i]
		places := []float64{s.from, s.to}
		if s.c[2] > 0 {
			places = append(places, s.from-s.c[1]/(2*s.c[2]))
		}
		if s.y.CurvatureRate != 0 || s.z.CurvatureRate != 0 {
			for n := range 63 {
				places = append(places, s.from+(s.to-s.from)*float64(n+1)/64)
			}
		}
		for _, x := range places {
			if !(x >= s.from && x <= s.to) {
				continue
			}
			if c := s.curvature(x); c > curvature {
				curvature, at = c, x
			}
		}
	}
	return curvature, at
}

// AnchorForce is the force of a tendon on the concrete at an anchor.
type AnchorForce struct {
	At          float64 // m
	Jacked      bool    // there is a jack
	Jacking     float64 // largest force here before lock-off, N
	Force       float64 // after lock-off, N
	Inclination float64 // of the tendon to the x axis, rad
	X, Y, Z     float64 // components of Force on the concrete: along x, to the left, upwards, N
}

// Anchors are the forces at the left and the right anchor.
func (f *Force) Anchors() [2]AnchorForce {
	var anchors [2]AnchorForce
	if !f.made() {
		return anchors
	}
	for i, x := range []float64{f.Path.From(), f.Path.To()} {
		along, aside, up := f.Path.Direction(x)
		a := AnchorForce{
			At: x, Jacked: f.Jacking.Ends == BothEnds || f.Jacking.Ends == LeftEnd+Ends(i),
			Jacking: f.AtJack(x), Force: f.At(x), Inclination: math.Acos(math.Min(1, along)),
		}
		inwards := a.Force * float64(1-2*i) // into the element: to the right at the left anchor
		a.X, a.Y, a.Z = inwards*along, inwards*aside, inwards*up
		if a.Jacked { // a given force is known after lock-off only
			a.Jacking = math.Max(a.Jacking, f.Jacking.Stress*f.Tendon.Area())
		}
		anchors[i] = a
	}
	return anchors
}

// CheckDuct is an error where the duct does not fit a web or slab of this thickness (m)
// with the cover asked for on both sides (m). The error wraps [ErrTendon].
func (t Tendon) CheckDuct(thickness, cover float64) error {
	if err := within("tendon "+t.Mark+": ", bound{"thickness", thickness, "m", 0.01, 100}, bound{"cover", cover, "m", 0, 1}); err != nil {
		return err
	}
	if room := thickness - 2*cover; !(t.Duct <= room) {
		return fmt.Errorf("%w: tendon %s: Duct = %g m does not fit %g m of concrete with %g m of cover on each side: must be up to %.4g m", ErrTendon, t.Mark, t.Duct, thickness, cover, math.Max(0, room))
	}
	return nil
}

// WidestDuctAASHTO is the largest outer diameter of a duct in concrete of this
// thickness (m), 0.4 of it. AASHTO LRFD 5.4.6.2; confirm against the edition in
// force.
func WidestDuctAASHTO(thickness float64) float64 { return 0.4 * thickness }
