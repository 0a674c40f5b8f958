package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/limits"
)

// Action is a load on the element beside its weight.
type Action struct {
	Mark        string            // its name; must not be empty or that of another action
	Kind        limits.ActionKind // selects the partial factor; "": Equipment
	Direction   Direction         // of Loads; "": down
	Loads       loads.Set         // on the girder, 0 to its length; + down, to the left or along +x by Direction; no curvature, couples only where it acts down
	Train       *loads.Train      // that rolls over the element, without Loads, Stays or another Direction; nil for none
	Wind        *loads.Wind       // speed that Loads are of, of a horizontal action of the kind Wind, which must be at least its force; nil: operation sheets say that no speed is stated
	Y, Z        float64           // line of action, m, within ±50
	Link        *beam.Link        // gantry or girder that Loads leave as they come on the element, as where a hanger is lost: it springs back under the supports that are on it; points downwards only; nil: none
	Least, Most float64           // range of the factor by which it is present, within ±10; Most 0 means 1, so that 0, 0 is present or absent; −1, 1 both ways; 1, 1 always
	Stays       bool              // carried forward until a situation names its Mark in Off; only in a standing situation
}

// Direction is the direction in which an action acts.
type Direction string

// The directions.
const (
	Down       Direction = ""           // with gravity
	Transverse Direction = "transverse" // to the left, +y
	Along      Direction = "along"      // +x
)

// The kinds of action, for a script that imports only this package.
const (
	Equipment     = limits.Equipment
	Counterweight = limits.Counterweight
	Wind          = limits.Wind
	Personnel     = limits.Personnel
	Braking       = limits.Braking
	Temperature   = limits.Temperature
	Imposed       = limits.Imposed
	Accidental    = limits.Accidental
	Water         = limits.Water
)

// presence is the range of the factor by which it is present.
func (a Action) presence() (least, most float64) {
	if a.Most == 0 {
		return a.Least, 1
	}
	return a.Least, a.Most
}

// check reports the first field that is out of range.
func (a Action) check(length float64) error {
	least, most := a.presence()
	switch {
	case a.Mark == "":
		return fmt.Errorf("field Mark is empty: must be a name")
	case !(least >= -10 && most <= 10 && least <= most):
		return fmt.Errorf("presence from Least = %g to Most = %g: must be within ±10, Least not above Most", least, most)
	case !(math.Abs(a.Y) <= 50) || !(math.Abs(a.Z) <= 50):
		return fmt.Errorf("field Y = %g m, Z = %g m: must be within ±50 m", a.Y, a.Z)
	case len(a.Loads.Curvatures) > 0:
		return fmt.Errorf("field Loads has imposed curvatures: must be none")
	case a.Direction != Down && a.Direction != Transverse && a.Direction != Along:
		return fmt.Errorf("field Direction = %q: must be Down, Transverse or Along", a.Direction)
	case a.Direction != Down && len(a.Loads.Couples) > 0:
		return fmt.Errorf("field Loads has couples: must be none unless the action acts downwards")
	case a.Train != nil && (a.Direction != Down || len(a.Loads.Points)+len(a.Loads.Lines)+len(a.Loads.Couples) > 0):
		return fmt.Errorf("field Train beside Loads or in a direction other than Down: must be an action of its own")
	case a.Train != nil && a.Stays:
		return fmt.Errorf("field Stays with a Train: must be an action without a Train")
	case a.Wind != nil && (a.Kind != Wind || a.Direction == Down):
		return fmt.Errorf("field Wind of an action of the kind %q, direction %q: must be of the kind Wind, Transverse or Along", a.kind(), a.Direction)
	case a.Link != nil && (a.Direction != Down || a.Train != nil || len(a.Loads.Lines)+len(a.Loads.Couples) > 0):
		return fmt.Errorf("field Link of an action with a Train, lines, couples or in a direction other than Down: must be of points that act downwards")
	case a.Train == nil && len(a.Loads.Points)+len(a.Loads.Lines)+len(a.Loads.Couples) == 0:
		return fmt.Errorf("field Loads is empty: must be at least one load, or a Train")
	}
	if a.Train != nil {
		return a.Train.Check()
	}
	if a.Link != nil {
		if err := a.Link.Check(); err != nil {
			return err
		}
	}
	if err := a.Loads.Check(length); err != nil || a.Wind == nil {
		return err
	}
	return a.checkWind()
}

// kind selects the partial factor.
func (a Action) kind() limits.ActionKind {
	if a.Kind == "" {
		return Equipment
	}
	return a.Kind
}
