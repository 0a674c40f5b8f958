package stages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
)

// subjects are what the points of a basis are about: the words before the first colon.
func subjects(r stages.Record) []string {
	var list []string
	for _, p := range r.Basis {
		subject, _, _ := strings.Cut(p, ":")
		list = append(list, subject)
	}
	return list
}

// The basis has the points that apply to the run, and no other.
func TestBasisHasWhatApplies(t *testing.T) {
	e := girder(t)
	everywhere := []string{"Axes", "Signs", "Sections", "Walls", "Supports", "Reactions", "Equilibrium", "Movements"}
	box := subjects(run(t, e, stages.Plan{stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("AL", "AR")}, On: stages.Pads(1, 0.5, 23.5)}}))
	require.Subset(t, box, append(everywhere, "Ducts", "Anchorage zones", "Tendon forces"))
	for _, other := range []string{"Pretensioned strands", "External tendons", "Further pulls of a tendon", "Redistribution", "Creep, shrinkage and relaxation", "Open walls", "Warping torsion"} {
		require.NotContains(t, box, other)
	}
	strands := bedBeam(t)
	open := subjects(run(t, strands, stages.Plan{stages.Transfer{Age: 2, Pretension: fromBed(1300e6, "P1", "P2"), On: twoEnds}}))
	require.Subset(t, open, append(everywhere, "Pretensioned strands", "Open walls", "Warping torsion"))
	for _, other := range []string{"External tendons", "Further pulls of a tendon"} {
		require.NotContains(t, open, other)
	}
}

// A tendon that is pulled again brings its point.
func TestBasisOfFurtherPulls(t *testing.T) {
	first, again := jack("AL", "AR"), jack("AL", "AR")
	first.Stress = 900e6
	plan := stages.Plan{
		stages.Transfer{Age: 3, Jacking: []tendon.Jacking{first}, On: stages.Pads(1, 0.5, 23.5)},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{again}},
	}
	require.Contains(t, subjects(run(t, girder(t), plan)), "Further pulls of a tendon")
}
