package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

const tonne = 9806.65 // N

// tandems are the shares of two hooks.
func tandems() []Check {
	share := func(change func(*rigging.Tandem)) func() (float64, error) {
		return func() (float64, error) {
			t := rigging.Tandem{Weight: 1e6, Tolerance: loads.PlusMinus(0), Dynamic: loads.AtRest(), Second: 34, CoG: 17}
			change(&t)
			r, err := t.Solve()
			return r.First.Static.Most / 1e6, err
		}
	}
	// A beam of 107 t with 5 % tolerance and 3 t of rigging, hoisted with 1.10; one hook has
	// 52.5 %.
	beam := rigging.Tandem{Weight: (107*1.05 + 3) * tonne, Tolerance: loads.PlusMinus(0), Dynamic: loads.Dynamic{Least: 1, Most: 1.1}, Second: 34, CoG: 0.525 * 34, Plumb: 0.03}
	second := func(read func(rigging.Share) float64) func() (float64, error) {
		return func() (float64, error) {
			r, err := beam.Solve()
			return read(r.Second) / tonne, err
		}
	}
	hook := (107*1.05 + 3) * 1.1 * 0.525
	slope := math.Tan(5 * math.Pi / 180)
	return []Check{
		closedRow("tandem lift, 34 m between hooks, centre of gravity 0.25 m off: share", "loads/rigging", "1", 0.5+0.25/34, share(func(t *rigging.Tandem) { t.CoGTolerance = 0.25 })),
		closedRow("tandem lift, 34 m between hooks 4 m above the centre of gravity, ends 1 m out of level: share", "loads/rigging", "1", 0.5+4./34/34,
			share(func(t *rigging.Tandem) { t.Height, t.EndLevel = 4, 1 })),
		closedRow("tandem lift, 34 m between hooks 4 m above the centre of gravity, ends 5° out of level: share 1/2 + 4·tan 5°/34", "loads/rigging", "1", 0.5+4*slope/34,
			share(func(t *rigging.Tandem) { t.Height, t.EndLevel = 4, 34*slope })),
		closedRow("tandem lift, (107 t × 1.05 + 3 t) × 1.10, 52.5 % on one hook: its load", "loads/rigging", "t", hook, second(func(s rigging.Share) float64 { return s.Characteristic.Most })),
		closedRow("tandem lift, the same: the other hook at rest", "loads/rigging", "t", (107*1.05+3)*.475, func() (float64, error) {
			r, err := beam.Solve()
			return r.First.Static.Least / tonne, err
		}),
		closedRow("tandem lift, the same, ropes 30 mrad out of plumb: side load of a hook", "loads/rigging", "t", hook*math.Tan(.03), second(func(s rigging.Share) float64 { return s.Side })),
		needed("tandem lift, 66.6 t on a hook: chart needed at 75 %", hook, .75),
		needed("tandem lift, 66.6 t on a hook: chart needed at 80 %", hook, .80),
	}
}

// needed is the capacity (t) with which a load is just permissible, at a share of the chart:
// capacity times utilisation.
func needed(name string, load, share float64) Check {
	const block = 1e-3 // t: the least hook block that a pick may have is 1 N
	return closedRow(name, "loads/rigging", "t", load/share, func() (float64, error) {
		p := rigging.Pick{Chart: chartOf(100 * tonne), Radius: 10, Load: rigging.Range{Most: (load - block) * tonne}, Dynamic: 1, HookBlock: block * tonne, Part: share}
		u, err := p.Solve()
		return u.Capacity.Load / tonne * u.Utilisation, err
	})
}

// chartOf is a chart of one capacity (N).
func chartOf(load float64) rigging.Chart {
	return rigging.Chart{Crane: "EL-C", Configuration: "invented", Source: formula.Source{Document: "invented chart"}, Wind: 9, Rows: []rigging.Capacity{{Radius: 8, Load: load}, {Radius: 12, Load: load}}}
}

