package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
)

// tendons is every check of the force along a tendon.
func tendons() []Check {
	rows := friction()
	rows = append(rows, conventions()...)
	rows = append(rows, drawIn()...)
	rows = append(rows, linearDrawIn()...)
	rows = append(rows, elasticShortening()...)
	rows = append(rows, relaxation()...)
	rows = append(rows, longTerm()...)
	return append(rows, anchorZones()...)
}

// enit is a student's worked example to the BPEL. Its loss tables follow from a
// stress of 1455 MPa at the jack, not from the 1488 MPa printed above them.
const enit = "ENIT student memoir, bridge of post-tensioned beams to the BPEL, loss tables"

// computed is a row whose value cannot fail to be computed.
func computed(name string, ours float64) Check {
	return Check{Name: name, Package: "loads/tendon", Ours: func() (float64, error) { return ours, nil }}
}

// friction is the force left after an angle and a length. BPEL gives φ = f·k
// per metre, so the wobble angle per metre is φ/f.
func friction() []Check {
	const f, phi, anglePerMetre = 0.18, 0.002, 0.006
	var rows []Check
	for _, p := range []struct{ x, loss, half float64 }{
		{5.375, 23.889, 0.0005}, {10.75, 47.386, 0.0005}, {21.5, 93.23, 0.005},
		{32.25, 137.58, 0.005}, {37.625, 159.2, 0.05}, {43, 180.48, 0.005},
	} {
		rows = append(rows, computed(fmt.Sprintf("friction loss at x = %g m of 1455 MPa, f 0.18, φ 0.002/m, α = 0.006x", p.x),
			1455*(1-tendon.FrictionFactor(f, anglePerMetre*p.x, phi/f, p.x))).
			from(Published, enit).is(p.loss, "MPa", p.half, lastDigit))
	}
	const hurst = "Hurst, Prestressed Concrete Design, Example 4.3"
	const mosley = "Mosley, Bungey and Hulse, Reinforced Concrete Design, losses of a post-tensioned beam"
	left := func(force, mu, angle, wobble, length float64) float64 {
		return force * tendon.FrictionFactor(mu, angle, wobble, length)
	}
	const stressed = 1.239 * 2850 // kN
	return append(rows,
		computed("20 m, sag 0.558 m, μ 0.25, K 17e-4/m: force at mid-span", left(stressed, 0.25, 4*0.558/20, 17e-4/0.25, 10)).
			from(Remembered, hurst).is(3376, "kN", 0.5, lastDigit),
		computed("20 m, sag 0.558 m, μ 0.25, K 17e-4/m: force at the far end", left(stressed, 0.25, 8*0.558/20, 17e-4/0.25, 20)).
			from(Remembered, hurst).is(3228, "kN", 0.5, lastDigit),
		computed("30 m, sag 0.64 m, μ 0.20, k 0.01/m, 10 500 kN: friction loss at mid-span", 10500-left(10500, 0.2, 2*0.64/15, 0.01, 15)).
			from(Remembered, mosley).is(483, "kN", 0.5, lastDigit),
		computed("30 m, sag 0.64 m, μ 0.20, k 0.01/m: friction loss at the far end", 100*(1-left(1, 0.2, 4*0.64/15, 0.01, 30))).
			from(Remembered, mosley).is(9.0, "%", 0.05, lastDigit))
}

