package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// wallChecks are principal tension and shear stress in the walls of every
// section: shear and torsion about the shear centre by the flows of its walls. Of rows of
// pieces side by side the governing one is kept.
func (r *run) wallChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	kinds := [2]limits.Kind{limits.PrincipalTension, limits.WebShear}
	var room [2][2]wallAnswer
	found := [2][]wallAnswer{room[0][:0], room[1][:0]}
	rows := r.rows(s)
	for _, row := range rows {
		for k, kind := range kinds {
			parts, not, err := r.byLimits(s, kind, row)
			if err != nil {
				return nil, nil, err
			}
			notChecked = append(notChecked, not...)
			for _, part := range parts {
				for n, limit := range part.limits {
					if n == len(found[k]) {
						found[k] = append(found[k], wallAnswer{})
					}
					if err := r.wallLimit(s, kind, pieceLimit{part.pieces[0], limit}, part.pieces, len(rows)+len(parts) > 2, &found[k][n]); err != nil {
						return nil, nil, err
					}
				}
			}
		}
	}
	varying := r.reachesOf(s, r.ledger.VaryingAsOne)
	for k, kind := range kinds {
		for _, of := range found[k] {
			checks, notChecked = append(checks, of.checks...), append(notChecked, of.open...)
			if len(varying) > 0 {
				checks = append(checks, unevaluated(kind, varying[0][0], "several elements act as one section, of which one varies along its length, "+stretches(varying)+": the walls are not evaluated there"))
			}
		}
	}
	return checks, notChecked, nil
}

// wallAnswer is what one limit comes to: the governing check if there is one, then what
// could not be evaluated.
type wallAnswer struct {
	governs bool
	checks  []checked
	open    []unanswered
}

// keep keeps a check if it governs.
func (w *wallAnswer) keep(c checked) {
	if w.governs {
		w.checks[0].govern(c)
		return
	}
	w.governs, w.checks = true, slices.Insert(w.checks, 0, c)
}

// rows are the pieces carried in a situation, in rows end to end: those at the same
// place are in rows of their own.
func (r *run) rows(s *situation) (list [][]int) {
	if len(r.girder.Pieces) == 1 {
		return [][]int{s.carried()}
	}
	for _, k := range s.carried() {
		of := &r.girder.Pieces[k]
		row := slices.IndexFunc(list, func(row []int) bool {
			return !slices.ContainsFunc(row, func(other int) bool {
				by := &r.girder.Pieces[other]
				return math.Min(of.To(), by.To())-math.Max(of.At, by.At) > ledger.Inset*r.girder.Length()
			})
		})
		if row < 0 {
			row, list = len(list), append(list, nil)
		}
		list[row] = append(list[row], k)
	}
	return list
}

// pieceLimit is a limit with the piece whose concrete it is that of.
type pieceLimit struct {
	piece int
	limit limits.Limit
}

// limited are pieces to which the same limits apply: their walls are looked at together.
type limited struct {
	pieces []int
	limits []limits.Limit
}

// byLimits are the pieces of a row by what a question about each is answered: a closure that is
// a few days old has its own limits.
func (r *run) byLimits(s *situation, kind limits.Kind, row []int) (parts []limited, notChecked []unanswered, err error) {
	for _, k := range row {
		of, not, err := r.ask(r.question(s, kind, k))
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		at := slices.IndexFunc(parts, func(p limited) bool {
			return slices.EqualFunc(p.limits, of, func(a, b limits.Limit) bool { return a.Line.Result.Value == b.Line.Result.Value })
		})
		if at < 0 {
			at, parts = len(parts), append(parts, limited{limits: of})
		}
		parts[at].pieces = append(parts[at].pieces, k)
	}
	return parts, notChecked, nil
}

