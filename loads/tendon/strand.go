package tendon

import "github.com/tempstage/tempstage/section/formula"

// Strand is a prestressing steel: one strand or one bar.
type Strand struct {
	Name       string         // designation, e.g. "Y1860S7-15.7"
	Area       float64        // of one strand or bar, m², 1e-6 to 0.01
	Fpk        float64        // characteristic tensile strength, Pa, 100e6 to 3000e6
	Fp01k      float64        // characteristic 0.1 % proof stress, Pa, 100e6 to Fpk; for ASTM steels the specified yield stress
	Modulus    float64        // Ep, Pa, 50e9 to 300e9
	Source     formula.Source // where the values come from
	Diameter   float64        // nominal, m; 0 when not known
	Relaxation Relaxation     // class of EN 1992-1-1, 3.3.2(4); 0 when not known
}

// Approval is the requirements of the technical approval of the post-tensioning system.
type Approval struct {
	Reference     string  // number of the approval, printed on the sheet
	MeanStrength  float64 // mean cylinder strength fcm,0 required for full stressing, Pa, 1e6 to 150e6
	AnchorSpacing float64 // minimum distance between anchor centres, m, 0.01 to 5
	EdgeDistance  float64 // minimum distance from an anchor centre to the edge of the concrete, m, 0.01 to 5
}
