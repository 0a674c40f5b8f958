package rigging_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

func anchors() rigging.Anchors {
	a := rigging.Anchor{
		Mark: "EL-A 24", Source: formula.Source{Document: "invented data sheet EL-A, edition 2"}, Specimen: concrete.Cube,
		Loads:  []rigging.AtStrength{{Strength: 15e6, Load: 170e3}, {Strength: 25e6, Load: 210e3}, {Strength: 35e6, Load: 240e3}},
		Angles: []rigging.AtAngle{{FromAxis: 0.2, Share: 1}, {FromAxis: 0.6, Share: 0.8}},
		Edges:  []rigging.AtEdge{{Distance: 0.3, Share: 0.7}, {Distance: 0.5, Share: 0.9}, {Distance: 0.7, Share: 1}},
	}
	return rigging.Anchors{Anchor: a, Strength: 27e6, Specimen: concrete.Cube, Load: 180e3, Dynamic: 1.3, Number: 4, FromVertical: 0.5, FromAxis: 0.5, Edge: 0.55}
}

// The safe row counts: the lower strength, the larger angle, the smaller distance; the
// tables are not left.
func TestAnchorLimit(t *testing.T) {
	a := anchors().Anchor
	for _, c := range []struct{ strength, angle, edge, want float64 }{
		{15e6, 0, 0.7, 170e3}, {24.99e6, 0.2, 0.7, 170e3}, {25e6, 0.2, 0.7, 210e3}, {60e6, 0, 3, 240e3},
		{25e6, 0.21, 0.7, 210e3 * 0.8}, {25e6, 0.6, 0.69, 210e3 * 0.8 * 0.9}, {25e6, 0, 0.3, 210e3 * 0.7}, {25e6, 0, 0.4999, 210e3 * 0.7},
	} {
		l, err := a.Limit(c.strength, c.angle, c.edge)
		require.NoError(t, err)
		require.InEpsilon(t, c.want, l.Load, 1e-12, "%+v", c)
	}
	a.Interpolate = true
	for strength, want := range map[float64]float64{15e6: 170e3, 20e6: 190e3, 25e6: 210e3, 30e6: 225e3, 35e6: 240e3, 36e6: 240e3} {
		l, err := a.Limit(strength, 0, 0.7)
		require.NoError(t, err)
		require.InEpsilon(t, want, l.Load, 1e-12, "%g", strength)
	}
	for want, c := range map[string][3]float64{
		"strength = 1.49e+07 Pa: must be 15e6 to 200e6 Pa, the tables of EL-A 24": {14.9e6, 0, 0.7},
		"fromAxis = 0.61 rad: must be 0 to 0.6 rad, the tables of EL-A 24":        {25e6, 0.61, 0.7},
		"edge = 0.29 m: must be 0.3 to 1000 m, the tables of EL-A 24":             {25e6, 0, 0.29},
		"strength = NaN Pa": {math.NaN(), 0, 0.7},
	} {
		_, err := a.Limit(c[0], c[1], c[2])
		require.ErrorIs(t, err, rigging.ErrRigging, want)
		require.ErrorContains(t, err, want)
	}
}

func TestAnchorRefuses(t *testing.T) {
	for want, change := range map[string]func(*rigging.Anchors){
		"Anchor.Mark is empty: must be":                                           func(a *rigging.Anchors) { a.Anchor.Mark = "" },
		"Anchor.Source of EL-A 24 is empty: must name":                            func(a *rigging.Anchors) { a.Anchor.Source = formula.Source{} },
		"Anchor.Specimen of EL-A 24 is not stated: must be Cylinder or Cube":      func(a *rigging.Anchors) { a.Anchor.Specimen = 0 },
		"Anchor.Edges of EL-A 24 has 0 rows: must be 1 to 50":                     func(a *rigging.Anchors) { a.Anchor.Edges = nil },
		"Anchor.Loads[1] of EL-A 24: 160000 N at 2.5e+07 Pa: must be at a higher": func(a *rigging.Anchors) { a.Anchor.Loads[1].Load = 160e3 },
		"Anchor.Angles[1] of EL-A 24: 1 at 0.2 rad: must be at a larger angle":    func(a *rigging.Anchors) { a.Anchor.Angles[1] = a.Anchor.Angles[0] },
		"Anchor.Edges[2] of EL-A 24: 0.8 at 0.7 m: must be at a larger distance":  func(a *rigging.Anchors) { a.Anchor.Edges[2].Share = 0.8 },
		"Anchor.Loads[0].Strength = 15 Pa: must be 1e6 to 200e6 Pa; is it in MPa": func(a *rigging.Anchors) { a.Anchor.Loads[0].Strength = 15 },
		"Anchor.Angles[0].Share = 1.1: must be":                                   func(a *rigging.Anchors) { a.Anchor.Angles[0].Share = 1.1 },
		"Anchors.Specimen is not that of the table of EL-A 24: must be the same":  func(a *rigging.Anchors) { a.Specimen = concrete.Cylinder },
		"Anchors.Number = 0: must be 1 to 16":                                     func(a *rigging.Anchors) { a.Number = 0 },
		`Anchors.Sharing = "hope": must be NotEqualised or Equalised`:             func(a *rigging.Anchors) { a.Sharing = "hope" },
		"Anchors.Part = 0.4: must be 0.5 to 1":                                    func(a *rigging.Anchors) { a.Part = 0.4 },
		"Anchors.Dynamic = 0: must be 1 to 3":                                     func(a *rigging.Anchors) { a.Dynamic = 0 },
		"Anchors.FromVertical = 1.2 rad: must be 0 to 1.05 rad":                   func(a *rigging.Anchors) { a.FromVertical = 1.2 },
	} {
		a := anchors()
		change(&a)
		_, err := a.Solve()
		require.ErrorIs(t, err, rigging.ErrRigging, want)
		require.ErrorContains(t, err, want)
		_, err = a.Lines()
		require.ErrorContains(t, err, want)
	}
}

