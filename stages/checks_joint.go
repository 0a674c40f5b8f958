package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// joint is where two pieces meet end to end, other than monolithic.
type joint struct {
	x           float64
	left, right int // pieces
	kind        Joint
}

// joints are those of a girder at which both pieces act as one in a situation.
func (r *run) joints(s *situation) []joint {
	var list []joint
	for k, p := range r.girder.Pieces {
		if p.Joint == Monolithic {
			continue
		}
		for j, q := range r.girder.Pieces {
			if math.Abs(q.To()-p.At) > r.girder.near() {
				continue
			}
			if slices.ContainsFunc(s.bodies, func(b *body) bool { return slices.Contains(b.pieces, k) && slices.Contains(b.pieces, j) }) {
				list = append(list, joint{p.At, j, k, p.Joint})
			}
		}
	}
	return list
}

// jointChecks are the tension at joints, which no bonded bar of an element crosses.
func (r *run) jointChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	var kept keeper
	for _, j := range r.joints(s) {
		weaker := j.left
		if s.concrete[j.right].Characteristic < s.concrete[j.left].Characteristic {
			weaker = j.right
		}
		q := r.question(s, limits.Tension, weaker)
		q.Place.Joint = r.girder.Pieces[j.left].Element.Mark + "/" + r.girder.Pieces[j.right].Element.Mark
		answers, not, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for n, limit := range answers {
			worst, v, err := r.atJoint(s, j, limit)
			if err != nil {
				return nil, nil, err
			}
			if !worst.Found {
				continue
			}
			check := r.stressCheck(v, sought{question: q, piece: weaker, sign: 1}, limit, worst)
			check.Name, check.Place = "tension at joint "+q.Place.Joint, string(j.kind)+" joint, "+check.Place
			kept.keep(fmt.Sprint(n), check)
		}
	}
	return kept.checks, notChecked, nil
}

// atJoint is the largest tension on both sides of a joint.
func (r *run) atJoint(s *situation, j joint, limit limits.Limit) (worst ledger.Worst, of *variant, err error) {
	both := func(p *ledger.Stretch, c ledger.Corner) bool {
		i := p.At[0].Pieces[c.Slot].Index
		return i == j.left || i == j.right
	}
	for _, v := range s.cases {
		demands, err := r.demands(v, limit)
		if err != nil {
			return worst, nil, err
		}
		for _, d := range demands {
			for _, at := range r.ledger.Beside(j.x) {
				p := &r.ledger.Grid()[at[0]]
				w, err := d.ExtremeAt(at[0], at[1], 1, func(c ledger.Corner) bool { return both(p, c) })
				if err != nil {
					return worst, nil, err
				}
				if w.Found && (!worst.Found || w.Value > worst.Value) {
					worst, of = w, d.variant
				}
			}
		}
	}
	return worst, of, nil
}
