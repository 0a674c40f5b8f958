package sheet

import (
	"slices"
	"strings"
)

// glossary says what stands for all quantities of a kind that lines name one by one, by
// tendon, zone or age: the letters, what each of their names has in it, and the sentence.
var glossary = []struct{ letters, named, says string }{
	{"F_t", "resultant of the tensile stresses", "resultant of the tensile stresses: their exact integral over the tension zone"},
	{"A_s", "tension zone", "area of the bonded bars given in the tension zone"},
	{"f_pk", "tensile strength", "characteristic tensile strength of the strand"},
	{"f_p01k", "proof stress", "characteristic 0.1 % proof stress of the strand"},
	{"f_cm_t", "mean cylinder", "mean cylinder strength at the age"},
	{"f_cm0", "full stressing", "mean cylinder strength required for full stressing"},
	{"k_1", "share of f", "share of f_pk in the permissible jacking stress"},
	{"k_2", "share of f", "share of f_p01k in the permissible jacking stress"},
	{"k_7", "share of f", "share of f_pk in the permissible stress after lock-off"},
	{"k_8", "share of f", "share of f_p01k in the permissible stress after lock-off"},
	{"s_min", "minimum spacing", "minimum spacing of anchor centres"},
	{"c_min", "minimum distance", "minimum distance of an anchor centre from the edge"},
	{"c_min", "minimum clear", "minimum clear distance of ducts one above the other"},
	{"s", "distance of the anchor", "distance of two anchor centres"},
	{"s", "length from the", "length along the tendon from the jacked end to x"},
	{"θ", "angle from", "sum of angles in space from the jacked end to x"},
	{"s_clear", "clear distance", "clear distance of two ducts"},
	{"φ", "outer diameter", "outer diameter of the duct, of the larger of two"},
	{"γ_w", "on the weight", "factor on the weight: tolerance and partial factor"},
	{"γ_inf", "on the favourable", "partial factor on the favourable part of the weight, and on stated ties"},
	{"γ_sup", "on the unfavourable", "partial factor on the unfavourable part of the weight"},
	{"r", "on the prestress", "factor on the prestress"},
	{"R_other", "uplift", "uplift by other actions, levels and restraint, factored"},
	{"M_out", "of the weight", "moment of the weight beyond the support line, with tolerance and dynamic factor"},
	{"M_in", "of the weight", "moment of the weight inside the support line, with tolerance and dynamic factor, and of ties with their stated force"},
	{"M_act", "of other actions", "moment of other actions, factored"},
	{"h_G_t", "height", "height of the centre of gravity above the lower end of the support line along gravity, its rise by roll and gradient included"},
	{"γ_a", "on an action", "factor on an action: from absent, 0, to full, 1 or −1 as it acts, times its partial factor"},
	{"α_a", "factor", "factor on the modulus for the aggregate"},
	{"α_ct", "coefficient", "coefficient of the design tensile strength"},
	{"α_cc", "coefficient", "coefficient of the design compressive strength"},
	{"A_c", "area", "gross area of the section"},
	{"A_p", "area", "area of all strands of one tendon"},
	{"I_c", "moment", "second moment of area of the gross section about y"},
	{"Iz_c", "moment", "second moment of area of the gross section about z"},
	{"Iyz_c", "moment", "product moment of area of the gross section"},
	{"E_p", "modulus", "modulus of elasticity of the strand"},
	{"μ", "friction", "coefficient of friction of the tendon in its duct"},
	{"k", "unintentional", "unintentional angular displacement (wobble) per length of tendon"},
	{"n", "strands", "strands of one tendon"},
	{"n", "number of specimens", "number of specimens of the test"},
	{"s", "cement", "coefficient of the growth of strength, by cement class"},
	{"α", "cement", "exponent of the adjusted age, by cement class"},
	{"α_ds1", "cement", "first coefficient of drying shrinkage, by cement class"},
	{"α_ds2", "cement", "second coefficient of drying shrinkage, by cement class"},
	{"β_cc", "strength gain", "share of the strength at 28 d that is reached at the age"},
	{"t_d", "time of drying", "time of drying, from the end of curing to the age"},
	{"t_T", "age", "age at loading, adjusted for temperature"},
	{"t_l", "time under load", "time under load, from the age at loading to the age"},
}

// general is the sentence of the glossary for a meaning; it is empty for one that is not
// in it.
func (m *meaning) general() string {
	for _, g := range glossary {
		if g.letters == m.letters && !slices.ContainsFunc(m.names, func(name string) bool { return !strings.Contains(name, g.named) }) {
			return g.says
		}
	}
	return ""
}

// explanation is what the list of symbols says of one, in a full sentence: that of the
// sheet, of the glossary, or what its names have in common.
func (m *meaning) explanation() string {
	says := m.general()
	switch {
	case m.says != "":
		return m.says
	case says != "" || len(m.names) == 0:
		return says
	}
	return m.start()
}

// dangling are words with which no explanation ends.
var dangling = []string{" a", " an", " the", " of", " for", " at", " on", " in", " to", " from", " by", " with", " and", " over", " over their zone", " under", ",", ":", ";"}

// start is how all names begin, in whole words.
func (m *meaning) start() string {
	common := m.names[0]
	for _, name := range m.names[1:] {
		for common != "" && !strings.HasPrefix(name+" ", common+" ") && !strings.HasPrefix(name+",", common+",") && !strings.HasPrefix(name+":", common+":") {
			common = common[:max(0, strings.LastIndexAny(common, " ,:"))]
		}
	}
	common, _, _ = strings.Cut(common, ", tendon")
	for trimmed := ""; trimmed != common; {
		trimmed = common
		for _, end := range dangling {
			common = strings.TrimSuffix(common, end)
		}
	}
	if len(common) < len(m.head) {
		return m.head
	}
	return common
}
