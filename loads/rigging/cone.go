package rigging

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Cone is the concrete cone that a lifting anchor without reinforcement would pull out,
// far from edges and other anchors: for information beside the maker's limit, which
// counts. Factor and Safety must be stated, from the maker or the document that is agreed:
// CEN/TR 15728 and VDI/BV-BS 6205 use a global factor of about 2.5 on concrete
// (unconfirmed); EN 1992-4 does not cover lifting inserts.
type Cone struct {
	Factor   float64        // k in N = k·√f·h^1.5 with N, MPa and mm, 1 to 25
	Strength float64        // characteristic cube strength on the day, Pa, 5e6 to 120e6
	Depth    float64        // h_ef, effective depth of the anchor, m, 0.03 to 2
	Safety   float64        // global factor, 1 to 10
	Source   formula.Source // of Factor and Safety
}

// ConeLoad is what a concrete cone carries.
type ConeLoad struct {
	Resistance  float64 // characteristic, N
	Permissible float64 // Resistance over the global factor, N
}

// Solve is what the cone carries in axial pull. The error wraps [ErrRigging].
func (c Cone) Solve() (ConeLoad, error) {
	if err := c.check(); err != nil {
		return ConeLoad{}, err
	}
	resistance := c.Factor * math.Sqrt(c.Strength/1e6) * math.Pow(c.Depth*1e3, 1.5)
	return ConeLoad{resistance, resistance / c.Safety}, nil
}

func (c Cone) check() error {
	return within("Cone", bound{"Factor", c.Factor, "", 1, 25}, bound{"Strength", c.Strength, "Pa", 5e6, 120e6}, bound{"Depth", c.Depth, "m", 0.03, 2}, bound{"Safety", c.Safety, "", 1, 10})
}

// Lines derive what [Cone.Solve] gives. The error is that of Solve.
func (c Cone) Lines() ([]formula.Line, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	source := c.Source
	if source.Document == "" {
		source = stated
	}
	k := &formula.Chain{}
	resistance := k.Derive(newtons("N_Rk", 0, "resistance of the concrete cone, characteristic"), "k_N*sqrt(f_ck_cube/1e6)*pow(h_ef*1e3, 1.5)", source, number("k_N", c.Factor, "factor of the concrete cone, N from MPa and mm"),
		formula.Q("f_ck_cube", c.Strength, formula.Pascal, "characteristic cube strength on the day"), metres("h_ef", c.Depth, "effective depth of the anchor"))
	k.Note("for information: the maker's limit counts")
	k.Derive(newtons("N_perm", 0, "permissible load by the concrete cone"), "N_Rk/γ_N", source, resistance, number("γ_N", c.Safety, "global factor on the concrete cone"))
	return k.Lines()
}
