package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// crooked is the girder with three of its tendons and weights off its axis, on
// three supports that are never in line.
func crooked(t testing.TB) stages.Element {
	e := girder(t)
	e.Tendons = e.Tendons[:3]
	e.Extra = append(e.Extra,
		stages.ExtraWeight{Mark: "kerb", From: 3, To: 17, Weight: 90e3, Y: 0.7, Z: 1.9}, stages.ExtraWeight{Mark: "nut", From: 20, To: 20, Weight: 7e3, Y: -0.4, Z: 0.1})
	return e
}

func tripod(y0, y1, left, y2, right float64) []stages.Support {
	return bracketed([]stages.Support{{X: left, Y: y0, Z: 2}, {X: left, Y: y1, Z: 2}, {X: right, Y: y2, Z: 2}})
}

func crookedPlan() stages.Plan {
	dynamic := loads.Dynamic{Least: 0.9, Most: 1.1}
	return stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL")}, On: tripod(-1, 1.1, 0, 0.1, 24)},
		stages.Lift{Age: 2.5, On: tripod(-1.1, 1.2, 2.8, 0.2, 20.6), Dynamic: dynamic},
		stages.Store{Age: 3, Until: 14, On: tripod(-0.9, 1.0, 1, 0.1, 23), Actions: []stages.Action{
			{Mark: "stores", Loads: loads.Set{Points: []loads.Point{{At: 24, Force: 10e3}}}},
		}},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{jack("AL"), jack("AR")}, Grout: []string{"AL", "BL"}, GroutAge: 16},
		stages.Stress{Age: 17, Release: []string{"AR"}},
		stages.Lift{Age: 28, On: tripod(-1.1, 1.2, 2.2, 0.2, 21.8), Dynamic: dynamic},
		stages.Seat{Age: 28, On: tripod(-0.9, 1.0, 0.5, 0.1, 23.5)},
	}
}

// tapered has slabs that thicken to the right.
func tapered(t testing.TB) stages.Element {
	e := crooked(t)
	box := section.Box{
		Depth: 1.6, TopWidth: 5, RootWidth: 3, BottomWidth: 2.6, TopSlab: 0.2, BottomSlab: 0.18, WebThickness: 0.3,
		CantileverRoot: 0.3, CantileverTip: 0.15,
	}
	left, err := box.Shape()
	require.NoError(t, err)
	box.BottomSlab, box.TopSlab = 0.3, 0.25
	right, err := box.Shape()
	require.NoError(t, err)
	e.Section, err = section.Taper{To: 24, Left: left, Right: right}.Along()
	require.NoError(t, err)
	return e
}