// elasticShortening is what the later tendons take from the earlier ones.
func elasticShortening() []Check {
	const clause = "EN 1992-1-1:2004, (5.44): (n − 1)/(2n)"
	var rows []Check
	for _, c := range []struct {
		n      int
		factor float64
	}{{1, 0}, {2, 0.25}, {4, 0.375}, {5, 0.4}, {10, 0.45}} {
		rows = append(rows, computed(fmt.Sprintf("%d equal tendons one after another: mean part of the elastic loss", c.n), tendon.MeanElasticLoss(c.n, 1, 1, 1)).
			from(ClosedForm, clause).is(c.factor, "1", 1e-15, floatRounding))
	}
	rows = append(rows, inTurn("Lin and Burns, Design of Prestressed Concrete Structures, Example 4-2", "four tendons, n = 6", "psi", 6, 0.3*150000/225, 5, 3600, 2400, 1200, 0)...)
	rows = append(rows, inTurn("lecture notes on losses of prestress (memory): three cables of 50 mm²", "three cables, m = 6", "MPa", 6, eccentric(60e3, 100, 300, 50), 0.5, 32, 16, 0)...)
	const rounded = "the modulus is printed to 0.01 MPa"
	half := func(what string, age string, modulus, change, loss float64) Check {
		return computed(fmt.Sprintf("half of Ep/E%s·Δσ, %s, Δσ = %g MPa", age, what, change), tendon.ElasticLoss(190e3, modulus, change)/2).
			from(Published, enit).is(loss, "MPa", 2e-5, rounded)
	}
	gain := func(age string, modulus, change, gained float64) Check {
		return computed(fmt.Sprintf("whole of Ep/E%s·Δσ under weight added later, Δσ = %g MPa", age, change), tendon.ElasticLoss(190e3, modulus, change)).
			from(Published, enit).is(gained, "MPa", 2e-5, rounded)
	}
	const e14, e60 = 35701.99, 38830.89
	const lin = "Lin and Burns, Design of Prestressed Concrete Structures, "
	const notes = "lecture notes on losses of prestress (memory): "
	return append(rows,
		half("stressing in turn", "14", e14, 8.37487537, 22.2848407),
		half("stressing in turn", "14", e14, 11.0289897, 29.3472163),
		half("stressing in turn", "14", e14, 16.1656796, 43.015517),
		half("stressing in turn", "14", e14, 22.1690061, 58.9898653),
		half("second family", "60", e60, 11.6425005, 28.4834457),
		half("second family", "60", e60, 17.7770684, 43.4917019),
		half("second family", "60", e60, 35.9523348, 87.9575978),
		gain("14", e14, -17.2357202, -91.7256108),
		gain("60", e60, -13.3340994, -65.2439045),
		computed("five cables in turn, m = 6.1664, Σ of stresses 29.079 MPa: mean loss", tendon.ElasticLoss(6.1664, 1, 29.079)/5).
			from(Published, "published sheet of sequential losses of a five-cable beam").is(35.863, "MPa", 0.0005, lastDigit),
		computed("120 × 200 mm, 150 kN at e = 20 mm, m = 7: loss in % of 800 MPa", 100*tendon.ElasticLoss(7, 1, eccentric(150e3, 120, 200, 20))/800).
			from(Published, "published worked example of a 120 × 200 mm pretensioned beam").is(6.125, "%", 0.0005, lastDigit),
		computed("100 × 300 mm, 150 kN at e = 50 mm, m = 6: elastic loss", tendon.ElasticLoss(6, 1, eccentric(150e3, 100, 300, 50))).
			from(Remembered, notes+"100 × 300 mm beam").is(40, "MPa", 0.5, lastDigit),
		computed("15 × 15 in, 1.2 in² at 150 ksi, n = 6: approximate loss", tendon.ElasticLoss(6, 1, 1.2*150000/225)).
			from(Remembered, lin+"Example 4-1").is(4800, "psi", 5, lastDigit),
		computed("15 × 15 in, 1.2 in² at 150 ksi, n = 6: loss on the transformed section", tendon.ElasticLoss(6, 1, 1.2*150000/(225+5*1.2))).
			from(Remembered, lin+"Example 4-1").is(4680, "psi", 5, lastDigit),
		computed("four tendons in turn, n = 6: mean loss", tendon.MeanElasticLoss(4, 6, 1, 1.2*150000/225)).
			from(Remembered, lin+"Example 4-2").is(1800, "psi", 5, lastDigit),
		computed("three cables of 60 kN in turn at e = 50 mm, m = 6: mean of 32, 16 and 0", tendon.MeanElasticLoss(3, 6, 1, eccentric(180e3, 100, 300, 50))).
			from(Remembered, notes+"three cables of 50 mm²").is(16, "MPa", 0.5, lastDigit),
	)
}

// inTurn is what each of some equal tendons loses by those after it.
func inTurn(source, name, unit string, ratio, change, half float64, printed ...float64) []Check {
	moduli, changes := make([]float64, len(printed)), make([]float64, len(printed))
	for i := range printed {
		moduli[i], changes[i] = 1, change
	}
	var rows []Check
	for i, loss := range printed {
		rows = append(rows, Check{Name: fmt.Sprintf("%s: loss of number %d", name, i+1), Package: "loads/tendon", Ours: func() (float64, error) {
			losses, err := tendon.ElasticLosses(ratio, moduli, changes)
			if err != nil {
				return 0, err
			}
			return losses[i], nil
		}}.from(Remembered, source).is(loss, unit, half, lastDigit))
	}
	return rows
}

// eccentric is the concrete stress at the level of a force (N) at eccentricity e
// in a rectangle (mm): P/A + P·e²/I, MPa.
func eccentric(force, breadth, depth, e float64) float64 {
	return force/(breadth*depth) + force*e*e/(breadth*math.Pow(depth, 3)/12)
}