// charts are how much of a chart may be used, and up to which wind.
func charts() []Check {
	const code = "Queensland Mobile Crane Code of Practice, 14.3.2 (edition not recorded)"
	use := func(cranes int) func() (float64, error) {
		return func() (float64, error) {
			list, err := limits.Handling{}.Limits(limits.Question{Kind: limits.CraneUse, Cranes: cranes})
			switch {
			case err != nil:
				return 0, err
			case len(list) != 1:
				return 0, fmt.Errorf("%d limits answer", len(list))
			}
			return list[0].Line.Result.Value, nil
		}
	}
	wind := func(mass, sail float64) func() (float64, error) {
		return func() (float64, error) { return rigging.Chart{Wind: 9}.WindLimit(mass, sail) }
	}
	const maker = "Windeinflüsse bei Kranbetrieb, training text of a crane maker, 5.2"
	row := func(name string, ours func() (float64, error)) Check {
		return Check{Name: name, Package: "stages/limits", Ours: ours}
	}
	const percent = "half a percent, as printed"
	return []Check{
		row("two cranes, influences not evaluated accurately: share of the chart", use(2)).from(Recalled, "BS 7121-1 and ISO 12480-1, down-rating by 25 %").is(.75, "1", 0, "printed as it is"),
		row("three cranes, 33 % above the share: share of the chart", use(3)).from(Published, code).is(1/1.33, "1", .005, percent),
		row("four cranes, 50 % above the share: share of the chart", use(4)).from(Published, code).is(1/1.5, "1", same(1), floatRounding),
		row("seven cranes, 50 % above the share: share of the chart", use(7)).from(Published, code).is(1/1.5, "1", same(1), floatRounding),
		{Name: "two cranes, capacity 20 % above the share: use of the chart", Package: "loads/rigging", Ours: func() (float64, error) {
			u, err := rigging.Pick{Chart: chartOf(1.2e6), Radius: 9, Load: rigging.Range{Most: 1e6 - 1}, Dynamic: 1, HookBlock: 1, Part: 1}.Solve()
			return u.Utilisation, err
		}, Source: code, Kind: Published, Value: 1 / 1.2, Unit: "1", Tolerance: same(1), Reason: floatRounding},
		{Name: "load of 85 t with a sail area of 60 m², chart to 9 m/s: the chart governs", Package: "loads/rigging", Ours: wind(85e3, 60), Source: maker, Kind: Published, Value: 9, Unit: "m/s", Tolerance: 0, Reason: "the limit of the chart itself"},
		{Name: "load of 85 t, chart to 9 m/s, 60 m²: limit without that of the chart, as twice the one for 4 × 60 m²", Package: "loads/rigging", Ours: func() (float64, error) {
			v, err := wind(85e3, 240)()
			return 2 * v, err
		}, Source: maker, Kind: Published, Value: 11.73, Unit: "m/s", Tolerance: .005, Reason: lastDigit},
		closedRow("wind limit of a load: v·√(1.2 m²/t · m/A)", "loads/rigging", "m/s", 9*math.Sqrt(1.2*20/60), wind(20e3, 60)),
	}
}

// endLifts are a beam with one end on the hook and the other on a bunk.
func endLifts() []Check {
	// 600 kN, 25 m from bunk to hook, centre of gravity 12 m from the bunk.
	lift := rigging.EndLift{Weight: 600e3, Tolerance: loads.PlusMinus(0.03), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, Bunk: 2, Hook: 27, CoG: 14, CoGTolerance: 0.2}
	raised := lift
	raised.CoGHeight, raised.HookHeight, raised.Raise = 0.9, 1.8, 1.5
	plumb := lift
	plumb.HookHeight, plumb.Plumb = 1.8, 0.05
	hook := func(e rigging.EndLift, read func(rigging.Ends) float64) func() (float64, error) {
		return func() (float64, error) {
			r, err := e.Solve()
			return read(r) / 1e3, err
		}
	}
	most := func(r rigging.Ends) float64 { return r.Hook.Characteristic.Most }
	least := func(r rigging.Ends) float64 { return r.Hook.Static.Least }
	// Turned by sin φ = 1.5/25 about the bunk: W·(a·cos φ − hG·sin φ)/(l·cos φ − hH·sin φ).
	sine := 1.5 / 25
	cosine := math.Sqrt(1 - sine*sine)
	const name = "end lift, 600 kN ± 3 %, 25 m from bunk to hook, centre of gravity 12 ± 0.2 m from the bunk: "
	return []Check{
		closedRow(name+"hook with 1.1", "loads/rigging", "kN", 600*1.03*1.1*12.2/25, hook(lift, most)),
		closedRow(name+"hook at rest, least", "loads/rigging", "kN", 600*.97*11.8/25, hook(lift, least)),
		closedRow(name+"bunk at rest, largest", "loads/rigging", "kN", 600*1.03*(1-11.8/25), hook(lift, func(r rigging.Ends) float64 { return r.Bunk.Static.Most })),
		closedRow(name+"hook 1.5 m up, at rest, least", "loads/rigging", "kN", 600*.97*math.Min(11.8/25, (11.8*cosine-.9*sine)/(25*cosine-1.8*sine)), hook(raised, least)),
		closedRow(name+"hook 1.5 m up, with 1.1", "loads/rigging", "kN", 600*1.03*1.1*math.Max(12.2/25, (12.2*cosine-.9*sine)/(25*cosine-1.8*sine)), hook(raised, most)),
		closedRow(name+"rope 50 mrad out of plumb, hook 1.8 m above the bunk: hook with 1.1", "loads/rigging", "kN", 600*1.03*1.1*12.2/(25-1.8*math.Tan(.05)), hook(plumb, most)),
		closedRow(name+"rope 50 mrad out of plumb, hook 1.8 m above the bunk: hook at rest, least", "loads/rigging", "kN", 600*.97*11.8/(25+1.8*math.Tan(.05)), hook(plumb, least)),
		closedRow(name+"rope 50 mrad out of plumb: side load of the bunk", "loads/rigging", "kN", 600*1.03*1.1*12.2/(25-1.8*math.Tan(.05))*math.Tan(.05), hook(plumb, func(r rigging.Ends) float64 { return r.Bunk.Side })),
	}
}
