package sheet

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// rectangle is a record of round numbers known by hand: a rectangle 1.0 m wide (y from
// −0.6 to 0.4 m) and 1.5 m deep, 20 m long, 25 kN/m³: 1.0 · 1.5 · 20 · 25 = 750 kN. It
// is stored on two pads at x = 2 m and one at x = 16 m, lifted at 3 and 17 m, and set
// down. All its checks pass.
func rectangle() stages.Record {
	outline := section.Outline{{Y: -0.6}, {Y: 0.4}, {Y: 0.4, Z: 1.5}, {Y: -0.6, Z: 1.5}}
	pads := []stages.Reaction{
		{X: 2, Y: -0.5, Role: stages.Pad, Nominal: 160e3, Static: stages.Range{Least: 155e3, Most: 165e3}, Share: &stages.Range{Least: 0.211, Most: 0.216}, Characteristic: stages.Range{Least: 150e3, Most: 170e3}, Ultimate: stages.Range{Least: 140e3, Most: 230e3}},
		{X: 2, Y: 0.3, Role: stages.Pad, Nominal: 161e3, Static: stages.Range{Least: 156e3, Most: 166e3}, Share: &stages.Range{Least: 0.212, Most: 0.217}, Characteristic: stages.Range{Least: 151e3, Most: 171e3}, Ultimate: stages.Range{Least: 141e3, Most: 231e3}},
		{X: 16, Y: -0.1, Role: stages.Pad, Nominal: 429e3, Static: stages.Range{Least: 416e3, Most: 442e3}, Share: &stages.Range{Least: 0.57, Most: 0.574}, Characteristic: stages.Range{Least: 410e3, Most: 450e3}, Ultimate: stages.Range{Least: 400e3, Most: 600e3}},
	}
	hung := []stages.Reaction{
		{X: 3, Y: -0.1, Z: 1.5, Role: stages.LiftPoint, Nominal: 375e3, Static: stages.Range{Least: 363e3, Most: 387e3}, Share: &stages.Range{Least: 0.5, Most: 0.5}, Characteristic: stages.Range{Least: 330e3, Most: 425e3}, Ultimate: stages.Range{Least: 320e3, Most: 570e3}},
		{X: 17, Y: -0.1, Z: 1.5, Role: stages.LiftPoint, Nominal: 375e3, Static: stages.Range{Least: 363e3, Most: 387e3}, Share: &stages.Range{Least: 0.5, Most: 0.5}, Characteristic: stages.Range{Least: 330e3, Most: 425e3}, Ultimate: stages.Range{Least: 320e3, Most: 570e3}},
	}
	stage := func(number int, name string, age float64, standing bool, reactions []stages.Reaction) stages.StageRecord {
		s := stages.SituationRecord{
			Name: name, Age: age, Day: age, Standing: standing, Mass: stages.Mass{Weight: 750e3, Mass: 76479, X: 10, Y: -0.1, Z: 0.75},
			Weight: stages.Range{Least: 0.97, Most: 1.03}, Dynamic: stages.Range{Least: 1, Most: 1}, Total: stages.Range{Least: 727.5e3, Most: 772.5e3},
			Reactions: append([]stages.Reaction{}, reactions...), Basis: "nominal",
			Checks: []stages.Check{compression(12e6, 18e6)},
		}
		s.Phase = string(limits.Lifting)
		if standing {
			s.Phase = string(limits.Storing)
		}
		for _, r := range reactions {
			s.Supports = append(s.Supports, stages.Support{X: r.X, Y: r.Y, Z: r.Z, Role: r.Role})
		}
		return stages.StageRecord{Number: number, Name: name, Age: age, Situations: []stages.SituationRecord{s}}
	}
	return stages.Record{
		Format: stages.Format, Element: "G-3", Length: 20, Caution: append(caution(), "An aid."), Basis: []string{"A basis."}, NotChecked: []string{"scour"},
		Outlines: []stages.Drawing{{Solids: []section.Outline{outline}, Centroid: section.Point{Y: -0.1, Z: 0.75}}},
		Weights:  []stages.Load{{Mark: "girder", Own: true, To: 20, Force: 750e3, Centre: 10, Y: -0.1, Z: 0.75}},
		Stages:   []stages.StageRecord{stage(1, "store", 3, true, pads), stage(2, "lift", 7, false, hung), stage(3, "set down", 7, true, pads)},
	}
}

// caution is what opens every record.
func caution() []string {
	empty, _ := stages.Plan{}.Run(nil, nil) // fails, and gives what was written before
	return slices.Clone(empty.Caution)
}

// compression is a check of the compressive stress that passes or fails.
func compression(demand, limit float64) stages.Check {
	c := stages.Check{
		Kind: limits.Compression, Name: "compression", LimitState: limits.Serviceability, State: stages.Pass, X: 10, Place: "top",
		Demand: formula.Q("σ_comp", demand, formula.Pascal, ""), Limit: formula.Q("σ_c_max", limit, formula.Pascal, ""), Sense: limits.AtMost,
		Margin: limit - demand, Utilisation: demand / limit,
	}
	if demand > limit {
		c.State = stages.Fail
	}
	return c
}

// passed is the author of [rectangle] with changes; the record must be one that can be
// printed.
func passed(t *testing.T, settings Settings, changes ...func(*stages.Record)) *author {
	t.Helper()
	record := rectangle()
	for _, change := range changes {
		change(&record)
	}
	a, err := newAuthor(record, settings)
	require.NoError(t, err)
	return a
}

// first changes the first situation.
func first(change func(*stages.SituationRecord)) func(*stages.Record) {
	return func(r *stages.Record) { change(&r.Stages[0].Situations[0]) }
}

// operationPages are the operation sheets in Markdown, one a stage.
func operationPages(a *author) []string {
	return strings.Split(renderMarkdown(a.operations(), ""), "# Operation sheet ")[1:]
}

// calculationPage is the calculation sheet in Markdown.
func calculationPage(a *author) string { return renderMarkdown(a.calculation(), "") }

func contains(page, words string) bool { return strings.Contains(page, words) }
