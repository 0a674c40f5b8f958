package rigging

import (
	"github.com/tempstage/tempstage/section/formula"
)

// Lines derive what [Pick.Solve] gives: each result is that of the field of [Use]. The
// error is that of Solve.
func (p Pick) Lines() ([]formula.Line, error) {
	if _, err := p.Solve(); err != nil {
		return nil, err
	}
	c := &formula.Chain{}
	capacity := p.Chart.capacityLine(c, p.Radius)
	source := practice
	if p.Part == 1 {
		source = stated
	}
	permissible := c.Derive(newtons("C_p", 0, "permissible gross load"), "n_C*C", source, number("n_C", p.Part, "share of the chart that may be used"), capacity)
	if p.Part == 1 {
		c.Note("the whole chart: one crane alone")
	}
	deductions := c.Derive(newtons("D", 0, "deductions"), "G_r + G_b", formula.Mechanics, newtons("G_r", p.Rigging, "weight of the rigging"), newtons("G_b", p.HookBlock, "weight of the hook block and ropes"))
	load := newtons("R_max", p.Load.Most, "maximum load at the hook at rest")
	expression, note := "Φ*(R_max + D)", "the chart does not contain the dynamic factor of hoisting"
	operands := []formula.Quantity{number("Φ", p.Dynamic, "dynamic factor"), load, deductions}
	if p.Chart.Hoisting {
		expression, note, operands = "R_max + D", "the chart contains the dynamic factor of hoisting: the load at rest is compared", operands[1:]
	}
	gross := c.Derive(newtons("F_g", 0, "gross load of the crane"), expression, p.Chart.Source, operands...)
	c.Note(note)
	c.Derive(number("u", 0, "utilisation of the chart"), "F_g/C_p", formula.Mechanics, gross, permissible)
	return c.Lines()
}

// capacityLine appends the line of the capacity at a radius of the chart.
func (c Chart) capacityLine(to *formula.Chain, radius float64) formula.Quantity {
	i := c.row(radius)
	row := c.Rows[i]
	capacity := newtons("C", row.Load, "gross capacity of "+c.Crane+", "+c.Configuration)
	asked := to.Given(metres("r", radius, "largest radius of the hook"), stated, "")
	if !c.Interpolate || row.Radius == radius {
		to.Given(metres("r_C", row.Radius, "radius of the chart that counts"), c.Source, "the same or the next larger")
		return to.Given(capacity, c.Source, "")
	}
	before := c.Rows[i-1]
	return to.Derive(capacity, "C_a - (C_a - C_b)*(r - r_a)/(r_b - r_a)", c.Source, newtons("C_a", before.Load, "capacity at the next smaller radius"), newtons("C_b", row.Load, "capacity at the next larger radius"),
		asked, metres("r_a", before.Radius, "next smaller radius of the chart"), metres("r_b", row.Radius, "next larger radius of the chart"))
}

// WindLines derive [Chart.WindLimit] of a load of a mass (kg) with a sail area (m²). The
// error is that of WindLimit.
func (c Chart) WindLines(mass, sail float64) ([]formula.Line, error) {
	if _, err := c.WindLimit(mass, sail); err != nil {
		return nil, err
	}
	k := &formula.Chain{}
	if c.Averaging > 0 {
		k.Given(formula.Q("t_v", c.Averaging, formula.Second, "averaging time of the wind speed"), c.Source, "")
		k.Given(metres("h_v", c.Height, "height of the wind speed above the ground"), c.Source, "")
	}
	k.Derive(formula.Q("v", 0, formula.MetrePerSecond, "greatest wind speed for the load"), "min(v_C, v_C*sqrt(a_C*m/A_w))", practice,
		formula.Q("v_C", c.Wind, formula.MetrePerSecond, "greatest wind speed of the chart"), formula.Q("a_C", usualSail, formula.SquareMetrePerKilogram, "sail area by mass that charts are made for"),
		formula.Q("m", mass, formula.Kilogram, "mass of the load"), formula.Q("A_w", sail, formula.SquareMetre, "sail area of the load, projected area times coefficient"))
	return k.Lines()
}
