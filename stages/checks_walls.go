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
			checks = append(checks, of.checks...)
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

// wallLimit adds the check of one limit at the governing place of a row, one of several
// or the only one, and the part that could not be evaluated.
func (r *run) wallLimit(s *situation, kind limits.Kind, by pieceLimit, row []int, several bool, to *wallAnswer) error {
	var worst ledger.Wall
	var of *variant
	var cracked [][2]float64
	query := ledger.WallQuery{Principal: kind == limits.PrincipalTension, Filling: r.filling(s), Cracked: by.limit.Line.Result.Value}
	name := ""
	if several {
		query.Pieces, name = row, r.marks(row)+": "
	}
	marches, err := r.marches(s, by.limit)
	if err != nil {
		return err
	}
	for _, m := range marches {
		query.Floor = worst.Value
		w, i, c, err := m.WorstWall(query)
		if err != nil {
			to.checks = append(to.checks, unevaluated(kind, r.girder.Length()/2, name+"the walls of the section: "+err.Error()))
			return nil
		}
		cracked = append(cracked, c...)
		if w.Found && (!worst.Found || w.Value > worst.Value) {
			worst, of = w, m.of[i].variant
		}
	}
	if worst.Found {
		to.keep(r.wallCheck(of, kind, by, worst))
	}
	cracked = r.ledger.Join(cracked)
	if query.Principal {
		if err := r.edges(s, by, row, worst.Value, cracked, to); err != nil {
			return err
		}
	}
	if len(cracked) > 0 {
		to.checks = append(to.checks, unevaluated(kind, cracked[0][0],
			name+"the section cracks in bending under the factors of this limit, "+stretches(cracked)+": shear reinforcement or a check of cracked sections is needed"))
	}
	return nil
}

// edges are the corners of the pieces of a row, which the cuts of walls do not reach: no
// shear acts on a free edge, the principal tension there is the stress along the element.
// Those on a seam with another piece are left to the walls where both act as one. One above
// the value of the walls governs, but where the section has cracked, which is not evaluated.
func (r *run) edges(s *situation, by pieceLimit, row []int, least float64, cracked [][2]float64, to *wallAnswer) error {
	joined, varying := r.reachesOf(s, r.ledger.AsOne), r.reachesOf(s, r.ledger.VaryingAsOne)
	for _, piece := range row {
		search := sought{question: r.question(s, limits.PrincipalTension, by.piece), piece: piece, sign: 1}
		search.count = func(p *ledger.Stretch, c ledger.Corner) bool {
			in := func(reach [2]float64) bool { return p.Middle() > reach[0] && p.Middle() < reach[1] }
			at := p.At[0]
			return at.Pieces[c.Slot].Index == piece && !slices.ContainsFunc(varying, in) && !(slices.ContainsFunc(joined, in) && onSeam(at, c))
		}
		at, of, err := r.extreme(s, search, by.limit)
		if err != nil {
			return err
		}
		in := func(reach [2]float64) bool { return at.X >= reach[0] && at.X <= reach[1] }
		if !at.Found || at.Value <= least || slices.ContainsFunc(cracked, in) {
			continue
		}
		check := r.stressCheck(of, search, by.limit, at)
		check.Note = edgeNote
		if by.limit.Note != "" {
			check.Note = by.limit.Note + "; " + edgeNote
		}
		to.keep(check)
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
