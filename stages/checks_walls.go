package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// wallChecks are principal tension and shear stress in the walls of every
// section: shear and torsion about the shear centre by the flows of its walls.
func (r *run) wallChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	for _, kind := range []limits.Kind{limits.PrincipalTension, limits.WebShear} {
		answers, not, err := r.weakest(s, kind)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for _, of := range answers {
			more, err := r.wallLimit(s, r.question(s, kind, of.piece), of.piece, of.limit)
			if err != nil {
				return nil, nil, err
			}
			checks = append(checks, more...)
		}
	}
	return checks, notChecked, nil
}

// pieceLimit is a limit with the piece whose concrete it is that of.
type pieceLimit struct {
	piece int
	limit limits.Limit
}

// weakest are the answers to what is asked, one after the other each with the piece
// for which it is least: the walls of all pieces are looked at together, on the safe
// side.
func (r *run) weakest(s *situation, kind limits.Kind) (answers []pieceLimit, notChecked []unanswered, err error) {
	for _, k := range s.carried() {
		of, not, err := r.ask(r.question(s, kind, k))
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for i, limit := range of {
			switch {
			case i == len(answers):
				answers = append(answers, pieceLimit{k, limit})
			case limit.Line.Result.Value < answers[i].limit.Line.Result.Value:
				answers[i] = pieceLimit{k, limit}
			}
		}
	}
	return answers, notChecked, nil
}

// wallLimit is the check of one limit at its governing place, and the part that could
// not be evaluated.
func (r *run) wallLimit(s *situation, q limits.Question, piece int, limit limits.Limit) (checks []checked, err error) {
	var worst ledger.Wall
	var of *variant
	var cracked [][2]float64
	query := ledger.WallQuery{Principal: q.Kind == limits.PrincipalTension, Filling: r.filling(s), Cracked: limit.Line.Result.Value}
	for _, v := range s.cases {
		demands, err := r.demands(v, limit)
		if err != nil {
			return nil, err
		}
		for _, d := range demands {
			query.Floor = worst.Value
			w, c, err := d.WorstWall(query)
			if err != nil {
				return []checked{unevaluated(q.Kind, r.girder.Length()/2, "the walls of the section: "+err.Error())}, nil
			}
			cracked = append(cracked, c...)
			if w.Found && (!worst.Found || w.Value > worst.Value) {
				worst, of = w, d.variant
			}
		}
	}
	if worst.Found {
		symbol, name := "τ", "shear stress of the wall"
		if query.Principal {
			symbol, name = "σ_1", "principal tension of the wall"
		}
		check := r.finish(s, q, piece, limit, formula.Q(symbol, worst.Value, formula.Pascal, name))
		check.X, check.Place, check.Factors = worst.X, "wall at "+pointWords(worst.At), r.factorsOf(of.situation, worst.Factors, worst.Apart)
		check.proof = &wallProof{of, worst, query.Principal, limit}
		checks = append(checks, check)
	}
	if cracked = r.ledger.Join(cracked); len(cracked) > 0 {
		checks = append(checks, unevaluated(q.Kind, cracked[0][0],
			"the section cracks in bending under the factors of this limit, "+stretches(cracked)+": shear reinforcement or a check of cracked sections is needed"))
	}
	if joined := r.joinedStretches(s); len(joined) > 0 {
		checks = append(checks, unevaluated(q.Kind, joined[0][0], "several elements act as one section, "+stretches(joined)+": shear between them is not evaluated"))
	}
	return checks, nil
}

// joinedStretches are where more than one piece is at the same x.
func (r *run) joinedStretches(s *situation) [][2]float64 {
	var list [][2]float64
	for _, p := range r.ledger.Grid() {
		if len(p.At[0].Pieces) > 1 {
			list = append(list, [2]float64{p.From, p.To})
		}
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
