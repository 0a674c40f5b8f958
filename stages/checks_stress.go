package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// sought is one search for an extreme stress.
type sought struct {
	question limits.Question
	piece    int
	sign     float64
	count    func(*ledger.Stretch, ledger.Corner) bool
}

// searches are those of the concrete of a piece: compression, tension where no
// bonded bars run and where they do.
func (r *run) searches(s *situation, piece int) []sought {
	slot := func(p *ledger.Stretch, c ledger.Corner) bool { return p.At[0].Pieces[c.Slot].Index == piece }
	compression, tension := r.question(s, limits.Compression, piece), r.question(s, limits.Tension, piece)
	list := []sought{{compression, piece, -1, slot}, {tension, piece, 1, slot}}
	if e := r.girder.Pieces[piece].Element; len(e.Bars) > 0 {
		list[1].count = func(p *ledger.Stretch, c ledger.Corner) bool { return slot(p, c) && !r.barsNear(piece, p, c) }
		tension.Place.Bars = true
		list = append(list, sought{tension, piece, 1, func(p *ledger.Stretch, c ledger.Corner) bool { return slot(p, c) && r.barsNear(piece, p, c) }})
	}
	return list
}

// stressChecks are compression and tension of the concrete, and the bars that the
// tension needs; of the pieces of a girder the governing one is kept.
func (r *run) stressChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	var kept keeper
	found := map[limits.Kind]bool{}
	for _, piece := range s.carried() {
		for _, search := range r.searches(s, piece) {
			answers, not, err := r.ask(search.question)
			if err != nil {
				return nil, nil, err
			}
			notChecked = append(notChecked, not...)
			found[search.question.Kind] = found[search.question.Kind] || len(answers) == 0
			for n, limit := range answers {
				worst, v, err := r.extreme(s, search, limit)
				if err != nil {
					return nil, nil, err
				}
				if !worst.Found {
					continue
				}
				found[search.question.Kind] = true
				check := r.stressCheck(v, search, limit, worst)
				kept.keep(fmt.Sprint(search.question.Kind, search.question.Place.Bars, n), check)
			}
		}
	}
	checks = kept.checks
	for _, kind := range []limits.Kind{limits.Compression, limits.Tension} {
		if !found[kind] {
			checks = append(checks, unevaluated(kind, r.girder.Length()/2, "no corner of the section is evaluated"))
		}
	}
	steel, not, err := r.tensionSteel(s)
	return append(checks, steel...), append(notChecked, not...), err
}

// extreme is the governing stress of a search over the variants of a situation.
func (r *run) extreme(s *situation, search sought, limit limits.Limit) (worst ledger.Worst, of *variant, err error) {
	marches, err := r.marches(s, limit)
	if err != nil {
		return worst, nil, err
	}
	return extremeOf(marches, search)
}

// extremeOf is the governing stress of a search over marches.
func extremeOf(marches []march, search sought) (worst ledger.Worst, of *variant, err error) {
	for _, m := range marches {
		floor := math.Inf(-1)
		if worst.Found {
			floor = search.sign * worst.Value
		}
		w, i, err := m.ExtremeBeyond(floor, search.sign, search.piece, search.count)
		if err != nil {
			return worst, nil, err
		}
		if w.Found && (!worst.Found || search.sign*w.Value > search.sign*worst.Value) {
			worst, of = w, m.of[i].variant
		}
	}
	return worst, of, nil
}

// barsNear is true where bonded bars run through the whole stretch in the same
// half of the depth as the corner. Whether they are enough is a check of its own.
func (r *run) barsNear(piece int, p *ledger.Stretch, c ledger.Corner) bool {
	of := r.girder.Pieces[piece]
	middle, near := p.At[ledger.Nodes/2].Pieces[c.Slot].Gross.Centroid.Z, r.girder.near()
	for _, b := range of.Element.Bars {
		if of.has(b, p.From, p.To, near) && (b.At.Z > middle) == (c.At.Z > middle) {
			return true
		}
	}
	return false
}

// stressCheck is the check of one stress limit at its governing place.
func (r *run) stressCheck(v *variant, search sought, limit limits.Limit, worst ledger.Worst) checked {
	name, symbol := "compressive stress", "σ_comp"
	if search.sign > 0 {
		name, symbol = "tensile stress", "σ_tens"
	}
	demand := formula.Q(symbol, search.sign*worst.Value, formula.Pascal, name)
	check := r.finish(v.situation, search.question, search.piece, limit, demand)
	check.X, check.Place, check.Factors = worst.X, r.cornerWords(worst), r.factorsOf(v.situation, worst.Factors, worst.Apart)
	check.proof = &stressProof{v, worst, search.sign, limit}
	return check
}

// cornerWords are piece and corner of an extreme.
func (r *run) cornerWords(w ledger.Worst) string {
	words := fmt.Sprintf("corner %d, %s", w.Corner+1, pointWords(w.At))
	if len(r.girder.Pieces) > 1 {
		words = r.girder.Pieces[w.Piece].Element.Mark + ", " + words
	}
	return words
}
