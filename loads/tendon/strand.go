package tendon

import "github.com/tempstage/tempstage/section/formula"

// Strand is a prestressing steel.
type Strand struct {
	Name    string         // designation, e.g. "Y1860S7-15.7"
	Area    float64        // of one strand, m²
	Fpk     float64        // characteristic tensile strength, Pa
	Fp01k   float64        // characteristic 0.1 % proof stress, Pa
	Modulus float64        // Ep, Pa
	Source  formula.Source // where the values come from
}

// Y1860S7x157 is the seven-wire strand of 15.7 mm, 150 mm², 1860 MPa.
var Y1860S7x157 = Strand{
	Name: "Y1860S7-15.7", Area: 150e-6, Fpk: 1860e6, Fp01k: 1640e6, Modulus: 195e9,
	Source: formula.Source{Document: "prEN 10138-3 (2006 draft) and EN 1992-1-1:2004", Place: "strand table; 3.3.6(3)", Confirm: true},
}

// Approval is what the technical approval of the anchorage asks for.
type Approval struct {
	Reference     string  // number of the approval, printed on the sheet
	MeanStrength  float64 // mean cylinder strength fcm,0 required for full stressing, Pa
	AnchorSpacing float64 // least distance between anchor centres, m
	EdgeDistance  float64 // least distance from an anchor centre to the edge of the concrete, m
}
