package main

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// spokes is a sling of like legs 4 m long at equal angles in plan.
func spokes(legs int, horizontal, weight float64) rigging.Sling {
	s := rigging.Sling{Hook: r3.Vec{Z: 4 * math.Sin(horizontal)}, Weight: weight, CoG: r3.Vec{Z: -1}}
	for i := range legs {
		a := 2 * math.Pi * float64(i) / float64(legs)
		s.Legs = append(s.Legs, r3.Vec{X: 4 * math.Cos(horizontal) * math.Cos(a), Y: 4 * math.Cos(horizontal) * math.Sin(a)})
	}
	return s
}

// ofFirst reads a number of the first leg of a sling.
func ofFirst(s rigging.Sling, read func(rigging.Leg) float64) func() (float64, error) {
	return func() (float64, error) {
		r, err := s.Solve()
		if err != nil {
			return 0, err
		}
		return read(r.Legs[0]), nil
	}
}

// slings are the factors of their angle, and how many legs count.
func slings() []Check {
	const makers = "tables of sling makers, factor 1/sin cut to three decimals"
	var rows []Check
	for _, of := range []struct{ degrees, printed float64 }{
		{85, 1.003}, {80, 1.015}, {75, 1.035}, {70, 1.064}, {65, 1.103}, {60, 1.154}, {55, 1.220}, {50, 1.305}, {45, 1.414}, {40, 1.555}, {35, 1.743}, {30, 2},
	} {
		a := of.degrees * math.Pi / 180
		factor := ofFirst(spokes(2, a, 1e5), func(l rigging.Leg) float64 { return l.Factor })
		rows = append(rows,
			closedRow(fmt.Sprintf("leg of a sling at %g° to the horizontal: 1/sin", of.degrees), "loads/rigging", "1", 1/math.Sin(a), factor),
			Check{Name: fmt.Sprintf("leg of a sling at %g° to the horizontal: printed factor", of.degrees), Package: "loads/rigging", Ours: factor}.from(Recalled, makers).is(of.printed, "1", .001, "the table is cut to three decimals, not rounded"))
	}
	rows = append(rows, legsThatCount()...)
	force := func(l rigging.Leg) float64 { return l.Force.Most }
	for _, of := range []struct{ degrees, pounds float64 }{{60, 577}, {45, 707}} {
		rows = append(rows, Check{Name: fmt.Sprintf("1,000 lb on two legs at %g° to the horizontal: force in a leg", of.degrees), Package: "loads/rigging", Ours: ofFirst(spokes(2, of.degrees*math.Pi/180, 1000), force)}.
			from(Recalled, "worked example of a sling maker").is(of.pounds, "lb", .5, lastDigit))
	}
	four := rigging.Sling{Hook: r3.Vec{Z: 5}, Legs: []r3.Vec{{X: -3, Y: -1}, {X: 3, Y: -1}, {X: 3, Y: 1}, {X: -3, Y: 1}}, Weight: 100, CoG: r3.Vec{Z: -0.5}}
	equal := four
	equal.Sharing = rigging.Equalised
	rows = append(rows, spreaders()...)
	return append(rows,
		closedRow("four legs, not equalised: W/2 on each diagonal leg, along it", "loads/rigging", "kN", 50*math.Sqrt(35)/5, ofFirst(four, force)),
		closedRow("four legs, equalised: W/4 on each, along it", "loads/rigging", "kN", 25*math.Sqrt(35)/5, ofFirst(equal, force)))
}

// legsThatCount are the factors on the working load limit of one leg for slings of
// several: the weight over the force in a leg.
func legsThatCount() []Check {
	const table = "EN 818-4 and EN 13414-1, uniform load rating of slings of two, three and four legs"
	var rows []Check
	for _, of := range []struct {
		legs                  int
		fromVertical, printed float64
	}{{2, 45, 1.4}, {2, 60, 1}, {3, 45, 2.1}, {3, 60, 1.5}} {
		a := (90 - of.fromVertical) * math.Pi / 180
		rows = append(rows, Check{Name: fmt.Sprintf("%d legs at %g° from the vertical: weight over the force in a leg", of.legs, of.fromVertical), Package: "loads/rigging",
			Ours: ofFirst(spokes(of.legs, a, 1000), func(l rigging.Leg) float64 { return 1000 / l.Force.Most })}.from(Recalled, table).is(of.printed, "1", .05, lastDigit))
	}
	for _, of := range []struct {
		number, counting int
		sharing          rigging.Sharing
	}{{3, 2, rigging.NotEqualised}, {4, 2, rigging.NotEqualised}, {4, 4, rigging.Equalised}} {
		name := fmt.Sprintf("%d anchors of a rigid element, not equalised: anchors that count", of.number)
		if of.sharing == rigging.Equalised {
			name = fmt.Sprintf("%d anchors of a rigid element, equalised: anchors that count", of.number)
		}
		rows = append(rows, Check{Name: name, Package: "loads/rigging", Ours: func() (float64, error) {
			return float64(rigging.Anchors{Number: of.number, Sharing: of.sharing}.Counting()), nil
		}}.from(Recalled, "VDI/BV-BS 6205 and CEN/TR 15728, anchors of rigid elements").is(float64(of.counting), "1", 0, "printed as it is"))
	}
	return rows
}

