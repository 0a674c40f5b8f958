package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// pair are two halves, the right one with a third more of depth, and the stitch between.
func pair(t testing.TB) stages.Girder {
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: 0.3, DryingFrom: 2}}
	left, right, stitch := bar(t, "L", 20, 0.2, 0.8, 0.9, 50e6), bar(t, "R", 20, -1.0, 0.8, 1.2, 50e6), bar(t, "S", 20, -0.2, 0.4, 0.3, 50e6)
	stitch.Cast = 60
	for _, e := range []*stages.Element{&left, &right, &stitch} {
		e.Concrete, e.LongTerm = mix, mix
	}
	return stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: stitch, Later: true, Joint: stages.Monolithic}}}
}

func match() stages.Match {
	return stages.Match{Level: 0.030, Pull: 400e3, Gap: 0.010, Bars: 1500e-6, Stress: 200e6, Document: "invented drawing EL-H-9"}
}

func stitched(m stages.Match) stages.Plan {
	on := append(three(0, 20, 0.4, 0.8), three(0, 20, -0.8, -0.4)...)
	return stages.Plan{
		onDay{10, stages.Seat{On: on}},
		stages.Stitch{Day: 60, Joined: 67, Pieces: []string{"S"}, On: stages.Elastic(1e9, as(stages.Pad, on)...), OutOfLevel: 1e-6, Match: m},
	}
}

// onDay states the day of the project in place of an age.
type onDay struct {
	day  float64
	seat stages.Seat
}

func (o onDay) Situations(h stages.History) ([]stages.Situation, error) {
	list, err := o.seat.Situations(h)
	for i := range list {
		list[i].Day = o.day
	}
	return list, err
}

// Two halves of unlike depth hang through unlike under their weight: their difference, the
// force that takes it out, and the tie force of the stitch, by closed forms.
func TestStitchIsMatched(t *testing.T) {
	girder := pair(t)
	record, err := stitched(match()).Run(girder, limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	s := record.Stages[1].Situations[0]
	mix := girder.Pieces[0].Element.LongTerm.(concrete.EN1992)

	// Elastic on day 10 and crept to day 60; the weight acts at once.
	state, err := mix.At(10)
	require.NoError(t, err)
	phi, err := mix.Creep(60, 10)
	require.NoError(t, err)
	final, err := mix.At(28) // movements divide φ by Ecm, as (5.46)
	require.NoError(t, err)
	sag := func(depth, creep float64) float64 {
		i := 0.8 * depth * depth * depth / 12
		elastic := 5. / 384 * 0.8 * depth * 25e3 * 20 * 20 * 20 * 20 / (state.Modulus * i)
		return elastic * (1 + creep*phi*state.Modulus/final.Modulus)
	}
	difference := sag(0.9, 1.3) - sag(1.2, 1.3)
	level := rollOf(t, s, limits.LevelMatch)
	require.InEpsilon(t, difference, level.Demand.Value, 2e-3)
	require.InDelta(t, 10, level.X, 0.06)

	now, err := mix.At(60)
	require.NoError(t, err)
	i1, i2 := 0.8*math.Pow(0.9, 3)/12, 0.8*math.Pow(1.2, 3)/12
	pull := rollOf(t, s, limits.PullForce)
	require.InEpsilon(t, level.Demand.Value*48/8000/(1/(now.Modulus*i1)+1/(now.Modulus*i2)), pull.Demand.Value, 1e-3)
	require.InDelta(t, 0, rollOf(t, s, limits.StitchGap).Demand.Value, 1e-9, "rectangles do not bow")

	tie := rollOf(t, record.Stages[1].Situations[1], limits.StitchTie)
	end, err := mix.Shrinkage(36500)
	require.NoError(t, err)
	before, err := mix.Shrinkage(60)
	require.NoError(t, err)
	after, err := mix.Shrinkage(36560)
	require.NoError(t, err)
	strain := end.Total - (after.Total - before.Total)
	creep, err := mix.Creep(36500, 7)
	require.NoError(t, err)
	modulus, err := mix.CreepModulus(7)
	require.NoError(t, err)
	force := strain * modulus / (1 + 0.8*creep) * 0.12 / (1 + 0.12/(0.8*2.1))
	require.InEpsilon(t, force/1500e-6, tie.Demand.Value, 1e-6)
	require.Equal(t, stages.Pass, tie.State)
	few := match()
	few.Bars = force / 200e6 * 0.999
	record, err = stitched(few).Run(girder, limits.EN1992{})
	require.NoError(t, err)
	require.Equal(t, stages.Fail, rollOf(t, record.Stages[1].Situations[1], limits.StitchTie).State, "with a hair less")

	kinds := map[string]float64{}
	for _, h := range s.HoldPoints {
		kinds[h.Kind] = h.Required.Value
	}
	require.Equal(t, 0.030, kinds["measured levels"])
	require.Equal(t, 0.010, kinds["measured stitch gap"])
}

// Halves without symmetry bow sideways under their own weight: the gap opens by the bows
// of both, which are mirrored.
func TestStitchGapByBow(t *testing.T) {
	angle := func(mark string, side float64) stages.Element {
		e := bar(t, mark, 20, 0, 1, 1, 50e6)
		outline := section.Outline{{Y: 0.2 * side, Z: 0}, {Y: 0.7 * side, Z: 0}, {Y: 0.7 * side, Z: 0.9}, {Y: 1.6 * side, Z: 0.9}, {Y: 1.6 * side, Z: 1.1}, {Y: 0.2 * side, Z: 1.1}}
		if side < 0 {
			for i, j := 0, len(outline)-1; i < j; i, j = i+1, j-1 {
				outline[i], outline[j] = outline[j], outline[i]
			}
		}
		shape, err := section.New([]section.Outline{outline}, nil)
		require.NoError(t, err)
		e.Section = shape
		return e
	}
	left, right := angle("L", 1), angle("R", -1)
	girder := stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: bar(t, "S", 20, -0.2, 0.4, 0.2, 50e6), Later: true, Joint: stages.Monolithic}}}
	girder.Pieces[2].Element.Section = mustShape(t, section.Outline{{Y: -0.2, Z: 0.9}, {Y: 0.2, Z: 0.9}, {Y: 0.2, Z: 1.1}, {Y: -0.2, Z: 1.1}})
	on := append(three(0, 20, 0.55, 0.69), three(0, 20, -0.69, -0.55)...) // on both sides of the centres of gravity: all are pressed
	m := match()
	m.Pull = 0
	plan := stages.Plan{stages.Seat{Age: 10, On: on}, stages.Stitch{Day: 60, Joined: 67, Pieces: []string{"S"}, On: stages.Elastic(1e9, as(stages.Pad, on)...), OutOfLevel: 1e-6, Match: m}}
	record, err := plan.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	s := record.Stages[1].Situations[0]
	p := left.Section.At(10).Properties()
	state, err := left.Concrete.At(10)
	require.NoError(t, err)
	bow := 5. / 384 * p.Area * 25e3 * 160000 / state.Modulus * p.ProductMoment / (p.SecondMomentY*p.SecondMomentZ - p.ProductMoment*p.ProductMoment)
	require.InEpsilon(t, 2*math.Abs(bow), rollOf(t, s, limits.StitchGap).Demand.Value, 2e-3)
	require.Zero(t, rollOf(t, s, limits.LevelMatch).Demand.Value, "they are mirrored")
	tie := rollOf(t, record.Stages[1].Situations[1], limits.StitchTie)
	require.Equal(t, stages.NotEvaluated, tie.State, "without a model of shrinkage")
}

