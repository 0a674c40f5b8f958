package sheet

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// next to nothing
const tiny = 5e-324

// noNumber is what no page may hold.
var noNumber = regexp.MustCompile(`NaN|\bInf\b|%!`)

// plain is a beam 12 m long with a straight tendon, and what is done to it.
func plain12(t *testing.T) (stages.Element, stages.Transfer, stages.Lift, stages.Store) {
	shape, err := section.New([]section.Outline{{{Y: -0.25}, {Y: 0.25}, {Y: 0.25, Z: 0.8}, {Y: -0.25, Z: 0.8}}}, nil)
	require.NoError(t, err)
	mix := concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3, DryingFrom: 2}}
	e := stages.Element{Mark: "N-1", Length: 12, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: mix}
	e.Tendons = []tendon.Tendon{{
		Mark: "A", Strand: tendon.Strand{Name: "invented", Area: 150e-6, Fpk: 1860e6, Fp01k: 1600e6, Modulus: 195e9, Relaxation: tendon.Class2}, Strands: 2, Duct: 0.06,
		Elevation: tendon.Level(0, 12, 0.3), Plan: tendon.Level(0, 12, 0), Friction: 0.19, Wobble: 0.005,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	e.Bars = []stages.BondedBars{{From: 0, To: 12, At: section.Point{Z: 0.05}, Area: 1e-3}, {From: 0, To: 12, At: section.Point{Z: 0.75}, Area: 1e-3}}
	on := stages.Pads(0.2, 1, 11)
	on[1].Y = 0.15
	pull := []tendon.Jacking{{Tendons: []string{"A"}, Stress: 1200e6, Ends: tendon.LeftEnd, DrawIn: 0.005}}
	lift := stages.Lift{Age: 7, On: []stages.Support{{X: 2, Y: -0.2, Z: 0.8}, {X: 2, Y: 0.2, Z: 0.8}, {X: 10, Z: 0.8}}, Dynamic: loads.Dynamic{Most: 1.1}}
	return e, stages.Transfer{Age: 3, Jacking: pull, On: on[:3]}, lift, stages.Store{Age: 10, OutOfLevel: 0.002, On: stages.Elastic(1e8, stages.Pads(0.2, 1, 11)...)}
}

// A number next to nothing that a script gives is an error in words or a number on every
// page; the record is read back.
func TestNumbersNextToNothing(t *testing.T) {
	load := func(of loads.Set) []stages.Action { return []stages.Action{{Mark: "a", Loads: of, Least: 1, Most: 1}} }
	ran := 0
	for name, change := range map[string]func(*stages.Element, *stages.Transfer, *stages.Lift, *stages.Store){
		"cast":        func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) { e.Cast = tiny },
		"length":      func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) { e.Length = tiny },
		"unit weight": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) { e.UnitWeight = tiny },
		"tolerance": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			e.WeightTolerance = loads.PlusMinus(tiny)
		},
		"extra weight": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			e.Extra = []stages.ExtraWeight{{Mark: "x", From: 3, To: 3, Weight: tiny, Y: tiny, Z: tiny}}
		},
		"spread": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			e.Extra = []stages.ExtraWeight{{Mark: "x", From: 0, To: tiny, Weight: 1e3, Z: 0.4}}
		},
		"bars": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) { e.Bars[0].Area = tiny },
		"duct": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) { e.Tendons[0].Duct = tiny },
		"friction": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			e.Tendons[0].Friction, e.Tendons[0].Wobble = tiny, tiny
		},
		"approval": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			e.Tendons[0].Approval.AnchorSpacing, e.Tendons[0].Approval.EdgeDistance = tiny, tiny
		},
		"strand": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			e.Tendons[0].Strand.Area = tiny
		},
		"draw-in": func(_ *stages.Element, s *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			s.Jacking[0].DrawIn = tiny
		},
		"stress": func(_ *stages.Element, s *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			s.Jacking[0].Stress = tiny
		},
		"roll":    func(_ *stages.Element, _ *stages.Transfer, s *stages.Lift, _ *stages.Store) { s.Roll = tiny },
		"dynamic": func(_ *stages.Element, _ *stages.Transfer, s *stages.Lift, _ *stages.Store) { s.Dynamic.Least = tiny },
		"lift point": func(_ *stages.Element, _ *stages.Transfer, s *stages.Lift, _ *stages.Store) {
			s.On[0].X, s.On[1].X = tiny, tiny
		},
		"across":  func(_ *stages.Element, _ *stages.Transfer, s *stages.Lift, _ *stages.Store) { s.On[0].Y = tiny },
		"age":     func(_ *stages.Element, s *stages.Transfer, _ *stages.Lift, _ *stages.Store) { s.Age = tiny },
		"level":   func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) { s.On[0].Level = tiny },
		"preload": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) { s.On[0].Preload = tiny },
		"rubs":    func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) { s.On[0].Friction = tiny },
		"stiffness": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) {
			s.On[0].Stiffness, s.On[0].RotationalStiffness = tiny, tiny
		},
		"out of level": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) { s.OutOfLevel = tiny },
		"leaning": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) {
			s.Roll, s.Gradient = tiny, tiny
		},
		"exposure": func(e *stages.Element, _ *stages.Transfer, _ *stages.Lift, _ *stages.Store) {
			e.Concrete = concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: tiny, NotionalSize: 0.3, DryingFrom: tiny}}
		},
		"train": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) {
			s.Actions = []stages.Action{{Mark: "a", Train: &loads.Train{Name: "t", Axles: []loads.Axle{{Force: tiny}, {Force: tiny, Behind: 1}}}, Least: 0, Most: 1}}
		},
		"line": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) {
			s.Actions = load(loads.Set{Lines: []loads.Line{{From: 0, To: 12, Intensity: loads.Polynomial{tiny}}}})
		},
		"wind": func(_ *stages.Element, _ *stages.Transfer, s *stages.Lift, _ *stages.Store) {
			s.Actions = []stages.Action{{Mark: "w", Direction: stages.Transverse, Loads: loads.Set{Lines: []loads.Line{{From: 0, To: 12, Intensity: loads.Polynomial{tiny}}}}, Z: 0.4, Least: -1, Most: 1}}
		},
		"force": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) {
			s.Actions = load(loads.Set{Points: []loads.Point{{At: tiny, Force: tiny}}})
		},
		"couple": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) {
			s.Actions = load(loads.Set{Couples: []loads.Couple{{At: 3, Moment: tiny}}})
		},
		"presence": func(_ *stages.Element, _ *stages.Transfer, _ *stages.Lift, s *stages.Store) {
			s.Actions = []stages.Action{{Mark: "a", Loads: loads.Set{Points: []loads.Point{{At: 3, Force: 1e3}}}, Y: tiny, Z: tiny, Least: -tiny, Most: tiny}}
		},
	} {
		e, transfer, lift, store := plain12(t)
		change(&e, &transfer, &lift, &store)
		record, err := stages.Plan{transfer, lift, store}.Run(e, limits.EN1992{})
		if err != nil {
			require.Regexp(t, "must |is given", err.Error(), name)
			continue
		}
		ran++
		harmless(t, name, record)
	}
	require.Greater(t, ran, 12, "most are taken")
}

