package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// InteriorSpan is an interior span of one depth, of two cantilevers that are fixed at the piers
// and closed at mid-span: the simple case beside which a deck is looked at.
type InteriorSpan struct {
	redistribution.Change
	Span   float64 // between the piers, m, 1 to 500
	Weight float64 // of the deck, N/m, 1e3 to 5e6
}

// SpanShares are the shares of the way from the moments of the cantilevers (−wL²/8 at the piers,
// 0 at mid-span) to those of the span fixed at both ends (−wL²/12, wL²/24).
type SpanShares struct {
	Stepwise      redistribution.Share // superposition in time, the reference
	Aged, NoRatio redistribution.Share // EN 1992-2 Annex KK, with E(tc)/E(t0) and without
}

// Shares are the shares by the three methods, superposition in 200 steps. The error wraps
// [ErrSegmental] or is that of package redistribution.
func (s InteriorSpan) Shares() (SpanShares, error) {
	var of SpanShares
	if err := within("InteriorSpan.", bound{"Span", s.Span, "m", 1, 500}, bound{"Weight", s.Weight, "N/m", 1e3, 5e6}); err != nil {
		return of, err
	}
	var err error
	for _, one := range []struct {
		to *redistribution.Share
		by func() (redistribution.Share, error)
	}{
		{&of.Stepwise, func() (redistribution.Share, error) { return s.Stepwise(200) }},
		{&of.Aged, func() (redistribution.Share, error) { return s.Aged(true) }},
		{&of.NoRatio, func() (redistribution.Share, error) { return s.Aged(false) }},
	} {
		if *one.to, err = one.by(); err != nil {
			return of, fmt.Errorf("%w: %w", ErrSegmental, err)
		}
	}
	return of, nil
}

// Tables are the shares and the moments at pier and mid-span by the three methods side by side,
// a row each for creep −30 %, as the model gives it, and +30 %.
func (s InteriorSpan) Tables() ([]stages.ValueTable, error) {
	of, err := s.Shares()
	if err != nil {
		return nil, err
	}
	table := func(title string, unit formula.Unit, value func(share float64) float64) stages.ValueTable {
		t := stages.ValueTable{Title: title, Columns: []stages.ValueColumn{{Name: "factor on creep", Unit: formula.One}, {Name: "superposition in time", Unit: unit},
			{Name: "Annex KK, with E(tc)/E(t0)", Unit: unit}, {Name: "Annex KK, without", Unit: unit}}}
		for i, factor := range [3]float64{1 - redistribution.Band, 1, 1 + redistribution.Band} {
			row := []float64{factor}
			for _, share := range [3]redistribution.Share{of.Stepwise, of.Aged, of.NoRatio} {
				row = append(row, value([3]float64{share.Low, share.Value, share.High}[i]))
			}
			t.Rows = append(t.Rows, row)
		}
		return t
	}
	w := s.Weight * s.Span * s.Span
	words := fmt.Sprintf("loaded at %g d, closed at %g d, at %g d", s.Loaded, s.Changed, s.Until)
	return []stages.ValueTable{
		table("Share of the way to the monolithic moments, "+words, formula.One, func(share float64) float64 { return share }),
		table("Moment at mid-span, "+words, formula.NewtonMetre, func(share float64) float64 { return share * w / 24 }),
		table("Moment at the piers, "+words, formula.NewtonMetre, func(share float64) float64 { return -w/8 + share*w/24 }),
	}, nil
}
