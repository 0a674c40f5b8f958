package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

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

// jointChecks are the tension at joints, which no bonded bar of an element crosses. With
// tendons that count from nothing to full until they have spread the stress is bounded: a
// bound beyond the limit is no failure. The check is then of all tendons in full, and what
// the bound leaves open is a question of its own.
func (r *run) jointChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	var kept keeper
	var open bounded
	s.atJoints = nil
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
		at := len(s.atJoints)
		s.atJoints = append(s.atJoints, JointRecord{Name: q.Place.Joint, X: j.x})
		for n, limit := range answers {
			worst, v, err := r.atJoint(s, j, limit, (*ledger.Demand).ExtremeAt)
			if err != nil {
				return nil, nil, err
			}
			if !worst.Found {
				continue
			}
			if len(worst.Apart) > 0 && worst.Value > limit.Line.Result.Value {
				open.keep(q.Place.Joint, worst)
				if worst, v, err = r.atJoint(s, j, limit, (*ledger.Demand).ExtremeInFull); err != nil {
					return nil, nil, err
				}
			}
			worst.Apart = append(slices.Clone(worst.Apart), worst.Ending...)
			check := r.stressCheck(v, sought{question: q, piece: weaker, sign: 1}, limit, worst)
			check.Name, check.Place = "tension at joint "+q.Place.Joint, string(j.kind)+" joint, "+check.Place
			kept.keepLeast(fmt.Sprint(n, limit.Line.Result.Value), check)
			s.atJoints[at].take(check.Check)
		}
	}
	if u := r.unspread(open); u.words != "" {
		notChecked = append(notChecked, u)
	}
	return kept.checks, notChecked, nil
}

// bounded is the largest tension at a joint near anchors.
type bounded struct {
	joint string
	worst ledger.Worst
}

func (b *bounded) keep(joint string, w ledger.Worst) {
	if !b.worst.Found || w.Value > b.worst.Value {
		b.joint, b.worst = joint, w
	}
}

// unspread is the question that a bound leaves open; without words where there is none.
func (r *run) unspread(b bounded) unanswered {
	if !b.worst.Found {
		return unanswered{}
	}
	return unanswered{limits.JointSpread, fmt.Sprintf("%s: bounded, at most %.2f MPa tension at joint %s, y = %.2f m, z = %.2f m, with %s from nothing to full within their spread (EN 1992-1-1:2004, 8.10.3(5)): required a local analysis",
		limits.JointSpread, math.Ceil(b.worst.Value/1e4)/100, b.joint, b.worst.At.Y, b.worst.At.Z, r.listedTendons(b.worst.Apart))}
}

// listedTendons are the first marks of tendons, and how many more.
func (r *run) listedTendons(apart []ledger.ApartAt) string {
	var marks []string
	for _, a := range apart[:min(4, len(apart))] {
		marks = append(marks, r.tendons[a.Tendon].Mark)
	}
	if more := len(apart) - len(marks); more > 0 {
		marks = append(marks, fmt.Sprintf("%d more", more))
	}
	return strings.Join(marks, ", ")
}

// atJoint is the largest tension on both sides of a joint.
func (r *run) atJoint(s *situation, j joint, limit limits.Limit, extreme func(*ledger.Demand, int, int, float64, func(ledger.Corner) bool) (ledger.Worst, error)) (worst ledger.Worst, of *variant, err error) {
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
				w, err := extreme(d.Demand, at[0], at[1], 1, func(c ledger.Corner) bool { return both(p, c) })
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