// Two of four anchors of a rigid element count unless they are equalised; the force has
// the dynamic factor and the angle of the pull.
func TestAnchorsForce(t *testing.T) {
	a := anchors()
	r, err := a.Solve()
	require.NoError(t, err)
	require.Equal(t, 2, r.Counting)
	require.InEpsilon(t, 180e3/2*1.3/math.Cos(0.5), r.Force, 1e-12)
	require.InEpsilon(t, 210e3*0.8*0.9, r.Limit.Load, 1e-12)
	require.InEpsilon(t, r.Force/(210e3*0.8*0.9), r.Utilisation, 1e-12)
	for number, counting := range map[int]int{1: 1, 2: 2, 3: 2, 16: 2} {
		a.Number = number
		require.Equal(t, counting, a.Counting())
	}
	a.Number, a.Sharing = 4, rigging.Equalised
	r, err = a.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 180e3/4*1.3/math.Cos(0.5), r.Force, 1e-12)
	a.Part = 0.3
	r, err = a.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 0.3*180e3*1.3/math.Cos(0.5), r.Force, 1e-12)
	a.Load *= 10
	r, err = a.Solve()
	require.NoError(t, err)
	require.Greater(t, r.Utilisation, 1.0)
}

func cone() rigging.Cone { return rigging.Cone{Factor: 10, Strength: 25e6, Depth: 0.16, Safety: 2.5} }

// 10·√25·160^1.5 N over 2.5; factor and safety have no usual value.
func TestCone(t *testing.T) {
	r, err := cone().Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 50*160*math.Sqrt(160), r.Resistance, 1e-12)
	require.InEpsilon(t, r.Resistance/2.5, r.Permissible, 1e-12)
	c := cone()
	c.Factor = 0
	_, err = c.Solve()
	require.ErrorContains(t, err, "Cone.Factor = 0: must be 1 to 25")
	c = cone()
	c.Safety = 0
	_, err = c.Lines()
	require.ErrorContains(t, err, "Cone.Safety = 0: must be 1 to 10")
}

// May the anchors lift the element at the strength of today?
func ExampleAnchors() {
	a := rigging.Anchors{
		Anchor: rigging.Anchor{
			Mark: "EL-A 24", Source: formula.Source{Document: "invented data sheet EL-A, edition 2"}, Specimen: concrete.Cube,
			Loads:  []rigging.AtStrength{{Strength: 15e6, Load: 170e3}, {Strength: 25e6, Load: 210e3}},
			Angles: []rigging.AtAngle{{FromAxis: 0.2, Share: 1}, {FromAxis: 0.55, Share: 0.8}},
			Edges:  []rigging.AtEdge{{Distance: 0.5, Share: 1}},
		},
		Strength: 27e6, Specimen: concrete.Cube, Load: 180e3, Dynamic: 1.3, Number: 4, FromVertical: 0.5, FromAxis: 0.5, Edge: 0.6,
	}
	r, err := a.Solve()
	fmt.Printf("%d of 4 count: %.1f kN of %.1f kN each %v\n", r.Counting, r.Force/1e3, r.Limit.Load/1e3, err)
	// Output: 2 of 4 count: 133.3 kN of 168.0 kN each <nil>
}

func TestAnchorLines(t *testing.T) {
	for _, change := range []func(*rigging.Anchors){
		func(*rigging.Anchors) {}, func(a *rigging.Anchors) { a.Anchor.Interpolate = true }, func(a *rigging.Anchors) { a.Sharing = rigging.Equalised }, func(a *rigging.Anchors) { a.Part = 0.6 },
		func(a *rigging.Anchors) { a.Anchor.Interpolate, a.Strength = true, 40e6 },
	} {
		a := anchors()
		change(&a)
		r, err := a.Solve()
		require.NoError(t, err)
		lines, err := a.Lines()
		by := derived(t, lines, err)
		gives(t, by, map[string]float64{"WLL_0": r.Limit.Row.Load, "k_β": r.Limit.Angle.Share, "k_c": r.Limit.Edge.Share, "WLL": r.Limit.Load, "F_A": r.Force, "u_A": r.Utilisation})
		require.Equal(t, a.Anchor.Source, by["WLL"].Source)
	}
	c, err := cone().Solve()
	require.NoError(t, err)
	lines, err := cone().Lines()
	gives(t, derived(t, lines, err), map[string]float64{"N_Rk": c.Resistance, "N_perm": c.Permissible})
}
