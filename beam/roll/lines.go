package roll

import "github.com/tempstage/tempstage/section/formula"

// The papers that the formulas are of.
var (
	mast1989 = formula.Source{Document: "Mast, PCI Journal 1989", Place: "part 1", Confirm: true}
	mast1993 = formula.Source{Document: "Mast, PCI Journal 1993", Place: "part 2", Confirm: true}
)

// derivation writes the lines of a girder that rolls.
type derivation struct {
	formula.Chain
	of                        solved
	weight, bow, offset, tilt formula.Quantity // tilt at cracking
	mean, camber              formula.Quantity
	share                     formula.Quantity // wind over weight
	windy                     bool
}

// source is the paper, or statics where its formula is extended by wind.
func (d *derivation) source(paper formula.Source) formula.Source {
	if d.windy {
		return formula.Mechanics
	}
	return paper
}

func metres(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.Metre, name)
}

func radians(symbol, name string) formula.Quantity { return formula.Q(symbol, 0, formula.Radian, name) }

func number(symbol, name string) formula.Quantity { return formula.Q(symbol, 0, formula.One, name) }

// begin are the lines that do not depend on how the girder is held.
func (d *derivation) begin(g Girder, s spans, offset float64, wind Wind) {
	d.weight = formula.Q("W", g.Weight, formula.Newton, "weight of the girder")
	d.camber = metres("f", g.Camber, "camber at mid-length")
	d.windy = wind.Force != 0
	length := metres("L", g.Length, "length of the girder")
	lateral := d.lateral(g)
	var moment formula.Quantity
	if s.left == s.right {
		moment = d.alike(g, length, metres("a", s.left, "overhang at each end"), lateral)
	} else {
		moment = d.unlike(g, length, metres("a_1", s.left, "left overhang"), metres("a_2", s.right, "right overhang"), lateral)
	}
	expression := "abs(s*η) + e_0"
	operands := []formula.Quantity{metres("s", g.Sweep, "sweep at mid-length"), d.mean, metres("e_0", offset, "offset by setting out")}
	if g.Iyz != 0 {
		own := d.Derive(metres("e_w", 0, "mean sideways deflection under the upright weight"), "z_0*abs(I_yz)/I_y", formula.Mechanics, d.bow,
			formula.Q("I_yz", g.Iyz, formula.MetreToFourth, "product moment of area"), formula.Q("I_y", g.Iy, formula.MetreToFourth, "second moment of area about the horizontal axis"))
		expression, operands = expression+" + e_w", append(operands, own)
	}
	d.offset = d.Derive(metres("e", 0, "offset of the centre of gravity from the roll axis or roll centre"), expression, mast1989, operands...)
	d.tilt = d.Derive(radians("θ_cr", "tilt at cracking"), "M_lat/M_g", mast1989,
		formula.Q("M_lat", g.Cracks, formula.NewtonMetre, "lateral moment at cracking"), moment)
	if d.windy {
		d.share = d.Derive(number("q_w", "wind over weight, either way"), "F_w/W", formula.Mechanics,
			formula.Q("F_w", wind.Force, formula.Newton, "wind force on the girder"), d.weight)
	}
}

// lateral is the second moment that resists a load to the side.
func (d *derivation) lateral(g Girder) formula.Quantity {
	result := formula.Q("I_lat", 0, formula.MetreToFourth, "lateral second moment of area")
	about := formula.Q("I_z", g.Iz, formula.MetreToFourth, "second moment of area about the vertical axis")
	if g.Iyz == 0 {
		return d.Derive(result, "I_z", mast1989, about)
	}
	return d.Derive(result, "I_z - I_yz*I_yz/I_y", formula.Mechanics, about, formula.Q("I_yz", g.Iyz, formula.MetreToFourth, "product moment of area"),
		formula.Q("I_y", g.Iy, formula.MetreToFourth, "second moment of area about the horizontal axis"))
}

const (
	bowName    = "mean sideways deflection under the weight laid to the side"
	meanName   = "mean over the length of a bow of 1 at mid-length, from the supports"
	momentName = "largest moment of the self-weight"
)

func modulus(g Girder) formula.Quantity {
	return formula.Q("E_c", g.Modulus, formula.Pascal, "modulus of the concrete on the day")
}

// alike are bow, mean and largest moment between equal overhangs.
func (d *derivation) alike(g Girder, length, a, lateral formula.Quantity) formula.Quantity {
	between := d.Derive(metres("l_1", 0, "distance of the supports"), "L - 2*a", formula.Mechanics, length, a)
	d.bow = d.Derive(metres("z_0", 0, bowName), "W/(12*E_c*I_lat*L*L)*(pow(l_1, 5)/10 - a*a*pow(l_1, 3) + 3*pow(a, 4)*l_1 + 6/5*pow(a, 5))", mast1989,
		d.weight, modulus(g), lateral, length, between, a)
	d.mean = d.Derive(number("η", meanName), "pow(l_1/L, 2) - 1/3", mast1989, between, length)
	return d.Derive(formula.Q("M_g", 0, formula.NewtonMetre, momentName), "max(W*(L/8 - a/2), W*a*a/(2*L))", formula.Mechanics, d.weight, length, a)
}

// unlike are the same between overhangs that differ.
func (d *derivation) unlike(g Girder, length, a, b, lateral formula.Quantity) formula.Quantity {
	first := d.Derive(formula.Q("R_1", 0, formula.Newton, "reaction of the left support"), "W*(L/2 - a_2)/(L - a_1 - a_2)", formula.Mechanics, d.weight, length, a, b)
	second := d.Derive(formula.Q("R_2", 0, formula.Newton, "reaction of the right support"), "W - R_1", formula.Mechanics, d.weight, first)
	slope := d.Derive(formula.Q("c_1", 0, formula.NewtonSquareMetre, "bending stiffness times the slope of the left end"),
		"(W/(24*L)*(pow(L - a_2, 4) - pow(a_1, 4)) - R_1/6*pow(L - a_1 - a_2, 3))/(L - a_1 - a_2)", formula.Mechanics, d.weight, length, a, b, first)
	d.bow = d.Derive(metres("z_0", 0, bowName), "(W*pow(L, 4)/120 - R_1*pow(L - a_1, 4)/24 - R_2*pow(a_2, 4)/24 - W*pow(a_1, 4)/24 - c_1*L*(L/2 - a_1))/(E_c*I_lat*L)",
		formula.Mechanics, d.weight, length, first, a, second, b, slope, modulus(g), lateral)
	d.Note("the bending moment integrated twice, zero at both supports, mean over the length")
	left := d.Derive(number("η_1", "ordinate at the left support of a bow of 1 at mid-length"), "4*a_1*(L - a_1)/(L*L)", formula.Mechanics, a, length)
	right := d.Derive(number("η_2", "ordinate at the right support of a bow of 1 at mid-length"), "4*a_2*(L - a_2)/(L*L)", formula.Mechanics, b, length)
	d.mean = d.Derive(number("η", meanName), "2/3 - η_1 - (η_2 - η_1)*(L/2 - a_1)/(L - a_1 - a_2)", formula.Mechanics, left, right, length, a, b)
	return d.Derive(formula.Q("M_g", 0, formula.NewtonMetre, momentName), "max(R_1*R_1*L/(2*W) - R_1*a_1, W*a_1*a_1/(2*L), W*a_2*a_2/(2*L))", formula.Mechanics, first, length, d.weight, a, b)
}