// Halves that are alike but for the order of the corners in their outlines are level: the
// rounding of their movements is no difference.
func TestHalvesAlikeAreLevel(t *testing.T) {
	left, right := bar(t, "L", 26, 0.1, 0.8, 1.1, 50e6), bar(t, "R", 26, -0.9, 0.8, 1.1, 50e6)
	left.Section = mustShape(t, section.Outline{{Y: 0.9, Z: 0.9}, {Y: 0.9, Z: 1.1}, {Y: 0.1, Z: 1.1}, {Y: 0.1, Z: 0}, {Y: 0.4, Z: 0}, {Y: 0.43, Z: 0.8}})
	right.Section = mustShape(t, section.Outline{{Y: -0.1, Z: 1.1}, {Y: -0.9, Z: 1.1}, {Y: -0.9, Z: 0.9}, {Y: -0.43, Z: 0.8}, {Y: -0.4, Z: 0}, {Y: -0.1, Z: 0}})
	girder := stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: bar(t, "S", 26, -0.1, 0.2, 1.1, 50e6), Later: true, Joint: stages.Monolithic}}}
	on := append(three(0.3, 25.6, 0.3, 0.39), three(0.3, 25.6, -0.39, -0.3)...)
	plan := stages.Plan{stages.Seat{Age: 10, On: on}, stages.Stitch{Day: 60, Joined: 67, Pieces: []string{"S"}, On: stages.Elastic(1e9, as(stages.Pad, on)...), OutOfLevel: 1e-6, Match: match()}}
	record, err := plan.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	s := record.Stages[1].Situations[0]
	for _, kind := range []limits.Kind{limits.LevelMatch, limits.PullForce} {
		require.Zero(t, rollOf(t, s, kind).Demand.Value, kind)
	}
}

func mustShape(t testing.TB, outline section.Outline) section.Shape {
	t.Helper()
	shape, err := section.New([]section.Outline{outline}, nil)
	require.NoError(t, err)
	return shape
}

// What cannot be matched is refused in words.
func TestStitchMustBe(t *testing.T) {
	girder := pair(t)
	for words, change := range map[string]func(*stages.Stitch){
		"Match.Level": func(s *stages.Stitch) { s.Match.Level = 30 }, "Match.Pull": func(s *stages.Stitch) { s.Match.Pull = -1 }, "Match.Gap": func(s *stages.Stitch) { s.Match.Gap = math.NaN() },
		"Match.Bars": func(s *stages.Stitch) { s.Match.Bars = 1500 }, "Match.Stress": func(s *stages.Stitch) { s.Match.Stress = 200 }, "Match.Document": func(s *stages.Stitch) { s.Match.Document = "" },
		"Pieces is empty": func(s *stages.Stitch) { s.Pieces = nil }, "Joined": func(s *stages.Stitch) { s.Joined = 50 },
	} {
		plan := stitched(match())
		s := plan[1].(stages.Stitch)
		change(&s)
		plan[1] = s
		_, err := plan.Run(girder, limits.EN1992{})
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must")
	}
	_, err := stages.Plan{stages.Seat{Age: 10, On: three(0, 10, 0.2, 0.8)}, stages.Stitch{Day: 20, Joined: 25, Pieces: []string{"S"}, Match: match()}}.Run(stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: bar(t, "L", 10, 0.1, 0.8, 1, 50e6)}}}, limits.EN1992{})
	require.ErrorContains(t, err, "must be two halves")
}
