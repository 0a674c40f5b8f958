package stages

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/stages/limits"
)

// JointRecord is a joint that acts in a situation, with the tension that is checked there. The
// check of the situation is that of the joint that governs.
type JointRecord struct {
	Name    string  `json:"n"`           // marks of the elements left and right of it
	X       float64 `json:"x"`           // m
	Tension float64 `json:"s,omitempty"` // largest stress on its faces, Pa, tension +; 0 without a limit
	Limit   float64 `json:"l,omitempty"` // permissible tension, Pa
	Checked bool    `json:"c,omitempty"` // the standard gives a limit
}

// Margin is the limit less the tension (Pa); negative where the check of the joint fails.
func (j JointRecord) Margin() float64 { return j.Limit - j.Tension }

// take keeps the tension of a check where its margin is the smaller one.
func (j *JointRecord) take(c Check) {
	if !c.compares() {
		return
	}
	at := JointRecord{Name: j.Name, X: j.X, Tension: c.Demand.Value, Limit: c.Limit.Value, Checked: true}
	if !j.Checked || at.Margin() < j.Margin() {
		*j = at
	}
}

// extents are where elements are carried: x from and to of every body, from left to right.
func (r *run) extents(s *situation) [][2]float64 {
	var list [][2]float64
	for _, b := range s.bodies {
		from, to := math.Inf(1), math.Inf(-1)
		for _, k := range b.pieces {
			from, to = math.Min(from, r.girder.Pieces[k].At), math.Max(to, r.girder.Pieces[k].To())
		}
		list = append(list, [2]float64{from, to})
	}
	return list
}

// validJoints reports a joint or a body that is not on the element, a stress without a number,
// and a joint that is worse than the check of the situation says.
func (r Record) validJoints(s SituationRecord) error {
	for i, of := range s.Present {
		if !(r.on(of[0]) && r.on(of[1]) && of[0] < of[1]) {
			return fmt.Errorf("body %d from x = %g to %g m: must be on the element, 0 to %g m, from left to right", i+1, of[0], of[1], r.Length)
		}
	}
	for i, j := range s.Joints {
		switch {
		case strings.TrimSpace(j.Name) == "":
			return fmt.Errorf("joint %d has no name: must be the marks of the elements beside it", i+1)
		case !r.on(j.X) || i > 0 && j.X < s.Joints[i-1].X:
			return fmt.Errorf("joint %s at x = %g m: must be on the element, 0 to %g m, from left to right", j.Name, j.X, r.Length)
		case !finite(j.Tension, j.Limit) || !j.Checked && j.Tension != 0:
			return fmt.Errorf("joint %s: tension = %g Pa, limit %g Pa: must be finite, and 0 without a limit", j.Name, j.Tension, j.Limit)
		case j.Checked && j.Margin() < s.jointMargin()-1:
			return fmt.Errorf("joint %s: margin = %g Pa: must be at least %g Pa, that of the check of the joint that governs", j.Name, j.Margin(), s.jointMargin())
		}
	}
	return nil
}

// jointMargin is the least margin of the checks of tension of a situation (Pa); −∞ without one.
func (s SituationRecord) jointMargin() float64 {
	least := math.Inf(1)
	for _, c := range s.Checks {
		if c.Kind == limits.Tension && c.compares() {
			least = math.Min(least, c.Margin)
		}
	}
	if math.IsInf(least, 1) {
		return math.Inf(-1)
	}
	return least
}
