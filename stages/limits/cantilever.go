package limits

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// ConstructionLoad is a load or a factor of balanced cantilever construction.
type ConstructionLoad string

// The loads and factors of balanced cantilever construction. Which set counts, that of
// AASHTO LRFD or of EN 1990 and EN 1991-1-6, is agreed for each project: never both together.
const (
	DifferentialWeight  ConstructionLoad = "DIFF: difference of the weight of the arms, share of the dead load of one arm, AASHTO LRFD"
	CrewOneArm          ConstructionLoad = "CLL: distributed construction live load on one arm, AASHTO LRFD"
	CrewOtherArm        ConstructionLoad = "CLL: distributed construction live load on the other arm, AASHTO LRFD"
	WindUplift          ConstructionLoad = "WUP: wind uplift on one arm, AASHTO LRFD"
	LiftedDynamic       ConstructionLoad = "IE: dynamic effect of equipment, share of the lifted weight for very gradual lifting, AASHTO LRFD"
	ReleasedDynamic     ConstructionLoad = "AI: accidental release or sudden application, share of the handled segment, AASHTO LRFD"
	ServiceWind         ConstructionLoad = "WS, WUP: factor on wind in service during construction, AASHTO LRFD"
	StrengthWeight      ConstructionLoad = "DC, DIFF: factor for the maximum effect, strength during construction, AASHTO LRFD"
	StrengthEquipment   ConstructionLoad = "CE: factor for the maximum effect, strength during construction, AASHTO LRFD"
	EquilibriumMost     ConstructionLoad = "EQU: factor on the unfavourable part of the self-weight, EN 1990"
	EquilibriumLeast    ConstructionLoad = "EQU: factor on the favourable part of the self-weight, EN 1990"
	EquilibriumVariable ConstructionLoad = "EQU: factor on construction loads, EN 1990"
	CrewEN              ConstructionLoad = "Q_ca: personnel with hand tools, EN 1991-1-6"
	StorageEN           ConstructionLoad = "Q_cb: storage of movable items, distributed, EN 1991-1-6"
	StoragePointEN      ConstructionLoad = "Q_cb: storage of movable items, concentrated, EN 1991-1-6"
	EquipmentEN         ConstructionLoad = "Q_cc: non-permanent equipment in position for use, at least, EN 1991-1-6"
)

// Where the loads of balanced cantilever construction come from.
var (
	segmentalAASHTO = unseen("AASHTO LRFD Bridge Design Specifications", "segmental construction: construction loads and load combinations")
	equilibriumEN   = unseen("EN 1990:2002", "Table A2.4(A), set A")
	executionEN     = unseen("EN 1991-1-6:2005", "4.11, Table 4.1")
)

// constructionLoads are recalled values: confirm each against the edition in force.
var constructionLoads = []struct {
	of     ConstructionLoad
	value  float64
	unit   formula.Unit
	source formula.Source
}{
	{DifferentialWeight, 0.02, formula.One, segmentalAASHTO},
	{CrewOneArm, 0.48e3, formula.Pascal, segmentalAASHTO}, {CrewOtherArm, 0.24e3, formula.Pascal, segmentalAASHTO},
	{WindUplift, 0.24e3, formula.Pascal, segmentalAASHTO},
	{LiftedDynamic, 0.10, formula.One, segmentalAASHTO}, {ReleasedDynamic, 1, formula.One, segmentalAASHTO},
	{ServiceWind, 0.7, formula.One, segmentalAASHTO},
	{StrengthWeight, 1.1, formula.One, segmentalAASHTO}, {StrengthEquipment, 1.3, formula.One, segmentalAASHTO},
	{EquilibriumMost, 1.05, formula.One, equilibriumEN}, {EquilibriumLeast, 0.95, formula.One, equilibriumEN}, {EquilibriumVariable, 1.35, formula.One, equilibriumEN},
	{CrewEN, 1e3, formula.Pascal, executionEN}, {StorageEN, 0.2e3, formula.Pascal, executionEN}, {StoragePointEN, 100e3, formula.Newton, executionEN},
	{EquipmentEN, 0.5e3, formula.Pascal, executionEN},
}

// ConstructionLoads are the loads and factors of balanced cantilever construction of both
// sets of standards, each with its source, unconfirmed.
func ConstructionLoads() []Practice {
	var list []Practice
	for _, l := range constructionLoads {
		list = append(list, Practice{Case: string(l.of), Value: l.value, Unit: l.unit, Source: l.source})
	}
	return list
}

// Practice is the value of a load or factor with its unit and source. The error wraps
// [ErrLimits]: a case that is not one of the constants.
func (c ConstructionLoad) Practice() (Practice, error) {
	var known []ConstructionLoad
	for _, l := range constructionLoads {
		if l.of == c {
			return Practice{Case: string(l.of), Value: l.value, Unit: l.unit, Source: l.source}, nil
		}
		known = append(known, l.of)
	}
	return Practice{}, fmt.Errorf("%w: construction load %q: must be one of %q", ErrLimits, c, known)
}