// harmless requires that a record is read back and that no page of it has what is no
// number.
func harmless(t *testing.T, name string, record stages.Record) {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, WriteJSON(&out, record), name)
	back, err := ReadJSON(&out)
	require.NoError(t, err, name)
	require.NoError(t, back.Check(), name)
	a, err := newAuthor(back, Settings{Units: US}) // which divides once more
	require.NoError(t, err, name)
	for form, page := range rendered(a) {
		require.Empty(t, noNumber.FindString(page), "%s: in %s", name, form)
	}
}

// A record whose numbers are next to nothing, half of them at a time, has no page with
// what is no number.
func TestARecordNextToNothing(t *testing.T) {
	parts := 7
	if underRace {
		parts = 2
	}
	for part := range parts {
		record := storedRecord(t)
		n := 0
		leaves(reflect.ValueOf(&record).Elem(), "", func(path string, v reflect.Value) {
			if n++; v.Kind() == reflect.Float64 && !strings.Contains(path, "Lists") && n%7 == part {
				v.SetFloat(tiny)
			}
		})
		for _, units := range []Units{SI, US} {
			a, err := newAuthor(record, Settings{Units: units})
			require.NoError(t, err)
			for form, page := range rendered(a) {
				require.Empty(t, noNumber.FindString(page), "%s in %s, part %d", units, form, part)
			}
		}
	}
}

// No way to print a number gives what is no number for one next to nothing.
func TestPrintingNextToNothing(t *testing.T) {
	for _, v := range []float64{tiny, -tiny, 1e-310, 1e-300, 2.3e-308} {
		for _, u := range []Units{SI, US} {
			for unit := range table[SI] {
				for name, text := range map[string]string{
					"quantity": u.quantity(v, unit), "exact": u.exact(v, unit), "column": u.column(v, unit), "safe": u.safe(v, unit, limits.AtMost),
					"safe up": u.safe(v, unit, limits.AtLeast), "aligned": u.aligned(unit, v).text(v), "number": number(v), "shortest": shortest(v, 1), "days": days(v, up),
				} {
					require.NotRegexp(t, noNumber, text, "%s of %g %s", name, v, unit)
				}
				for _, last := range []int{-330, -320, -310, -30, 0, 30, 310} {
					require.NotRegexp(t, `NaN|Inf`, u.digits(v, unit, last), fmt.Sprint(v, last))
				}
			}
		}
	}
}

// A chart of numbers of any size has coordinates that are numbers.
func TestChartsOfNumbersOfAnySize(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	sizes := []float64{0, tiny, -tiny, 1e-320, 1e-310, 1e-200, 1e-99, 1e-50, 1e-20, 1, -1, 12, 1e9, 1e16, 1e16 + 2, 1e50, 1e99, 1e101, 1e200, 1.7e308, -1.7e308}
	pick := func() [2]float64 {
		return [2]float64{sizes[random.IntN(len(sizes))], sizes[random.IntN(len(sizes))]}
	}
	for i := range 250 {
		f := stages.Figure{Title: "t", XUnit: "m", YUnit: []string{"m", "N", "Pa"}[i%3], Texts: []stages.Text{{At: pick(), Text: "x"}}}
		for range 1 + random.IntN(2) {
			f.Lines = append(f.Lines, stages.Polyline{Name: "a", Points: [][2]float64{pick(), pick(), pick()}[:1+random.IntN(3)]})
		}
		svg := (&author{units: []Units{SI, US}[i%2]}).recordChart(f).svg()
		require.NotRegexp(t, `NaN|Inf`, svg, "%v", f)
	}
}
