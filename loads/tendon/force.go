package tendon

import (
	"fmt"
	"math"
	"sort"

	"github.com/tempstage/tempstage/section/formula"
)

// Force is the force along a tendon after jacking and locking off. It is made by
// [Tendon.Jack] and its like; the zero value, or nil, is no force: its numbers are 0,
// and methods that return an error return one.
type Force struct {
	Tendon  Tendon  // the tendon
	Jacking Jacking // the last one
	Path    *Path   // where it runs

	zones   []zone // after lock-off
	jacked  []zone // at the jacks, before lock-off
	earlier []zone // before this jacking; nil when it was the first
	letDown bool   // the last event was a Detension
	sums    []sum
	total   float64 // exponent of the whole tendon

	course course // in place of all zones: a force that is given or pretensioned
	bond   *bond  // of a pretensioned layer; nil for a tendon
}

// Jack is the force along the tendon after this jacking: friction and wobble from the
// jacked ends, then the draw-in with friction reversed, exactly along the exponential
// curves. A draw-in longer than the tendon lowers the force to the far end; draw-ins of
// both ends that meet are solved together. The force does not depend on the approval of
// the post-tensioning system, which may be left out. The error wraps [ErrTendon]: a field out of
// range, or a draw-in that takes the whole force.
func (t Tendon) Jack(j Jacking) (*Force, error) {
	check := t.Check
	if t.Approval == (Approval{}) {
		check = t.checkSteel
	}
	if err := check(); err != nil {
		return nil, err
	}
	path := t.path()
	if err := j.of(t.Mark); err != nil {
		return nil, err
	}
	if j.Given != nil {
		return t.given(j, path)
	}
	f := &Force{Tendon: t, Jacking: j, Path: path}
	f.accumulate()
	end := left
	if j.Ends == RightEnd {
		end = right
	}
	first := f.pulled(end, j.Stress*t.Area())
	first.from, first.to = path.From(), path.To()
	f.jacked = []zone{first}
	if j.Ends == BothEnds {
		f.jacked = f.replace(f.jacked, right, f.pulled(right, j.Stress*t.Area()), true)
	}
	return f.locked()
}

// made says that the force is one of an event, and not a zero value.
func (f *Force) made() bool {
	return f != nil && !f.Path.empty() && len(f.zones)+len(f.course) > 0
}

func (f *Force) unmade(what string) error {
	return fmt.Errorf("%w: %s of a Force that is none: must be made by Tendon.Jack, Force.Restress, Force.Detension or Pretension.Released", ErrTendon, what)
}

// locked is f after lock-off.
func (f *Force) locked() (*Force, error) {
	if f.course != nil {
		return f, nil
	}
	if err := f.lockOff(); err != nil {
		return nil, err
	}
	return f, nil
}

// exponent is f(x) = μ(θ + k·s) from the left anchor.
func (f *Force) exponent(x float64) float64 {
	return f.Tendon.Friction * (f.Path.Angle(x) + f.Tendon.Wobble*f.Path.Length(x))
}

// exponentIn is the exponent at x as it is inside a zone: at the zone's right end
// it is that left of a kink.
func (f *Force) exponentIn(z zone, x float64) float64 {
	if x != z.to {
		return f.exponent(x)
	}
	for i := 1; i < len(f.Path.stretches); i++ {
		if s := &f.Path.stretches[i-1]; x == s.to {
			return f.Tendon.Friction * (s.angle + s.turn(x) + f.Tendon.Wobble*(s.length+s.arc(x)))
		}
	}
	return f.exponent(x)
}

func (f *Force) zone(x float64) zone { return at(f.zones, x) }

// at is the zone that holds x; the right one at a joint.
func at(zones []zone, x float64) zone {
	for i := len(zones) - 1; i > 0; i-- {
		if x >= zones[i].from {
			return zones[i]
		}
	}
	return zones[0]
}

// value is the force of zones at x (N).
func (f *Force) value(zones []zone, x float64) float64 {
	return at(zones, x).force(f.exponent(x))
}

// At is the force at x (N, tension); 0 beyond the anchors.
func (f *Force) At(x float64) float64 {
	if !f.made() || !(x >= f.Path.From() && x <= f.Path.To()) {
		return 0
	}
	if f.course != nil {
		return f.course.at(x).mean
	}
	return f.value(f.zones, x)
}

// Range is the minimum and maximum of the force at x (N, tension): both At for a
// tendon; within the transmission length of pretensioned strands the forces by its long
// and by its short value.
func (f *Force) Range(x float64) (least, most float64) {
	if !f.made() || f.course == nil || !(x >= f.Path.From() && x <= f.Path.To()) {
		return f.At(x), f.At(x)
	}
	o := f.course.at(x)
	return o.least, o.most
}

// AtJack is the force at x before lock-off (N, tension); 0 beyond the anchors. For a
// force that is given it is At, the force after lock-off.
func (f *Force) AtJack(x float64) float64 {
	if !f.made() || !(x >= f.Path.From() && x <= f.Path.To()) {
		return 0
	}
	if f.course != nil {
		return f.course.at(x).mean
	}
	return f.value(f.jacked, x)
}

// Breaks are the places (m) where the law of the force or of the path changes,
// ascending, ends included.
func (f *Force) Breaks() []float64 {
	if !f.made() {
		return nil
	}
	if f.course == nil {
		return breaks(f.Path, f.zones)
	}
	places := f.Path.Breaks()
	for _, o := range f.course {
		places = append(places, o.x)
	}
	sort.Float64s(places)
	return places
}

