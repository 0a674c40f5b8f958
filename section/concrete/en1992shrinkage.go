package concrete

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Shrinkage is εcs = εcd + εca at an age: drying from the end of curing by
// (3.9), (3.10) and (B.11), autogenous by (3.11) to (3.13). EN 1992-1-1:2004
// 3.1.4(6) and B.2, relative humidity 20 to 100 %; kh by Table 3.3, linear
// between its sizes. Confirm against the edition in force.
func (c EN1992) Shrinkage(age float64) (Shrinkage, error) {
	if err := c.checkShrinkage(age); err != nil {
		return Shrinkage{}, err
	}
	rh, h0, t := c.Exposure.Humidity, c.Exposure.NotionalSize*1e3, c.Exposure.drying(age)
	factor, rate := c.Cement.drying()
	nominal := 0.85e-6 * (220 + 110*factor) * math.Exp(-rate*(c.Fck/1e7+0.8)) * 1.55 * (1 - rh*rh*rh) // (B.11), (B.12)
	drying := t / (t + 0.04*h0*math.Sqrt(h0)) * sizeFactor(h0) * nominal                              // (3.9), (3.10)
	autogenous := -math.Expm1(-0.2*math.Sqrt(age)) * 2.5e-6 * (c.Fck/1e6 - 10)                        // (3.11) to (3.13)
	return Shrinkage{Total: drying + autogenous, Drying: drying, Autogenous: autogenous}, nil
}

func (c EN1992) checkShrinkage(age float64) error {
	if err := c.check(); err != nil {
		return err
	}
	if err := c.Exposure.check(0.2); err != nil {
		return err
	}
	return checkAge(age)
}

// drying are αds1 and αds2 of (B.11).
func (c Cement) drying() (factor, rate float64) {
	return c.pick(3, 4, 6), c.pick(0.13, 0.12, 0.11)
}

// sizeFactor is kh of Table 3.3 for h0 in mm, 100 mm and more.
func sizeFactor(h0 float64) float64 {
	sizes, factors := [...]float64{100, 200, 300, 500}, [...]float64{1, 0.85, 0.75, 0.70}
	for i := 1; i < len(sizes); i++ {
		if h0 <= sizes[i] {
			return factors[i-1] + (h0-sizes[i-1])/(sizes[i]-sizes[i-1])*(factors[i]-factors[i-1])
		}
	}
	return factors[len(factors)-1]
}

// ShrinkageLines derive the strain at an age; see [EN1992.Shrinkage].
func (c EN1992) ShrinkageLines(age float64) ([]formula.Line, error) {
	if err := c.checkShrinkage(age); err != nil {
		return nil, err
	}
	k := &chain{source: clause}
	factor, rate := c.Cement.drying()
	rh, h0 := c.Exposure.humidity(), c.Exposure.size()
	humidity := k.number("β_RH", "effect of humidity", "1.55*(1 - pow(RH, 3))", "B.2, (B.12)", rh)
	nominal := k.number("ε_cd0", "nominal drying shrinkage", "0.85e-6*(220 + 110*α_ds1)*exp(-α_ds2*(f_ck + 8e6)/1e7)*β_RH", "B.2, (B.11)",
		formula.Q("α_ds1", factor, formula.One, "cement "+c.Cement.String()), formula.Q("α_ds2", rate, formula.One, "cement "+c.Cement.String()), c.fck(), humidity)
	growth := k.number("β_ds", "development of drying", "t_d/(t_d + 0.04*sqrt(pow(h_0*1e3, 3)))", "3.1.4(6), (3.10)", c.Exposure.dryingTime(age), h0)
	drying := k.number("ε_cd", "drying shrinkage", "β_ds*k_h*ε_cd0", "3.1.4(6), (3.9)", growth,
		formula.Q("k_h", sizeFactor(c.Exposure.NotionalSize*1e3), formula.One, "effect of the size, Table 3.3"), nominal)
	autogenous := k.number("ε_ca", "autogenous shrinkage", "(1 - exp(-0.2*sqrt(t)))*2.5e-6*(f_ck/1e6 - 10)", "3.1.4(6), (3.11) to (3.13)",
		formula.Q("t", age, formula.Day, "age"), c.fck())
	k.number("ε_cs", "shrinkage", "ε_cd + ε_ca", "3.1.4(6), (3.8)", drying, autogenous)
	return k.lines, k.err
}
