package launching

import (
	"fmt"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Wind is the wind on the gantry in a position; zero for none.
type Wind struct {
	loads.WindSpeed         // up to which the move goes on
	Gust            float64 // gust of 3 s at the gantry over Speed, 1 to 4; 0 means 1, for a gust only: that of a mean must be stated
}

// on is the wind on a sail of 1 m².
func (w Wind) on() loads.Wind {
	return loads.Wind{WindSpeed: w.WindSpeed, Gust: w.Gust, Sail: 1, Source: formula.Source{Document: "position of the gantry"}}
}

// words say over which time and at which height the speed counts.
func (w Wind) words() string {
	return fmt.Sprintf("%s at %g m", stages.WindRecord{Averaging: w.Averaging}.Averaged(), w.Height)
}

// pressure is the velocity pressure (Pa).
func (w Wind) pressure() float64 {
	force, err := w.on().Force()
	if err != nil { // no wind: any other was refused with the position
		return 0
	}
	return force
}

func (w Wind) check() error {
	if w == (Wind{}) {
		return nil
	}
	if err := w.on().Check(); err != nil {
		return fmt.Errorf("%w: field Wind: %w", ErrLaunching, err)
	}
	return nil
}

// blown reports that no wind, or nothing on which it acts, is stated for a move.
func (g Gantry) blown(p Position) error {
	if p.Wind == (Wind{}) {
		return fmt.Errorf("%w: field Wind is not stated: must be the wind up to which the move goes on", ErrLaunching)
	}
	return within("Gantry.", bound{"SideArea", g.SideArea, "m²", 0.1, 5000}, bound{"EndArea", g.EndArea, "m²", 0.1, 5000}, bound{"AreaAt", g.AreaAt, "m", 0.1, 60})
}
