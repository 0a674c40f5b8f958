package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/limits"
)

// WindAcross is a wind of a speed across the element, from either side: its force, spread
// evenly between two places (m), at a level (m). The error wraps [ErrStage].
func WindAcross(mark string, wind loads.Wind, from, to, level float64) (Action, error) {
	force, err := wind.Force()
	if err != nil {
		return Action{}, fmt.Errorf("%w: %w", ErrStage, err)
	}
	if !(to > from) || math.IsInf(to-from, 0) {
		return Action{}, fmt.Errorf("%w: wind from %g m to %g m: must be from left to right", ErrStage, from, to)
	}
	return Action{
		Mark: mark, Kind: Wind, Direction: Transverse, Z: level, Least: -1, Most: 1, Wind: &wind,
		Loads: loads.Set{Lines: []loads.Line{loads.Uniform(from, to, force/(to-from))}},
	}, nil
}

// checkWind reports a speed that is none, or whose force the loads do not cover.
func (a Action) checkWind() error {
	force, err := a.Wind.Force()
	if err != nil {
		return fmt.Errorf("field Wind: %w", err)
	}
	least, most := a.presence()
	if has := math.Abs(a.Loads.Total()) * math.Max(math.Abs(least), math.Abs(most)); !(has >= force*(1-1e-9)) {
		return fmt.Errorf("field Loads has %g N in all with its presence: must be at least %g N, the force of its Wind of %g m/s", has, force, a.Wind.Speed)
	}
	return nil
}

// WindRecord is a wind speed in a record: what it is averaged over, where it is measured
// and by which document.
type WindRecord struct {
	Speed     float64 `json:"v"`            // m/s
	Averaging float64 `json:"t"`            // s
	Height    float64 `json:"h"`            // above the ground, m
	Document  string  `json:"by,omitempty"` // of the speed
}

// Averaged are the words for its averaging time: a gust up to 3 s, else a mean.
func (w WindRecord) Averaged() string {
	switch {
	case w.Averaging <= loads.GustOf3s:
		return fmt.Sprintf("%g s gust", w.Averaging)
	case w.Averaging >= 60:
		return fmt.Sprintf("%.4g min mean", w.Averaging/60)
	}
	return fmt.Sprintf("%g s mean", w.Averaging)
}

// windRecord is the speed of an action; nil where none is stated.
func (a *Action) windRecord() *WindRecord {
	if a.Wind == nil {
		return nil
	}
	w := a.Wind
	return &WindRecord{Speed: w.Speed, Averaging: w.Averaging, Height: w.Height, Document: reference(w.Source.Document + " " + w.Source.Place)}
}

// valid reports a speed that is none.
func (w *WindRecord) valid() error {
	if w == nil {
		return nil
	}
	return loads.WindSpeed{Speed: w.Speed, Averaging: w.Averaging, Height: w.Height}.Check()
}

// windInputs are the winds of all situations, each with the force of its speed.
func (r *run) windInputs() (groups []lineGroup, err error) {
	known := map[string]bool{}
	for _, s := range r.situations {
		for _, act := range s.Actions {
			if act.kind() != limits.Wind || act.Train != nil {
				continue
			}
			group := lineGroup{title: "Wind, " + act.Mark}
			if act.Wind == nil {
				group.title += ": no speed stated, no limit in m/s is evaluated"
			} else if group.lines, err = act.Wind.Lines(); err != nil {
				return nil, err
			} else {
				group.title += fmt.Sprintf(", %g m/s", act.Wind.Speed)
			}
			if !known[group.title] {
				known[group.title] = true
				groups = append(groups, group)
			}
		}
	}
	return groups, nil
}
