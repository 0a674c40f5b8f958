package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// tensionSteel compares the steel that the force in the tension zone needs with the
// bars given there, at the place of their largest utilisation. Where bars run but none
// is in the tension zone the tension itself is limited.
func (r *run) tensionSteel(s *situation) (checks []checked, notChecked []unanswered, err error) {
	var kept keeper
	for _, piece := range s.carried() {
		if len(r.girder.Pieces[piece].Element.Bars) == 0 {
			continue
		}
		q := r.question(s, limits.TensionSteel, piece)
		answers, not, err := r.ask(q) // for the factors; asked again with the zone
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for i := range answers {
			worst, v, err := r.mostTension(s, piece, answers[i])
			if err != nil {
				return nil, nil, err
			}
			if !worst.Found {
				continue
			}
			q.TensionZone = limits.TensionZone{Force: worst.Force, Bars: worst.Bars}
			again, _, err := r.ask(q)
			if err != nil {
				return nil, nil, err
			}
			check, err := r.steelCheck(v, q, piece, again[i], worst)
			if err != nil {
				return nil, nil, err
			}
			kept.keep(fmt.Sprint(i), check)
		}
	}
	return kept.checks, notChecked, nil
}

func (r *run) mostTension(s *situation, piece int, limit limits.Limit) (worst ledger.TensionZone, of *variant, err error) {
	place, near := r.girder.Pieces[piece], r.girder.near()
	bars := func(x float64, stress func(section.Point) float64) float64 {
		area := 0.0
		for _, b := range place.Element.Bars {
			if place.has(b, x, x, near) && stress(b.At) > 0 {
				area += b.Area
			}
		}
		return area
	}
	least := func(x float64, may func(section.Point) bool) float64 {
		area := math.Inf(1)
		for _, b := range place.Element.Bars {
			if place.has(b, x, x, near) && may(b.At) {
				area = math.Min(area, b.Area)
			}
		}
		return area
	}
	marches, err := r.marches(s, limit)
	if err != nil {
		return worst, nil, err
	}
	for _, m := range marches {
		w, i, err := m.MostTension(piece, bars, least)
		if err != nil {
			return worst, nil, err
		}
		if w.Found && (!worst.Found || w.Force/w.Bars > worst.Force/worst.Bars) {
			worst, of = w, m.of[i].variant
		}
	}
	return worst, of, nil
}

func (r *run) steelCheck(v *variant, q limits.Question, piece int, limit limits.Limit, worst ledger.TensionZone) (checked, error) {
	if limit.BarStress.Value <= 0 {
		return checked{}, fmt.Errorf("%w: %s: Limit.BarStress = %g Pa: must be positive", limits.ErrLimits, q.Kind, limit.BarStress.Value)
	}
	line, err := formula.Derive(formula.Q("A_s_req", 0, formula.SquareMetre, "bonded steel that the tension zone needs"), "F_t/"+limit.BarStress.Symbol, limit.Source,
		formula.Q("F_t", worst.Force, formula.Newton, fmt.Sprintf("resultant of the tensile stresses, exact over their zone of %.4g m²", worst.Area)), limit.BarStress)
	if err != nil {
		return checked{}, err
	}
	check := r.finish(v.situation, q, piece, limit, line.Result)
	check.X, check.Place, check.Factors = worst.X, "tension zone", r.factorsOf(v.situation, worst.Factors, worst.Apart)
	stress := ledger.Worst{Found: true, X: worst.X, Piece: piece, Corner: worst.Corner, At: worst.At, Value: worst.Value, Factors: worst.Factors, Apart: worst.Apart}
	check.proof = &stressProof{v, stress, 1, limits.Limit{}}
	check.extra = []formula.Line{line, limit.Line}
	return check, nil
}