// wallLimit adds the check of one limit at the governing place of pieces, one part of several
// or the only one, and what could not be evaluated. Where tendons count from nothing to full
// until they have spread the principal tension is bounded: a bound beyond the limit is no
// failure. The check is then of all tendons in full, and what the bound leaves open is a question.
func (r *run) wallLimit(s *situation, kind limits.Kind, by pieceLimit, pieces []int, several bool, to *wallAnswer) error {
	query := ledger.WallQuery{Principal: kind == limits.PrincipalTension, Filling: r.filling(s), Cracked: by.limit.Line.Result.Value}
	name := ""
	if several {
		query.Pieces, name = pieces, r.marks(pieces)+": "
	}
	marches, err := r.marches(s, by.limit)
	if err != nil {
		return err
	}
	worst, err := r.worstWall(s, by, pieces, query, marches)
	if err != nil {
		to.checks = append(to.checks, unevaluated(kind, r.girder.Length()/2, name+"the walls of the section: "+err.Error()))
		return nil
	}
	if bounds := worst; query.Principal && bounds.open(by.limit) {
		if marches, err = inFull(marches); err != nil {
			return err
		}
		if worst, err = r.worstWall(s, by, pieces, query, marches); err != nil {
			return err
		}
		to.open = append(to.open, r.spreadWords(bounds, worst, by.limit)...)
	}
	for _, c := range worst.checks {
		to.keep(c)
	}
	if len(worst.cracked) > 0 {
		to.checks = append(to.checks, unevaluated(kind, worst.cracked[0][0],
			name+"the section cracks in bending under the factors of this limit, "+stretches(worst.cracked)+": shear reinforcement or a check of cracked sections is needed"))
	}
	return nil
}

// wallWorst is what the walls and the edges of pieces come to.
type wallWorst struct {
	checks  []checked
	cracked [][2]float64
	apart   []ledger.ApartAt // tendons that the largest does not count in full
	value   float64          // Pa
	place   string
}

// open is true where a limit is not met and tendons near their anchors may be why.
func (w wallWorst) open(limit limits.Limit) bool {
	return len(w.cracked) > 0 || len(w.apart) > 0 && w.value > limit.Line.Result.Value
}

// worstWall is the governing wall and, for principal tension, what edges have beyond it.
func (r *run) worstWall(s *situation, by pieceLimit, pieces []int, query ledger.WallQuery, marches []march) (found wallWorst, err error) {
	var worst ledger.Wall
	var of *variant
	for _, m := range marches {
		query.Floor = worst.Value
		w, i, c, err := m.WorstWall(query)
		if err != nil {
			return found, err
		}
		found.cracked = append(found.cracked, c...)
		if w.Found && (!worst.Found || w.Value > worst.Value) {
			worst, of = w, m.of[i].variant
		}
	}
	kind := limits.WebShear
	if query.Principal {
		kind = limits.PrincipalTension
	}
	if worst.Found {
		check := r.wallCheck(of, kind, by, worst)
		found.checks, found.apart, found.value, found.place = []checked{check}, worst.Apart, worst.Value, check.Place
	}
	found.cracked = r.ledger.Join(found.cracked)
	if query.Principal {
		err = r.edges(s, by, pieces, marches, &found)
	}
	return found, err
}

// inFull are marches with all tendons in full before they have spread.
func inFull(marches []march) (full []march, err error) {
	for _, m := range marches {
		of, err := m.InFull()
		if err != nil {
			return nil, err
		}
		full = append(full, march{of, m.of})
	}
	return full, nil
}

// spreadWords are the question that a bound leaves open: none where all tendons in full leave the
// same.
func (r *run) spreadWords(bounds, full wallWorst, limit limits.Limit) []unanswered {
	words := ""
	if len(bounds.apart) > 0 && bounds.value > limit.Line.Result.Value {
		words = fmt.Sprintf("at most %.2f MPa at %s, with %s from nothing to full within their spread", math.Ceil(bounds.value/1e4)/100, bounds.place, r.listedTendons(bounds.apart))
	}
	if len(bounds.cracked) > len(full.cracked) || len(bounds.cracked) > 0 && len(full.cracked) > 0 && stretches(bounds.cracked) != stretches(full.cracked) {
		if words != "" {
			words += ", "
		}
		words += "cracked in bending, " + stretches(bounds.cracked)
	}
	if words == "" {
		return nil
	}
	return []unanswered{{limits.WallSpread, fmt.Sprintf("%s: bounded, %s (EN 1992-1-1:2004, 8.10.3(5)): required a local analysis", limits.WallSpread, words)}}
}