// anchorage is the force in lifting anchors, the limit of their maker and the cone.
func anchorage() []Check {
	anchor := rigging.Anchor{
		Mark: "EL-A 30", Source: formula.Source{Document: "invented data sheet EL-A"}, Specimen: concrete.Cube, Interpolate: true,
		Loads:  []rigging.AtStrength{{Strength: 15e6, Load: 150e3}, {Strength: 25e6, Load: 200e3}},
		Angles: []rigging.AtAngle{{FromAxis: 0.3, Share: 1}, {FromAxis: 0.8, Share: 0.75}},
		Edges:  []rigging.AtEdge{{Distance: 0.3, Share: 0.6}, {Distance: 0.6, Share: 1}},
	}
	four := rigging.Anchors{Anchor: anchor, Strength: 18e6, Specimen: concrete.Cube, Load: 160e3, Dynamic: 1.3, Number: 4, FromVertical: math.Pi / 6, FromAxis: 0.5, Edge: 0.4}
	of := func(read func(rigging.Anchored) float64) func() (float64, error) {
		return func() (float64, error) {
			r, err := four.Solve()
			return read(r), err
		}
	}
	limit := (150 + 50*3./10) * .75 * .6
	force := 1.3 * 160 / 2 / math.Cos(math.Pi/6)
	cone := rigging.Cone{Factor: 10, Strength: 25e6, Depth: 0.16, Safety: 2.5}
	return []Check{
		closedRow("four anchors, 160 kN × 1.3, 30° from the vertical: Φ·W/(2·cos 30°) on each of two", "loads/rigging", "kN", force, of(func(r rigging.Anchored) float64 { return r.Force / 1e3 })),
		closedRow("anchor at 18 MPa between 150 kN at 15 and 200 kN at 25 MPa, shares 0.75 and 0.6: limit", "loads/rigging", "kN", limit, of(func(r rigging.Anchored) float64 { return r.Limit.Load / 1e3 })),
		closedRow("four anchors: force over limit", "loads/rigging", "1", force/limit, of(func(r rigging.Anchored) float64 { return r.Utilisation })),
		closedRow("concrete cone, k = 10, 25 MPa, 160 mm, over 2.5: k·√f·h^1.5/γ", "loads/rigging", "kN", 10*5*160*math.Sqrt(160)/2.5/1e3, func() (float64, error) {
			r, err := cone.Solve()
			return r.Permissible / 1e3, err
		}),
	}
}

// spreaders are a beam of 12 m and 30 kN with 600 kN below it, 0.6 m off its middle, the
// hook 7 m above pins that are 0.15 m above its axis.
func spreaders() []Check {
	of := func(read func(rigging.Spread) float64) func() (float64, error) {
		return func() (float64, error) {
			r, err := rigging.Spreader{Length: 12, Height: 7, Weight: 30e3, Load: 600e3, CoG: .6, Eccentricity: .15}.Solve()
			return read(r) / 1e3, err
		}
	}
	hook := 600 * .6 / 630
	vertical := 600*5.4/12 + 15
	push := vertical * (6 + hook) / 7
	const name = "spreader, 12 m, 30 kN, 600 kN 0.6 m off its middle, hook 7 m above it: "
	return []Check{
		closedRow(name+"first lower sling W·(1/2 − 0.6/12)", "loads/rigging", "kN", 600*5.4/12, of(func(r rigging.Spread) float64 { return r.Lower[0] })),
		closedRow(name+"first upper sling", "loads/rigging", "kN", math.Hypot(vertical, push), of(func(r rigging.Spread) float64 { return r.Upper[0] })),
		closedRow(name+"compression", "loads/rigging", "kN", push, of(func(r rigging.Spread) float64 { return r.Compression })),
		closedRow(name+"moment 0.15·N + G·l/8", "loads/rigging", "kNm", .15*push+30*12/8, of(func(r rigging.Spread) float64 { return r.Moment })),
	}
}
