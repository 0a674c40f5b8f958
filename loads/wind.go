package loads

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Averaging times of wind speeds (s).
const (
	GustOf3s    = 3.0   // what a cup anemometer on a boom shows as gust
	MeanOf10min = 600.0 // the mean of EN 1991-1-4 and of forecasts
)

// WindSpeed is a speed of the wind with what it is a value of: without averaging time and
// height nobody can compare it with an anemometer or with the chart of a crane.
type WindSpeed struct {
	Speed     float64 // m/s, 1 to 80
	Averaging float64 // time over which it is averaged, s, 1 to 3600: GustOf3s, MeanOf10min
	Height    float64 // above the ground at which it is measured, m, 1 to 300
}

// Check reports the first field that is out of range; the error wraps [ErrLoad].
func (w WindSpeed) Check() error {
	switch {
	case !(w.Speed >= 1 && w.Speed <= 80):
		return fmt.Errorf("%w: WindSpeed.Speed = %g m/s: must be 1 to 80 m/s", ErrLoad, w.Speed)
	case !(w.Averaging >= 1 && w.Averaging <= 3600):
		return fmt.Errorf("%w: WindSpeed.Averaging = %g s: must be 1 to 3600 s, 3 s for a gust, 600 s for a mean of 10 min", ErrLoad, w.Averaging)
	case !(w.Height >= 1 && w.Height <= 300):
		return fmt.Errorf("%w: WindSpeed.Height = %g m: must be 1 to 300 m above the ground", ErrLoad, w.Height)
	}
	return nil
}

// Comparable is true for two speeds of one averaging time and height.
func (w WindSpeed) Comparable(o WindSpeed) bool {
	return w.Averaging == o.Averaging && w.Height == o.Height
}

// Wind is the wind on an element: a speed and what it acts on. Neglected: shelter,
// vortices, galloping.
type Wind struct {
	WindSpeed
	Gust   float64        // gust of 3 s at the level of the element over Speed, 1 to 4; 0 means 1, for a gust only: that of a mean must be stated
	Sail   float64        // projected area times force coefficient, m², 0.01 to 1e5
	Source formula.Source // of speed and sail; must name a document
}

// Pressure of a speed of 10 m/s in air of 1.25 kg/m³ (EN 1991-1-4, 4.5, recommended
// value, unconfirmed): half the density times the square.
const (
	pressureAt float64 = 62.5 // N/m²
	speedOf    float64 = 10   // m/s
)

// Check reports the first field that is out of range; the error wraps [ErrLoad].
func (w Wind) Check() error {
	if err := w.WindSpeed.Check(); err != nil {
		return err
	}
	switch {
	case w.Gust == 0 && w.Averaging > GustOf3s:
		return fmt.Errorf("%w: Wind.Gust is missing: must be stated for a speed averaged over %g s, 1 to 4", ErrLoad, w.Averaging)
	case w.Gust != 0 && !(w.Gust >= 1 && w.Gust <= 4):
		return fmt.Errorf("%w: Wind.Gust = %g: must be 1 to 4", ErrLoad, w.Gust)
	case !(w.Sail >= 0.01 && w.Sail <= 1e5):
		return fmt.Errorf("%w: Wind.Sail = %g m²: must be 0.01 to 1e5 m²", ErrLoad, w.Sail)
	case w.Source.Document == "":
		return fmt.Errorf("%w: Wind.Source is empty: must name the document of speed and sail", ErrLoad)
	}
	return nil
}

// Force is the force of the wind (N). The error is that of [Wind.Check].
func (w Wind) Force() (float64, error) {
	if err := w.Check(); err != nil {
		return 0, err
	}
	gust := w.gust() * w.Speed / speedOf
	return pressureAt * gust * gust * w.Sail, nil
}

// gust is Gust with a zero replaced.
func (w Wind) gust() float64 { return math.Max(1, w.Gust) }

// Lines derive [Wind.Force]. The error is that of Check.
func (w Wind) Lines() ([]formula.Line, error) {
	if err := w.Check(); err != nil {
		return nil, err
	}
	k := &formula.Chain{}
	k.Given(formula.Q("t_v", w.Averaging, formula.Second, "averaging time"), w.Source, "")
	k.Given(formula.Q("h_v", w.Height, formula.Metre, "height above ground"), w.Source, "")
	speed := k.Given(formula.Q("v_w", w.Speed, formula.MetrePerSecond, "wind speed"), w.Source, "")
	k.Derive(formula.Q("F_w", 0, formula.Newton, "force of the wind"), "q_10*A_w*pow(k_v*v_w/v_10, 2)", formula.Source{Document: "EN 1991-1-4", Place: "4.5, air of 1.25 kg/m³", Confirm: true},
		formula.Q("q_10", pressureAt, formula.NewtonPerSquareMetre, "pressure of the reference speed"), formula.Q("k_v", w.gust(), formula.One, "gust at the element over the wind speed"), speed,
		formula.Q("v_10", speedOf, formula.MetrePerSecond, "reference speed"), formula.Q("A_w", w.Sail, formula.SquareMetre, "projected area times force coefficient"))
	return k.Lines()
}