// edges are the corners of the pieces, which the cuts of walls do not reach: no
// shear acts on a free edge, the principal tension there is the stress along the element.
// Those on a seam with another piece are left to the walls where both act as one. One above
// the value of the walls governs, but where the section has cracked, which is not evaluated.
func (r *run) edges(s *situation, by pieceLimit, pieces []int, marches []march, to *wallWorst) error {
	joined, varying := r.reachesOf(s, r.ledger.AsOne), r.reachesOf(s, r.ledger.VaryingAsOne)
	least := to.value
	for _, piece := range pieces {
		search := sought{question: r.question(s, limits.PrincipalTension, by.piece), piece: piece, sign: 1}
		search.count = func(p *ledger.Stretch, c ledger.Corner) bool {
			in := func(reach [2]float64) bool { return p.Middle() > reach[0] && p.Middle() < reach[1] }
			at := p.At[0]
			return at.Pieces[c.Slot].Index == piece && !slices.ContainsFunc(varying, in) && !(slices.ContainsFunc(joined, in) && onSeam(at, c))
		}
		at, of, err := extremeOf(marches, search)
		if err != nil {
			return err
		}
		in := func(reach [2]float64) bool { return at.X >= reach[0] && at.X <= reach[1] }
		if !at.Found || at.Value <= least || slices.ContainsFunc(to.cracked, in) {
			continue
		}
		check := r.stressCheck(of, search, by.limit, at)
		check.Note = edgeNote
		if by.limit.Note != "" {
			check.Note = by.limit.Note + "; " + edgeNote
		}
		to.checks = append(to.checks, check)
		if at.Value > to.value {
			to.apart, to.value, to.place = at.Apart, at.Value, check.Place
		}
	}
	return nil
}

// edgeNote is why a stress along the element is compared with a principal tension.
const edgeNote = "at a free edge, where no shear acts"

// wallCheck is the check of a limit at its governing wall.
func (r *run) wallCheck(v *variant, kind limits.Kind, by pieceLimit, worst ledger.Wall) checked {
	symbol, name := "τ", "shear stress of the wall"
	if kind == limits.PrincipalTension {
		symbol, name = "σ_1", "principal tension of the wall"
	}
	demand := formula.Q(symbol, worst.Value, formula.Pascal, name)
	check := r.finish(v.situation, r.question(v.situation, kind, by.piece), by.piece, by.limit, demand)
	check.X, check.Place, check.Factors = worst.X, r.wallWords(worst), r.factorsOf(v.situation, worst.Factors, worst.Apart)
	check.proof = &wallProof{v, worst, kind == limits.PrincipalTension, by.limit}
	return check
}

// wallWords are piece and place of a wall.
func (r *run) wallWords(w ledger.Wall) string {
	words := "wall at " + pointWords(w.At)
	if len(r.girder.Pieces) > 1 {
		words = r.girder.Pieces[w.Piece].Element.Mark + ", " + words
	}
	return words
}

// marks are those of pieces, of some end to end the first and the last.
func (r *run) marks(pieces []int) string {
	var words []string
	for from := 0; from < len(pieces); {
		to := from + 1
		for to < len(pieces) && math.Abs(r.girder.Pieces[pieces[to]].At-r.girder.Pieces[pieces[to-1]].To()) <= r.girder.near() {
			to++
		}
		word := r.girder.Pieces[pieces[from]].Element.Mark
		if to > from+1 {
			word += " to " + r.girder.Pieces[pieces[to-1]].Element.Mark
		}
		words, from = append(words, word), to
	}
	return strings.Join(words, ", ")
}

// onSeam is true for a corner of a piece that another piece touches.
func onSeam(at *ledger.Station, c ledger.Corner) bool {
	for slot := range at.Pieces {
		if slot != c.Slot && math.Abs(at.Pieces[slot].Shape.Clearance(c.At)) < seamGap {
			return true
		}
	}
	return false
}

// seamGap is how near outlines touch (m): beyond what joined parts are allowed.
const seamGap = 1e-4

// reachesOf are reaches over all cases of a situation.
func (r *run) reachesOf(s *situation, reaches func(*ledger.Situation) [][2]float64) (list [][2]float64) {
	for _, v := range s.cases {
		list = append(list, reaches(v.ledger)...)
	}
	return r.ledger.Join(list)
}

// filling is the state of the duct of a tendon in a wall.
func (r *run) filling(s *situation) func(int) section.Filling {
	return func(i int) section.Filling {
		if slices.Contains(s.grouted, r.tendons[i].Mark) && !r.tendons[i].Plastic {
			return section.GroutedMetal
		}
		return section.NotGrouted
	}
}

// stretches are places from and to in words.
func stretches(list [][2]float64) string {
	text := ""
	for i, s := range list {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("x = %.2f to %.2f m", s[0], s[1])
	}
	return text
}
