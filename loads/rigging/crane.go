package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Capacity is what a chart permits at a radius.
type Capacity struct {
	Radius float64 // from the slewing axis to the hook, m, 0.5 to 200
	Load   float64 // gross: hook block and rigging included, N, 1e3 to 100e6
}

// Chart is a table of capacities of a crane in one configuration, as its maker gives it.
type Chart struct {
	Crane         string         // name and number
	Configuration string         // boom, counterweight, outriggers or tracks, reeving
	Source        formula.Source // the maker's document, with its edition
	Rows          []Capacity     // radius ascending, capacity not rising
	Hoisting      bool           // the chart contains the dynamic factor of hoisting: loads at rest are compared
	Interpolate   bool           // the maker permits values between the radii; else the next larger radius counts
	Wind          float64        // greatest wind speed of the chart, m/s, 3 to 30; gust or mean as the maker says
	Averaging     float64        // time over which Wind is averaged, s, 1 to 3600, 3 for a gust; 0: not stated, a blank on operation sheets
	Height        float64        // above the ground at which Wind is measured, m, 1 to 300; 0: not stated
}

// Check reports the first thing that no chart has; the error wraps [ErrRigging].
func (c Chart) Check() error {
	switch {
	case c.Crane == "" || c.Configuration == "":
		return fmt.Errorf("%w: Chart.Crane = %q, Chart.Configuration = %q: must be stated", ErrRigging, c.Crane, c.Configuration)
	case c.Source.Document == "":
		return fmt.Errorf("%w: Chart.Source of %s is empty: must name the maker's document", ErrRigging, c.Crane)
	case len(c.Rows) < 2:
		return fmt.Errorf("%w: Chart.Rows of %s has %d radii: must be at least 2", ErrRigging, c.Crane, len(c.Rows))
	}
	if err := within("Chart", bound{"Wind", c.Wind, "m/s", 3, 30}); err != nil {
		return err
	}
	if c.Averaging != 0 || c.Height != 0 {
		if err := within("Chart", bound{"Averaging", c.Averaging, "s", 1, 3600}, bound{"Height", c.Height, "m", 1, 300}); err != nil {
			return err
		}
	}
	for i, row := range c.Rows {
		if err := within(fmt.Sprintf("Chart.Rows[%d]", i), bound{"Radius", row.Radius, "m", 0.5, 200}, bound{"Load", row.Load, "N", 1e3, 100e6}); err != nil {
			return err
		}
		if i > 0 && (row.Radius <= c.Rows[i-1].Radius || row.Load > c.Rows[i-1].Load) {
			return fmt.Errorf("%w: Chart.Rows[%d] of %s: %g N at %g m behind %g N at %g m: must be larger radii with capacities that do not rise", ErrRigging, i, c.Crane, row.Load, row.Radius, c.Rows[i-1].Load, c.Rows[i-1].Radius)
		}
	}
	return nil
}

// At is the gross capacity at a radius (m), and the radius of the chart that it is of.
// The error wraps [ErrRigging]: a radius out of the chart is refused.
func (c Chart) At(radius float64) (Capacity, error) {
	if err := c.Check(); err != nil {
		return Capacity{}, err
	}
	first, last := c.Rows[0].Radius, c.Rows[len(c.Rows)-1].Radius
	if !(radius >= first && radius <= last) {
		return Capacity{}, fmt.Errorf("%w: radius = %g m of %s: must be within its chart, %g to %g m", ErrRigging, radius, c.Crane, first, last)
	}
	i := c.row(radius)
	if row := c.Rows[i]; !c.Interpolate || row.Radius == radius {
		return row, nil
	}
	a, b := c.Rows[i-1], c.Rows[i]
	return Capacity{radius, a.Load + (b.Load-a.Load)*(radius-a.Radius)/(b.Radius-a.Radius)}, nil
}

// row is the number of the row of a radius of the chart, or of the next larger one.
func (c Chart) row(radius float64) int {
	i := 0
	for c.Rows[i].Radius < radius {
		i++
	}
	return i
}

// usualSail is the sail area by mass that charts are commonly made for (m²/kg).
const usualSail = 1.2e-3

// WindLimit is the greatest wind speed (m/s) for a load of a mass (kg) with a sail area
// (m², the projected area times its coefficient): the chart's, or less where the load
// has more than 1.2 m² a tonne, which charts are commonly made for (common practice,
// no source).
func (c Chart) WindLimit(mass, sail float64) (float64, error) {
	if err := within("Chart.WindLimit", bound{"mass", mass, "kg", 1, 10e6}, bound{"sail", sail, "m²", 0.01, 10e3}, bound{"Wind", c.Wind, "m/s", 3, 30}); err != nil {
		return 0, err
	}
	return c.Wind * math.Min(1, math.Sqrt(usualSail*mass/sail)), nil
}

// Pick is a lift by one crane, or its part of a tandem lift.
type Pick struct {
	Chart     Chart
	Radius    float64 // the largest on the way: at the pick, while slewing, at the set-down, m
	Load      Range   // at its hook at rest, of the load alone, N: Share.Static
	Dynamic   float64 // greatest dynamic factor, 1 to 3: on top where the chart does not contain it
	Rigging   float64 // weight of slings, spreader and shackles, N, 0 to 5e6
	HookBlock float64 // weight of the hook block and of the rope below the boom as the chart asks, N, 1 to 1e6
	Part      float64 // share of the chart that may be used, 0.1 to 1: 1 alone; 0.75 to 0.8 in tandem (common practice, no source)
}

// Use is the use of a chart.
type Use struct {
	Capacity    Capacity // of the chart, with the radius that counts
	Permissible float64  // Part of it, N
	Gross       float64  // greatest load, rigging and hook block, with the dynamic factor where the chart does not contain it, N
	Utilisation float64  // Gross over Permissible
}

// Solve is the use of the chart. The error wraps [ErrRigging]; a load above what is
// permissible is no error: its Utilisation is above 1.
func (p Pick) Solve() (Use, error) {
	row, err := p.Chart.At(p.Radius)
	if err != nil {
		return Use{}, err
	}
	if p.HookBlock == 0 {
		return Use{}, fmt.Errorf("%w: Pick.HookBlock of %s is missing: must be its weight, which the chart counts as load", ErrRigging, p.Chart.Crane)
	}
	err = within("Pick", bound{"Load.Most", p.Load.Most, "N", 1, 100e6}, bound{"Load.Least", p.Load.Least, "N", 0, p.Load.Most}, bound{"Dynamic", p.Dynamic, "", 1, 3}, bound{"Rigging", p.Rigging, "N", 0, 5e6},
		bound{"HookBlock", p.HookBlock, "N", 1, 1e6}, bound{"Part", p.Part, "", 0.1, 1})
	if err != nil {
		return Use{}, err
	}
	u := Use{Capacity: row, Permissible: p.Part * row.Load, Gross: p.Load.Most + p.Rigging + p.HookBlock}
	if !p.Chart.Hoisting {
		u.Gross *= p.Dynamic
	}
	u.Utilisation = u.Gross / u.Permissible
	return u, nil
}
