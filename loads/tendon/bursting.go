package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// AnchorZone is the concrete behind an anchor, in one plane.
type AnchorZone struct {
	Force        float64 // of the tendon, the largest that occurs, unfactored, N, 10e3 to 200e6; both methods apply their own 1.2
	Plate        float64 // a, side of the anchor plate in this plane, m, 0.02 to Depth
	Depth        float64 // h, of the section in this plane, m, 0.05 to 50
	Eccentricity float64 // of the anchor from the middle of Depth, m, within ±Depth/2
	Inclination  float64 // α of the tendon to the axis, rad, within ±0.6, positive where it points towards the middle
}

// Bursting is the transverse tension behind an anchor and its place.
type Bursting struct {
	Tension    float64 // N
	Steel      float64 // area of reinforcement for it at the stress named by the method, m²
	Centre     float64 // of the tension, from the anchor, m
	Dispersion float64 // from the anchor to where the force has spread over Depth, m: beam theory is valid beyond
	// Derivation is the line that gives Tension.
	Derivation []formula.Line
}

func (z AnchorZone) check() error {
	err := within("AnchorZone.",
		bound{"Force", z.Force, "N", leastForce, mostForce},
		bound{"Depth", z.Depth, "m", 0.05, 50},
		bound{"Plate", z.Plate, "m", 0.02, z.Depth},
		bound{"Eccentricity", math.Abs(z.Eccentricity), "m", 0, z.Depth / 2},
		bound{"Inclination", z.Inclination, "rad", -0.6, 0.6},
	)
	if err != nil {
		return err
	}
	if reach := math.Abs(z.Eccentricity) + z.Plate/2; reach > z.Depth/2*(1+1e-9) {
		return fmt.Errorf("%w: AnchorZone: the plate reaches %.4g m from the middle: must be within the section, %.4g m", ErrTendon, reach, z.Depth/2)
	}
	return nil
}

// EN is the bursting tension by the strut-and-tie model of the symmetric prism
// behind the anchor, depth b = h − 2|e|: γP·P/4·(1 − a/b) with γP,unfav = 1.2
// (EN 1992-1-1:2004 8.10.3(4), 2.4.2.2(3), 6.5); steel at 300 MPa, where crack
// widths need no check (8.10.3(4)). The force spreads at arctan 2/3 to each side
// (8.10.3(5)). Spalling at the end face and the zone within the anchor's own
// approval are not covered. Where the plate reaches the edge of its prism there
// is no such strut-and-tie model: that is an error. Confirm against the edition in
// force. The error wraps [ErrTendon].
func (z AnchorZone) EN() (Bursting, error) {
	if err := z.check(); err != nil {
		return Bursting{}, err
	}
	prism := z.Depth - 2*math.Abs(z.Eccentricity)
	if !(z.Plate < prism*(1-1e-9)) { // rounding of the eccentricity
		return Bursting{}, fmt.Errorf("%w: AnchorZone.Plate = %g m reaches the edge of its prism, Depth − 2·|Eccentricity| = %.4g m: must be below it: use a strut-and-tie model of the whole section", ErrTendon, z.Plate, prism)
	}
	line, err := formula.Derive(formula.Q("T_b", 0, formula.Newton, "bursting tension behind the anchor"), "1.2*P/4*(1 - a/(h - 2*e))",
		formula.Source{Document: "EN 1992-1-1:2004", Place: "8.10.3(4) with 2.4.2.2(3)", Confirm: true},
		formula.Q("P", z.Force, formula.Newton, "tendon force at the anchor"), formula.Q("a", z.Plate, formula.Metre, "anchor plate"),
		formula.Q("h", z.Depth, formula.Metre, "depth of the section"), formula.Q("e", math.Abs(z.Eccentricity), formula.Metre, "eccentricity of the anchor"))
	return Bursting{
		Tension: line.Result.Value, Steel: line.Result.Value / 300e6, Centre: prism / 2,
		Dispersion: z.dispersion(), Derivation: []formula.Line{line},
	}, err
}

// dispersion is from the anchor to where the force, spreading at arctan 2/3 from
// the edges of the plate, has reached the farther edge of the section.
func (z AnchorZone) dispersion() float64 {
	return 1.5 * (z.Depth/2 + math.Abs(z.Eccentricity) - z.Plate/2)
}

// AASHTO is the bursting tension 0.25·Pu(1 − a/h) + 0.5·|Pu·sin α| at the distance
// 0.5(h − 2e) + 5e·sin α, which is nearer the anchor where the tendon points away
// from the middle. AASHTO LRFD 5.8.4.5.3 (5.10.9.6.3 before 2017), for a
// rectangular section without discontinuities, an anchor inside the kern and
// plate spacing and inclination (−5° to 20°) as stated there; Pu is 1.2·Force
// (3.4.3.2). Steel at 414 MPa (60 ksi). Confirm against the edition in force. The
// error wraps [ErrTendon].
func (z AnchorZone) AASHTO() (Bursting, error) {
	if err := z.check(); err != nil {
		return Bursting{}, err
	}
	e := math.Abs(z.Eccentricity)
	switch {
	case e > z.Depth/6*(1+1e-9):
		return Bursting{}, fmt.Errorf("%w: AnchorZone.Eccentricity = %g m: must be up to Depth/6 = %.4g m (AASHTO LRFD 5.8.4.5.1): use a strut-and-tie model", ErrTendon, z.Eccentricity, z.Depth/6)
	case !(z.Inclination >= -5.01*math.Pi/180 && z.Inclination <= 20.01*math.Pi/180):
		return Bursting{}, fmt.Errorf("%w: AnchorZone.Inclination = %.4g rad: must be −0.0873 to 0.349 rad (−5° to 20°; AASHTO LRFD 5.8.4.5.1)", ErrTendon, z.Inclination)
	}
	line, err := formula.Derive(formula.Q("T_burst", 0, formula.Newton, "bursting tension behind the anchor"), "0.25*γ*P*(1 - a/h) + 0.5*abs(γ*P*sin(α))",
		formula.Source{Document: "AASHTO LRFD (2017)", Place: "5.8.4.5.3 with 3.4.3.2", Confirm: true},
		formula.Q("γ", 1.2, formula.One, "load factor of the jacking force"),
		formula.Q("P", z.Force, formula.Newton, "tendon force at the anchor"), formula.Q("a", z.Plate, formula.Metre, "anchor plate"),
		formula.Q("h", z.Depth, formula.Metre, "depth of the section"), formula.Q("α", z.Inclination, formula.Radian, "inclination of the tendon"))
	return Bursting{
		Tension: line.Result.Value, Steel: line.Result.Value / 414e6,
		Centre: 0.5*(z.Depth-2*e) + 5*e*math.Sin(z.Inclination), Dispersion: z.dispersion(), Derivation: []formula.Line{line},
	}, err
}