func breaks(p *Path, zones []zone) []float64 {
	places := p.Breaks()
	for _, z := range zones[1:] {
		places = append(places, z.from)
	}
	sort.Float64s(places)
	return places
}

// Largest is the largest stress along the tendon after lock-off (Pa) and
// where it acts (m): a place at which [Force.At] and [Force.Derivation] give that
// stress. Where it acts just left of a kink, the place is the last float64 before
// the kink, as At gives the force right of it.
func (f *Force) Largest() (stress, at float64) {
	if !f.made() {
		return 0, 0
	}
	area := f.Tendon.Area()
	take := func(x float64) {
		if s := f.At(x) / area; s > stress*(1+sameStress) {
			stress, at = s, x
		}
	}
	for i, z := range f.zones { // monotone in each zone
		take(z.from)
		take(z.to)
		if i < len(f.zones)-1 {
			take(math.Nextafter(z.to, math.Inf(-1)))
		}
	}
	for i, o := range f.course { // linear between
		take(o.x)
		if i > 0 && i < len(f.course)-1 {
			take(math.Nextafter(o.x, math.Inf(-1)))
		}
	}
	return stress, at
}

// sameStress is the rounding of one exponent over a tendon, below which a stress
// is not larger than another one.
const sameStress = 1e-13

// DrawInReach is the reach of the draw-in of each anchor along x (m): a little less
// than the length of tendon that slips back; 0 at an end that is not jacked.
func (f *Force) DrawInReach() (left, right float64) {
	if !f.made() {
		return 0, 0
	}
	for _, z := range f.zones {
		switch z.law {
		case leftDrawIn, leftWhole:
			left = z.to - f.Path.From()
		case rightDrawIn, rightWhole:
			right = f.Path.To() - z.from
		}
	}
	return left, right
}

// Derivation is the force at x as lines of the calculation; suffix is added to
// the symbols so that lines of several tendons can be printed together.
func (f *Force) Derivation(x float64, suffix string) ([]formula.Line, error) {
	switch {
	case !f.made():
		return nil, f.unmade("derivation")
	case f.bond != nil:
		return f.bond.line(x, suffix)
	case f.course != nil:
		return f.stated(x, suffix)
	}
	z := f.zone(x)
	t := f.Tendon
	q := func(symbol string, value float64, unit formula.Unit, name string) formula.Quantity {
		return formula.Q(symbol, value, unit, name)
	}
	jack, err := formula.Derive(q("P_0"+suffix, 0, formula.Newton, "force at the jack, tendon "+t.Mark), "σ_0*A_p", formula.Mechanics,
		q("σ_0", z.jack/t.Area(), formula.Pascal, "jacking stress"), q("A_p", t.Area(), formula.SquareMetre, "area of the strands"))
	if err != nil {
		return nil, err
	}
	angle, length := f.Path.Angle(x), f.Path.Length(x)
	end, side := "left", 1.0
	if z.law == fromRight || z.law == rightDrawIn || z.law == rightWhole {
		end, side = "right", -1
		angle, length = f.Path.Angle(f.Path.To())-angle, f.Path.Length(f.Path.To())-length
	}
	operands := []formula.Quantity{jack.Result,
		q("μ", t.Friction, formula.PerRadian, "friction"), q("k", t.Wobble, formula.RadianPerMetre, "unintentional angular displacement (wobble)"),
		q("θ", angle, formula.Radian, fmt.Sprintf("angle from the jacked end (%s) to x", end)),
		q("s", length, formula.Metre, fmt.Sprintf("length from the jacked end (%s) to x", end)),
	}
	expression, place := "P_0"+suffix+"*exp(-μ*(θ + k*s))", "5.10.5.2, (5.45)"
	switch z.law {
	case leftDrawIn, rightDrawIn:
		angle, length := f.Path.Angle(z.mirror), f.Path.Length(z.mirror)
		if side < 0 {
			angle, length = f.Path.Angle(f.Path.To())-angle, f.Path.Length(f.Path.To())-length
		}
		expression = "P_0" + suffix + "*exp(-μ*(2*(θ_d + k*s_d) - θ - k*s))"
		place = "5.10.5.2 and 5.10.5.3, (5.45) with friction reversed in the draw-in length"
		operands = append(operands, q("θ_d", angle, formula.Radian, "angle from the jacked end to the end of its draw-in length"),
			q("s_d", length, formula.Metre, "length from the jacked end to the end of its draw-in length"))
	case leftWhole, rightWhole:
		expression = "P_a*exp(μ*(θ + k*s))"
		place = "5.10.5.2 and 5.10.5.3, friction reversed from the anchor"
		atAnchor := z.at0
		if side < 0 {
			atAnchor *= math.Exp(-f.exponent(f.Path.To()))
		}
		operands[0] = q("P_a", atAnchor, formula.Newton, fmt.Sprintf("force at the %s anchor after lock-off, solved from ∫ΔP ds = E_p·A_p·w", end))
	}
	force, err := formula.Derive(q("P"+suffix, 0, formula.Newton, "force at x after friction and draw-in, tendon "+t.Mark),
		expression, formula.Source{Document: "EN 1992-1-1:2004", Place: place, Confirm: true}, operands...)
	if err != nil {
		return nil, err
	}
	if z.law == leftWhole || z.law == rightWhole {
		return []formula.Line{force}, nil
	}
	return []formula.Line{jack, force}, nil
}
