package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// added is a situation in which an element that is cast later is put on its supports and
// stressed, beside one that stands already.
type added struct {
	day  float64
	on   []stages.Support
	mark string
	pull tendon.Jacking
}

func (a added) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{
		Name: "added", Day: a.day, Standing: true, Phase: limits.Stressing, Supports: a.on, Events: []stages.Event{{Add: []string{a.mark}}, {Jack: &a.pull}},
	}}, nil
}

// An element that is cast and stressed long after another one loses by creep, shrinkage
// and relaxation what it loses alone.
func TestElementCastLaterLosesWhatItLosesAlone(t *testing.T) {
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3, DryingFrom: 2}}
	first, later := bar(t, "A", 12, 1, 0.5, 0.8, 50e6), bar(t, "B", 12, -1.5, 0.5, 0.8, 50e6)
	first.Concrete, first.LongTerm, later.Concrete, later.LongTerm = mix, mix, mix, mix
	wire := straight("T", 0, 12, -1.25, 0.25)
	later.Tendons = []tendon.Tendon{wire}
	pull := tendon.Jacking{Tendons: []string{"T"}, Stress: 1300e6, Ends: tendon.LeftEnd, DrawIn: 5e-3}

	alone := stages.Plan{
		stages.Transfer{Age: 5, Jacking: []tendon.Jacking{pull}, On: three(0.5, 11.5, -1.4, -1.1)},
		stages.Store{Age: 6, Until: 200, On: three(0.5, 11.5, -1.4, -1.1)},
	}
	want, err := alone.Run(later, limits.EN1992{})
	require.NoError(t, err)

	second := later
	second.Cast = 60
	girder := stages.Girder{Mark: "G", Pieces: []stages.Piece{{Element: first}, {Element: second, Later: true}}}
	both := append(three(0.5, 11.5, 1.1, 1.4), three(0.5, 11.5, -1.4, -1.1)...)
	beside := stages.Plan{
		onDay{10, stages.Seat{On: three(0.5, 11.5, 1.1, 1.4)}},
		added{65, both, "B", pull},
		onDay{66, stages.Seat{Until: 260, On: both}},
	}
	got, err := beside.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	last := func(r stages.Record) stages.TendonForce {
		stage := r.Stages[len(r.Stages)-1]
		return stage.Situations[len(stage.Situations)-1].Tendons[0]
	}
	a, b := last(want), last(got)
	require.Positive(t, a.Losses.Creep)
	require.InEpsilon(t, a.Losses.Creep, b.Losses.Creep, 1e-9)
	require.InEpsilon(t, a.Losses.Shrinkage, b.Losses.Shrinkage, 1e-9)
	require.InEpsilon(t, a.Losses.Relaxation, b.Losses.Relaxation, 1e-9)
	require.InEpsilon(t, a.Middle, b.Middle, 1e-9)
}
