package stages

import (
	"fmt"

	"gonum.org/v1/gonum/unit/constant"

	"github.com/tempstage/tempstage/loads"
)

// craneWind is the wind limit of a crane with its basis in words.
type craneWind struct {
	speed float64 // m/s; 0: none
	basis string
}

// windLimit is the smaller of the limit of the chart and the speeds of the calculation
// that are averaged and measured alike. Others cannot be compared: they are limits of
// their own, which the words say.
func (c MobileCrane) windLimit(e Effects) (w craneWind, err error) {
	if c.Chart.Wind == 0 {
		return w, nil
	}
	w.speed = c.Chart.Wind
	if c.SailArea > 0 {
		all, err := e.Together(numbersTo(len(e.Reactions)))
		if err != nil {
			return w, err
		}
		if w.speed, err = c.Chart.WindLimit(all.Static.Least/float64(constant.StandardGravity), c.SailArea); err != nil {
			return w, err
		}
	}
	by := "chart"
	if w.speed < c.Chart.Wind {
		by = "chart, less for sail"
	}
	if c.Chart.Averaging == 0 {
		return w, nil // the basis is a blank
	}
	chart := loads.WindSpeed{Speed: w.speed, Averaging: c.Chart.Averaging, Height: c.Chart.Height}
	for _, act := range e.Situation.Actions {
		if act.Wind != nil && act.Wind.Comparable(chart) && act.Wind.Speed < w.speed {
			w.speed, by = act.Wind.Speed, "calculation, below the chart"
		}
	}
	w.basis = fmt.Sprintf("%s at %g m, %s", WindRecord{Averaging: chart.Averaging}.Averaged(), chart.Height, by)
	return w, nil
}
