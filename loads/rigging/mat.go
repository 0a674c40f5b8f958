package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Mat is what spreads the force of an outrigger, a track or a jack on the ground.
type Mat struct {
	Length, Width float64 // m, 0.2 to 20; the Length is the way in which it bends
	Weight        float64 // N, 0 to 1e6
	Force         float64 // on it, characteristic, N, 1 to 50e6
	Foot          float64 // length of the foot of the outrigger along Length, m, 0.1 to Length
	Bending       float64 // permissible bending moment of the mat, N·m, 1 to 1e9
	Ground        float64 // permissible ground pressure, characteristic, Pa, 10e3 to 2e6
	Edge          float64 // from the edge of the mat to a quay wall, a service, a basement or a slope, m, 0 to 1000
	EdgeNeeded    float64 // the distance that its designer asks for, m, 0 to 1000
}

// Pressed is what the ground below a mat gets.
type Pressed struct {
	Effective   float64 // length over which the mat can spread its force, m
	Pressure    float64 // below that length, Pa
	Utilisation float64 // Pressure over Ground
	EdgeKept    bool    // the distance to the edge is at least that needed
}

// Solve spreads the force evenly over the length that the mat can bend for: a part that
// stands out by c beyond the foot has the moment p·Width·c²/2. The error wraps
// [ErrRigging].
func (m Mat) Solve() (Pressed, error) {
	if err := within("Mat", bound{"Length", m.Length, "m", 0.2, 20}, bound{"Width", m.Width, "m", 0.2, 20}, bound{"Weight", m.Weight, "N", 0, 1e6}, bound{"Force", m.Force, "N", 1, 50e6},
		bound{"Bending", m.Bending, "N·m", 1, 1e9}, bound{"Ground", m.Ground, "Pa", 10e3, 2e6}, bound{"Edge", m.Edge, "m", 0, 1000}, bound{"EdgeNeeded", m.EdgeNeeded, "m", 0, 1000}); err != nil {
		return Pressed{}, err
	}
	if !(m.Foot >= 0.1 && m.Foot <= m.Length) {
		return Pressed{}, fmt.Errorf("%w: Mat.Foot = %g m: must be 0.1 m to the length of the mat, %g m", ErrRigging, m.Foot, m.Length)
	}
	// Force/(Foot + 2·c)·c²/2 = Bending
	q := 2 * m.Bending / m.Force
	c := q + math.Sqrt(q*q+q*m.Foot)
	r := Pressed{Effective: math.Min(m.Length, m.Foot+2*c), EdgeKept: m.Edge >= m.EdgeNeeded}
	r.Pressure = m.Force/(r.Effective*m.Width) + m.Weight/(m.Length*m.Width)
	r.Utilisation = r.Pressure / m.Ground
	return r, nil
}

// Lines derive what [Mat.Solve] gives: each result is that of the field of [Pressed].
// The error is that of Solve.
func (m Mat) Lines() ([]formula.Line, error) {
	r, err := m.Solve()
	if err != nil {
		return nil, err
	}
	c := &formula.Chain{}
	force, foot := newtons("F", m.Force, "force on the mat"), metres("l_f", m.Foot, "length of the foot along the mat")
	length, width := metres("l_m", m.Length, "length of the mat"), metres("b_m", m.Width, "width of the mat")
	twice := c.Derive(metres("q", 0, "twice the permissible moment over the force"), "2*M_m/F", formula.Mechanics, formula.Q("M_m", m.Bending, formula.NewtonMetre, "permissible bending moment of the mat"), force)
	out := c.Derive(metres("c_m", 0, "overhang for which the mat can bend"), "q + sqrt(q*q + q*l_f)", formula.Mechanics, twice, foot)
	c.Note("from F/(l_f + 2·c_m)·c_m²/2 = M_m")
	effective := c.Derive(metres("l_ef", 0, "length over which the mat spreads its force"), "min(l_m, l_f + 2*c_m)", formula.Mechanics, length, foot, out)
	pressure := c.Derive(formula.Q("p_g", 0, formula.NewtonPerSquareMetre, "ground pressure"), "F/(l_ef*b_m) + G_m/(l_m*b_m)", formula.Mechanics, force, effective, width, newtons("G_m", m.Weight, "weight of the mat"), length)
	c.Derive(number("u_g", 0, "utilisation of the ground"), "p_g/p_perm", formula.Mechanics, pressure, formula.Q("p_perm", m.Ground, formula.NewtonPerSquareMetre, "permissible ground pressure"))
	if m.EdgeNeeded > 0 {
		note := "less than is needed"
		if r.EdgeKept {
			note = "at least what is needed"
		}
		c.Given(metres("d_need", m.EdgeNeeded, "distance from an edge that is needed"), stated, "")
		c.Given(metres("d_edge", m.Edge, "distance from the edge of the mat to an edge, service or slope"), stated, note)
	}
	return c.Lines()
}
