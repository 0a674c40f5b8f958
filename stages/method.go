package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
)

// StressingMethod is what the method statement of a stressing says and no calculation
// knows. It is printed on the operation sheet and in the calculation. A field that is not
// stated is a blank of the sheet, with who fills it in. Only GroutBy is checked: a plan
// that grouts later is refused.
type StressingMethod struct {
	NotRead    bool    `json:"notRead,omitempty"`    // the supports have no gauge or load cell: the gap at each is watched instead
	Gap        float64 `json:"gap,omitempty"`        // gap at a support at which work stops, m, 0 or 1e-5 to 0.05; 0: not stated
	Free       string  `json:"free,omitempty"`       // what must be free to move before the first jack is under pressure, e.g. "side forms, shear keys", at most 80 letters
	Protection string  `json:"protection,omitempty"` // of the tendons until they are grouted, at most 80 letters
	GroutBy    float64 `json:"groutBy,omitempty"`    // latest grouting by the specification, d after the last jacking, 0 or 0.1 to 365; 0: not stated
}

// check reports the first field that is not as it must be.
func (m StressingMethod) check() error {
	for _, of := range []struct {
		field       string
		value       float64
		unit        string
		least, most float64
	}{{"Gap", m.Gap, "m", 1e-5, 0.05}, {"GroutBy", m.GroutBy, "d", 0.1, 365}} {
		if of.value != 0 && !(of.value >= of.least && of.value <= of.most) {
			return fmt.Errorf("%s", formula.OutOfRange("Method."+of.field, of.value, of.unit, "0, or ", of.least, of.most))
		}
	}
	for _, of := range [][2]string{{"Method.Free", m.Free}, {"Method.Protection", m.Protection}} {
		if of[1] != "" {
			if err := wording(of[0], of[1], mostMark*2); err != nil {
				return err
			}
		}
	}
	return nil
}

// deadline is the last day on which a tendon is grouted by the specification.
type deadline struct {
	mark          string
	stressed, day float64 // d
}

// groutWithin keeps by when the tendons of a jacking must be grouted, counted from their
// last one.
func (h *History) groutWithin(s *Situation) {
	for _, e := range s.Events {
		if e.Jack == nil {
			continue
		}
		for _, mark := range e.Jack.Tendons {
			h.deadlines = slices.DeleteFunc(slices.Clone(h.deadlines), func(d deadline) bool { return d.mark == mark })
			if s.Method.GroutBy > 0 {
				h.deadlines = append(h.deadlines, deadline{mark, s.Age, s.Age + s.Method.GroutBy})
			}
		}
	}
}

// inTime reports a tendon that is grouted after its deadline.
func (h *History) inTime(s *Situation) error {
	for _, e := range s.Events {
		for _, d := range h.deadlines {
			if slices.Contains(e.Grout, d.mark) && s.Age > d.day+agree {
				return fmt.Errorf("in Grout: tendon %s, stressed on day %g, is grouted on day %g: must be grouted within %g d by Method.GroutBy", d.mark, d.stressed, s.Age, d.day-d.stressed)
			}
		}
	}
	return nil
}
