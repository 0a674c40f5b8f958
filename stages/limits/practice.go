package limits

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
)

// Practice is a published factor of handling or a construction load, not checked against the printed source.
type Practice struct {
	Case   string         // what it is for, in words
	Value  float64        // in Unit
	Unit   formula.Unit   // One for a factor on the weight, Pascal for an adhesion or a distributed load, Newton for a load
	Source formula.Source // where it is published
}

// Handled is what an element is handled with, for a published dynamic factor.
type Handled string

// The cases of published dynamic factors. EN 1992 has none; which source counts is
// agreed for each project.
const (
	TowerCraneVDI   Handled = "tower crane, portal crane or mobile crane, VDI/BV-BS 6205"
	FlatGroundVDI   Handled = "carried over flat ground, VDI/BV-BS 6205"
	RoughGroundVDI  Handled = "carried over uneven ground, VDI/BV-BS 6205"
	PortalCraneCEN  Handled = "tower crane or portal crane, CEN/TR 15728"
	MobileCraneCEN  Handled = "mobile crane, CEN/TR 15728"
	FlatGroundCEN   Handled = "carried over flat ground, CEN/TR 15728"
	RoughGroundCEN  Handled = "carried over rough ground, CEN/TR 15728"
	YardHandlingPCI Handled = "yard handling and erection, PCI Design Handbook"
	TravelPCI       Handled = "travel, PCI Design Handbook"
	OnshoreTo100t   Handled = "onshore lift in air up to 100 t, 0027/ND"
	OnshoreTo300t   Handled = "onshore lift in air above 100 t, up to 300 t, 0027/ND"
	OnshoreTo1000t  Handled = "onshore lift in air above 300 t, up to 1000 t, 0027/ND"
)

// dynamics are the published dynamic factors.
var dynamics = []struct {
	of     Handled
	value  float64
	source formula.Source
}{
	{TowerCraneVDI, 1.3, unseen("VDI/BV-BS 6205", "")}, {FlatGroundVDI, 2.5, unseen("VDI/BV-BS 6205", "")}, {RoughGroundVDI, 4, unseen("VDI/BV-BS 6205", "at least")},
	{PortalCraneCEN, 1.2, unseen("CEN/TR 15728", "")}, {MobileCraneCEN, 1.4, unseen("CEN/TR 15728", "")},
	{FlatGroundCEN, 2.5, unseen("CEN/TR 15728", "2.0 to 2.5")}, {RoughGroundCEN, 4, unseen("CEN/TR 15728", "3.0 to 4.0")},
	{YardHandlingPCI, 1.2, unseen("PCI Design Handbook", "equivalent static load multipliers")},
	{TravelPCI, 1.5, unseen("PCI Design Handbook", "equivalent static load multipliers; more on bad roads")},
	{OnshoreTo100t, 1.10, unseen("0027/ND, Rev 11", "Table 5-1")}, {OnshoreTo300t, 1.05, unseen("0027/ND, Rev 11", "Table 5-1")},
	{OnshoreTo1000t, 1.05, unseen("0027/ND, Rev 11", "Table 5-1")},
}

// unseen is a source that was not checked in print.
func unseen(document, place string) formula.Source {
	return formula.Source{Document: document, Place: place, Confirm: true}
}

// DynamicFactors are the published dynamic factors on the weight, each with its source;
// of a published range the larger.
func DynamicFactors() []Practice {
	var list []Practice
	for _, d := range dynamics {
		list = append(list, Practice{Case: string(d.of), Value: d.value, Unit: formula.One, Source: d.source})
	}
	return list
}

// Dynamic is the range of the dynamic factor of a published case, least as stated: few
// sources give a factor below 1. The error wraps [ErrLimits]: a case that is not one of
// the constants, or least out of 0 to 1.
func (h Handled) Dynamic(least float64) (loads.Dynamic, error) {
	for _, d := range dynamics {
		if d.of != h {
			continue
		}
		if !(least > 0 && least <= 1) {
			return loads.Dynamic{}, fmt.Errorf("%w: minimum dynamic factor = %g: must be above 0, at most 1", ErrLimits, least)
		}
		return loads.Dynamic{Least: least, Most: d.value, Source: d.source}, nil
	}
	var known []Handled
	for _, d := range dynamics {
		known = append(known, d.of)
	}
	return loads.Dynamic{}, fmt.Errorf("%w: dynamic factor of %q: must be one of %q", ErrLimits, h, known)
}

// adhesions are the published pulls of a form on the element released from it.
var adhesions = []Practice{
	{"oiled steel or coated plywood", 1e3, formula.Pascal, unseen("practice of lifting anchors", "adhesion of forms")},
	{"varnished planed timber", 2e3, formula.Pascal, unseen("practice of lifting anchors", "adhesion of forms")},
	{"rough timber", 3e3, formula.Pascal, unseen("practice of lifting anchors", "adhesion of forms")},
}

// FormAdhesions are the published pulls of a form on the area that it releases (Pa), each
// with its source.
func FormAdhesions() []Practice { return slices.Clone(adhesions) }
