package tendon

import "github.com/tempstage/tempstage/section/formula"

var (
	prEN10138strand = formula.Source{Document: "prEN 10138-3 (2006 draft) and EN 1992-1-1:2004", Place: "strand table; 3.3.6(3)", Confirm: true}
	prEN10138bar    = formula.Source{Document: "prEN 10138-4 (2006 draft) and EN 1992-1-1:2004", Place: "bar table; 3.3.6(2)", Confirm: true}
	astmA416        = formula.Source{Document: "ASTM A416 (2018), low relaxation, and AASHTO LRFD", Place: "grade table; 5.4.4.2", Confirm: true}
	astmA722        = formula.Source{Document: "ASTM A722 (2018), type II, and AASHTO LRFD", Place: "bar table; 5.4.4.2", Confirm: true}
)

// sevenWire is a strand of prEN 10138-3 with its area in mm² and its strengths
// in MPa.
func sevenWire(name string, diameter, area, tensile, proof float64) Strand {
	return Strand{Name: name, Area: area * 1e-6, Fpk: tensile * 1e6, Fp01k: proof * 1e6, Modulus: 195e9,
		Source: prEN10138strand, Diameter: diameter * 1e-3, Relaxation: Class2}
}

// Seven-wire strands of prEN 10138-3, draft of 2006: proof stress 0.88 of the
// tensile strength as the draft's rounded forces give it (the draft of 2000 had
// 0.86). Confirm against the strand's approval.
var (
	Y1860S7x125 = sevenWire("Y1860S7-12.5", 12.5, 93, 1860, 1640)
	Y1860S7x129 = sevenWire("Y1860S7-12.9", 12.9, 100, 1860, 1640)
	Y1860S7x153 = sevenWire("Y1860S7-15.3", 15.3, 140, 1860, 1640)
	Y1860S7x157 = sevenWire("Y1860S7-15.7", 15.7, 150, 1860, 1640)
	Y1770S7x153 = sevenWire("Y1770S7-15.3", 15.3, 140, 1770, 1560)
	Y1770S7x157 = sevenWire("Y1770S7-15.7", 15.7, 150, 1770, 1560)
)

// bar is a hot-rolled bar of prEN 10138-4 in mm, mm² and MPa.
func bar(name string, diameter, area, tensile, proof float64) Strand {
	return Strand{Name: name, Area: area * 1e-6, Fpk: tensile * 1e6, Fp01k: proof * 1e6, Modulus: 205e9,
		Source: prEN10138bar, Diameter: diameter * 1e-3, Relaxation: Class3}
}

// Ribbed bars of prEN 10138-4, draft of 2006, as temporary tendons. Confirm against the
// bar's approval; repeated use lowers the permissible stress.
var (
	Y1050H265 = bar("Y1050H-26.5", 26.5, 552, 1050, 950)
	Y1050H32  = bar("Y1050H-32", 32, 804, 1050, 950)
	Y1050H36  = bar("Y1050H-36", 36, 1018, 1050, 950)
	Y1050H40  = bar("Y1050H-40", 40, 1257, 1050, 950)
	Y1030H265 = bar("Y1030H-26.5", 26.5, 552, 1030, 835)
	Y1030H32  = bar("Y1030H-32", 32, 804, 1030, 835)
	Y1030H36  = bar("Y1030H-36", 36, 1018, 1030, 835)
	Y1030H40  = bar("Y1030H-40", 40, 1257, 1030, 835)
)

const (
	ksi        = 6.894757293168361e6 // Pa
	inch       = 0.0254              // m
	squareInch = inch * inch         // m²
)

// astm is a steel with its diameter in in, its area in in² and its strengths in ksi.
func astm(name string, diameter, area, tensile, yield, modulus float64, source formula.Source) Strand {
	class := Class2
	if source == astmA722 {
		class = Class3
	}
	return Strand{Name: name, Area: area * squareInch, Fpk: tensile * ksi, Fp01k: yield * ksi, Modulus: modulus * ksi,
		Source: source, Diameter: diameter * inch, Relaxation: class}
}

// Low-relaxation seven-wire strands of ASTM A416 and bars of ASTM A722. Their
// yield stress is at 1 % extension (strand, 0.90·fpu) or at 0.2 % offset or 0.7 %
// extension (bar, 0.80·fpu), not a 0.1 % proof stress. Confirm against the
// edition in force.
var (
	Grade270x05        = astm("ASTM A416 grade 270, 0.5 in", 0.5, 0.153, 270, 243, 28500, astmA416)
	Grade270x05Special = astm("ASTM A416 grade 270, 0.5 in special", 0.52, 0.167, 270, 243, 28500, astmA416)
	Grade270x06        = astm("ASTM A416 grade 270, 0.6 in", 0.6, 0.217, 270, 243, 28500, astmA416)
	Grade250x05        = astm("ASTM A416 grade 250, 0.5 in", 0.5, 0.144, 250, 225, 28500, astmA416)
	Grade250x06        = astm("ASTM A416 grade 250, 0.6 in", 0.6, 0.216, 250, 225, 28500, astmA416)
	Grade150x1         = astm("ASTM A722 grade 150, 1 in", 1, 0.85, 150, 120, 30000, astmA722)
	Grade150x125       = astm("ASTM A722 grade 150, 1 1/4 in", 1.25, 1.25, 150, 120, 30000, astmA722)
	Grade150x1375      = astm("ASTM A722 grade 150, 1 3/8 in", 1.375, 1.58, 150, 120, 30000, astmA722)
	Grade150x175       = astm("ASTM A722 grade 150, 1 3/4 in", 1.75, 2.58, 150, 120, 30000, astmA722)
	Grade150x25        = astm("ASTM A722 grade 150, 2 1/2 in", 2.5, 5.16, 150, 120, 30000, astmA722)
)

// Steels are all strands and bars of this package, in a new slice: strands of
// prEN 10138-3, bars of prEN 10138-4, strands of ASTM A416, bars of ASTM A722.
func Steels() []Strand {
	return []Strand{
		Y1860S7x125, Y1860S7x129, Y1860S7x153, Y1860S7x157, Y1770S7x153, Y1770S7x157,
		Y1050H265, Y1050H32, Y1050H36, Y1050H40, Y1030H265, Y1030H32, Y1030H36, Y1030H40,
		Grade270x05, Grade270x05Special, Grade270x06, Grade250x05, Grade250x06,
		Grade150x1, Grade150x125, Grade150x1375, Grade150x175, Grade150x25,
	}
}
