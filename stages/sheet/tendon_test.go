package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
)

// cables are three tendons: A and B alike, C grouted.
func cables() []stages.TendonForce {
	lost := tendon.Losses{Friction: 60e6, DrawIn: 0, Elastic: 20e6, Shrinkage: 5e6}
	along := [][2]float64{{0, 1300e3}, {20, 1250e3}}
	return []stages.TendonForce{
		{Mark: "A", Left: 1300e3, Middle: 1275e3, Right: 1250e3, Losses: lost, Along: along},
		{Mark: "B", Left: 1300e3, Middle: 1275e3, Right: 1250e3, Losses: lost, Along: along},
		{Mark: "C", Left: 900e3, Middle: 880e3, Right: 860e3, Bonded: true, Losses: tendon.Losses{Friction: 40e6, Relaxation: 12e6}, Along: along},
	}
}

func withCables(r *stages.Record) { r.Stages[0].Situations[0].Tendons = cables() }

// Each tendon has the force at left anchor, middle and right anchor in that order,
// whether it is bonded, and its losses under their names; what no tendon lost is left
// out.
func TestTendonForcesAndLosses(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, withCables))
	for _, words := range []string{
		"| Tendon | Left kN | Middle kN | Right kN |  |", "| A, B | 1300 | 1275 | 1250 | not bonded |", "| C | 900 | 880 | 860 | bonded |",
		": Losses at mid-length from jacking force, MPa**", "| Tendon | friction | elastic | shrinkage | relaxation |",
		"| A, B | 60.00 | 20.00 | 5.000 | 0.00 |", "| C | 40.00 | 0.00 | 0.000 | 12.00 |",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "draw-in")
	require.NotContains(t, page, "| creep")
}

// A force that a document states says so, and is no tendon like one that was computed.
func TestAForceGivenByADocumentNamesIt(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, withCables, first(func(s *stages.SituationRecord) { s.Tendons[1].Given = "TW-9 sheet 3" })))
	require.Contains(t, page, "| A | 1300 | 1275 | 1250 | not bonded |")
	require.Contains(t, page, "| B | 1300 | 1275 | 1250 | not bonded; force given by TW-9 sheet 3 |")
}

// Tendons that differ in one force, in bond or in one loss have rows of their own.
func TestWhatSetsTendonsApart(t *testing.T) {
	for name, change := range map[string]func(*stages.TendonForce){
		"left": func(f *stages.TendonForce) { f.Left++ }, "middle": func(f *stages.TendonForce) { f.Middle++ }, "right": func(f *stages.TendonForce) { f.Right++ },
		"bond": func(f *stages.TendonForce) { f.Bonded = true }, "friction": func(f *stages.TendonForce) { f.Losses.Friction++ }, "draw-in": func(f *stages.TendonForce) { f.Losses.DrawIn++ },
		"elastic": func(f *stages.TendonForce) { f.Losses.Elastic++ }, "shrinkage": func(f *stages.TendonForce) { f.Losses.Shrinkage++ },
		"creep": func(f *stages.TendonForce) { f.Losses.Creep++ }, "relaxation": func(f *stages.TendonForce) { f.Losses.Relaxation++ },
	} {
		pair := cables()[:2]
		require.Len(t, alikeTendons(pair), 1)
		change(&pair[1])
		require.Len(t, alikeTendons(pair), 2, name)
	}
	require.True(t, alike(1e6, 1e6+1e-4), "rounding of the computation")
	require.False(t, alike(1e6, 1e6+1e-2))
	require.True(t, alike(0, 0))
	require.False(t, alike(0, 1e-12))
}

// Many tendons in a legend: up to four by mark, then first, last and number.
func TestManyTendonsInALegend(t *testing.T) {
	list := func(marks ...string) (tendons []stages.TendonForce) {
		for _, m := range marks {
			tendons = append(tendons, stages.TendonForce{Mark: m})
		}
		return tendons
	}
	require.Equal(t, "A, B, C, D", briefly(list("A", "B", "C", "D")))
	require.Equal(t, "A … E (5)", briefly(list("A", "B", "C", "D", "E")))
}

// Hold points name the tendons that must be stressed and grouted before: those of the
// situation before, not those of the one that begins.
func TestTendonsThatMustBeStressedBefore(t *testing.T) {
	bed := &author{record: stages.Record{Tendons: []stages.TendonRecord{{Mark: "L1", Pretensioned: true}}}}
	of := func(tendons ...stages.TendonForce) string {
		point, required := bed.tendonsIn(tendons)
		return point + ": " + required
	}
	c := cables()
	require.Equal(t, ": ", of())
	require.Equal(t, "Tendons stressed: A, B; none grouted", of(c[0], c[1]))
	require.Equal(t, "Tendons stressed: A, C; grouted by the record: C", of(c[0], c[2]))
	require.Equal(t, "Tendons grouted: C, by the record", of(c[2]))
	require.Equal(t, "Tendons stressed: L1", of(stages.TendonForce{Mark: "L1", Bonded: true}), "strands of the bed are not grouted")
	require.Equal(t, "Tendons stressed: L1, C; grouted by the record: C", of(stages.TendonForce{Mark: "L1", Bonded: true}, c[2]))
	a := passed(t, Settings{}, func(r *stages.Record) {
		r.Stages[0].Situations[0].Tendons = c[:1]
		r.Stages[1].Situations[0].Tendons = c
	})
	pages := operationPages(a)
	require.NotContains(t, pages[0], "Tendons stressed", "nothing is stressed before the first")
	require.Contains(t, pages[1], "| Tendons stressed | A; none grouted |")
	require.Contains(t, pages[2], "| Tendons stressed | A, B, C; grouted by the record: C |")
}

// Ducts that are filled in a situation cannot be shown before it: the hold point is that of
// what comes after.
func TestGroutingIsAHoldPointOfWhatFollows(t *testing.T) {
	pages := operationPages(passed(t, Settings{}, func(r *stages.Record) {
		r.Stages[0].Situations[0].Tendons = cables()[:2]
		r.Stages[1].Situations[0].Tendons = cables()[2:]
		r.Stages[2].Situations[0].Tendons = cables()[2:]
	}))
	for _, page := range pages[:2] {
		require.NotContains(t, page, "routing")
		require.NotContains(t, page, "record")
	}
	require.Contains(t, pages[2], "| Tendons grouted | C, by the record |")
	require.Equal(t, []string{"A"}, (&author{}).groutedIn([]stages.TendonForce{{Mark: "A"}}, []stages.TendonForce{{Mark: "A", Bonded: true}, {Mark: "B"}}), "stressed before, bonded now")
}