// The numbers are those of an engine with statics, increments of stress and losses
// of its own, from the same description. Both agree to 1e-14 in reactions and
// stresses and 1e-10 in the forces of tendons, which are read a hair inside the
// anchors here.
func TestAnotherEngineGivesTheSameNumbers(t *testing.T) {
	const near = 1e-9
	for _, c := range []struct {
		name             string
		of               stages.Element
		stage, situation int
		reactions        [3][3]float64 // nominal, least and most characteristic
		x                float64
		stress           map[int]float64 // by corner
		tendon           string
		force            [3]float64
		losses           tendon.Losses
	}{
		{
			"lift", longTerm(crooked(t)), 2, 1,
			[3][3]float64{{433393.6672029317, 378352.67146815936, 491035.02494092175}, {323764.7815860475, 282646.65432461945, 366825.4975369919}, {742076.4800998381, 647832.7671271587, 840772.6519531168}},
			12.1, map[int]float64{0: -1353355.7143197353, 3: -3308390.804305558, 5: 536152.067515093},
			"BL", [3]float64{2211911.6155557698, 2295977.73039637, 2211911.6155557698},
			tendon.Losses{Friction: 48485441.16035581, DrawIn: 53035637.124945, Shrinkage: 596000.0329319737, Creep: -724903.8716821262, Relaxation: 3064641.9999104547},
		},
		{
			"grouted", longTerm(crooked(t)), 4, 3,
			[3][3]float64{{414879.01051566255, 402432.6402001927, 427325.3808311324}, {361283.9084742006, 350445.39121997455, 372122.4257284266}, {723072.0098989542, 701379.8496019855, 744764.1701959228}},
			5, map[int]float64{0: -2872396.1337277647, 3: -3301375.172661763, 5: 317694.8860048742},
			"AL", [3]float64{743761.9985845854, 760766.4361765457, 743761.9985845853},
			tendon.Losses{Friction: 35970012.07922912, DrawIn: 64342280.63530134, Elastic: 4216957.9064665595, Shrinkage: 880061.6370549774, Creep: 2406240.1570252087, Relaxation: 4240387.290680019},
		},
		{
			"released", longTerm(tapered(t)), 5, 1,
			[3][3]float64{{437325.5151742661, 424205.74971903814, 450445.2806294941}, {373950.96630856144, 362732.4373193046, 385169.49529781827}, {798419.9734827783, 774467.374278295, 822372.5726872616}},
			20.3, map[int]float64{0: -2082350.8728148001, 3: -3745373.4493929264, 5: 1058563.891731275},
			"BL", [3]float64{2176414.7263064203, 2258069.8075088006, 2178281.1241496573},
			tendon.Losses{Friction: 48485441.16035581, DrawIn: 53035637.124945, Elastic: 6143021.622234439, Shrinkage: 9432829.504319256, Creep: 1627433.6460936058, Relaxation: 6792410.548273662},
		},
		{
			"seat", longTerm(tapered(t)), 7, 1,
			[3][3]float64{{437193.1255037849, 424077.33173867135, 450308.9192688985}, {373803.8666746935, 362589.75067445263, 385017.9826749343}, {798699.4627871272, 774738.4789035134, 822660.4466707411}},
			5, map[int]float64{0: -1412413.9974232845, 3: -4427202.51636128, 5: 578673.3877335736},
			"AL", [3]float64{739537.8857615695, 759209.1151665967, 739776.676547533},
			tendon.Losses{Friction: 35970012.07922912, DrawIn: 64342280.63530134, Elastic: 116029.72402974653, Shrinkage: 5243225.535478068, Creep: 2282287.5811438947, Relaxation: 6697639.167156656},
		},
	} {
		a, err := crookedPlan().Analyse(c.of, limits.EN1992{})
		require.NoError(t, err)
		e, err := a.Effects(c.stage, c.situation)
		require.NoError(t, err)
		for i, r := range c.reactions {
			require.InEpsilon(t, r[0], e.Reactions[i].Nominal, near, "%s, support %d", c.name, i+1)
			require.InEpsilon(t, r[1], e.Reactions[i].Characteristic.Least, near)
			require.InEpsilon(t, r[2], e.Reactions[i].Characteristic.Most, near)
		}
		corners := c.of.Section.At(c.x).Corners()
		for i, stress := range c.stress {
			require.InEpsilon(t, stress, e.Stress(c.x).At(corners[i]), near, "%s, corner %d", c.name, i+1)
		}
		record, err := a.Record()
		require.NoError(t, err)
		found := false
		for _, f := range record.Stages[c.stage-1].Situations[c.situation-1].Tendons {
			if f.Mark != c.tendon {
				continue
			}
			found = true
			for i, force := range [3]float64{f.Left, f.Middle, f.Right} {
				require.InEpsilon(t, c.force[i], force, near, c.name)
			}
			for _, pair := range [][2]float64{
				{c.losses.Friction, f.Losses.Friction}, {c.losses.DrawIn, f.Losses.DrawIn}, {c.losses.Elastic, f.Losses.Elastic},
				{c.losses.Shrinkage, f.Losses.Shrinkage}, {c.losses.Creep, f.Losses.Creep}, {c.losses.Relaxation, f.Losses.Relaxation},
			} {
				require.InDelta(t, pair[0], pair[1], near*1380e6, c.name)
			}
		}
		require.True(t, found, c.name)
	}
}
