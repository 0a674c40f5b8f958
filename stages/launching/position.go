package launching

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
)

// Position is where a gantry is, on what it stands, and where its trolleys are. Places
// without "on the gantry" are x of the element, m.
type Position struct {
	Name      string
	At        float64       // of the rear end of the gantry, m, within ±1000
	Roll      float64       // how far it rolls from there on the same stands, m, within ±400: + forward, − back; 0: it rests
	Stands    []Stand       // legs that stand, at least two, from the rear; only two where it rolls
	Trolleys  []Placed      // of each trolley of the gantry, in its order
	Dynamic   loads.Dynamic // range of the factor on loads on hooks; must be stated where there are any, loads.AtRest() for none
	Hanging   []Hanging     // legs that the gantry carries: all that do not stand
	Wind      Wind          // that acts while it is there; of the storm where it is Parked
	Parked    bool          // it is left and tied down for a storm: it does not roll, its trolleys are locked and carry nothing
	Gradient  float64       // of its girder, + rising forward, rad, within ±0.1
	CrossFall float64       // of what it stands on, both ways, rad, 0 to 0.1
	Shift     float64       // of its girder to either side of the middle of its legs, m, 0 to 5
	Drag      float64       // greatest resistance of its rollers while it rolls, as a part of the force on them, 0 to 0.2; 0: none
	Lost      []string      // marks of legs whose sudden loss it must survive

	across, along float64 // what acts on the element on its hooks, largest either way, N
}

// Stand is a leg that stands on a pier or a deck.
type Stand struct {
	Leg   string  // mark of the leg
	X     float64 // m, within ±1000
	On    string  // mark of the pier or element that receives it
	Off   float64 // of the middle of the leg from the axis of that, + to the left, m, within ±10
	Bars  *Bars   // that tie it down; nil for none
	Holds bool    // it holds the gantry along: pinned, or by its brakes or drive

	// Friction is the minimum coefficient of friction below its feet, 0 to 0.7, on which it
	// relies against sliding; 0: it is fixed, and a document shows its fixing. The partial
	// factor of EN 1337-1 is that of steel on concrete: of steel on steel 0.6 of it is stated.
	Friction float64
}

// Bars are anchor bars of a leg, alike, half of them at each foot.
type Bars struct {
	Number   int     // 2 to 100
	Preload  float64 // force to which each is stressed, N, 0 to 10e6, at most its Capacity
	Capacity float64 // working load limit of each with its anchorage, N, 1e3 to 10e6
	Clamp    float64 // part of the preload, after losses, that presses its foot against sliding, 0 to 1; 0: none
	Document string  // from which these come
}

// Placed is where a trolley is, on the gantry.
type Placed struct {
	At     float64 // m from the rear end, on its runway
	Hook   float64 // load on its hook, N, 0 to 20e6
	Locked bool    // its weight counts against overturning, as a counterweight; its place becomes a hold point
}

// Hanging is a leg that the gantry carries to where it will stand.
type Hanging struct {
	Leg string
	At  float64 // on the gantry, m from the rear end
}

// check reports the first thing that is not as it must be for a gantry.
func (p Position) check(g Gantry) error {
	err := within("", bound{"At", p.At, "m", -1000, 1000}, bound{"Roll", p.Roll, "m", -400, 400}, bound{"Gradient", p.Gradient, "rad", -0.1, 0.1},
		bound{"CrossFall", p.CrossFall, "rad", 0, 0.1}, bound{"Shift", p.Shift, "m", 0, 5}, bound{"Drag", p.Drag, "", 0, 0.2})
	if err != nil {
		return err
	}
	if err := p.Wind.check(); err != nil {
		return err
	}
	if _, _, err := p.Dynamic.Range(); err != nil {
		return fmt.Errorf("%w: field Dynamic: %w", ErrLaunching, err)
	}
	if len(p.Trolleys) != len(g.Trolleys) {
		return fmt.Errorf("%w: field Trolleys has %d places: must be one for each of the %d trolleys of the gantry", ErrLaunching, len(p.Trolleys), len(g.Trolleys))
	}
	for i, at := range p.Trolleys {
		t := g.Trolleys[i]
		if !(at.At >= t.From && at.At <= t.end(g.Length)) {
			return fmt.Errorf("%w: trolley %q at %g m is off its runway: must be %g to %g m from the rear end", ErrLaunching, t.Mark, at.At, t.From, t.end(g.Length))
		}
		if err := within(fmt.Sprintf("Trolleys[%d].", i), bound{"Hook", at.Hook, "N", 0, 20e6}); err != nil {
			return err
		}
		if at.Hook > 0 && p.Dynamic == (loads.Dynamic{}) {
			return fmt.Errorf("%w: field Dynamic is not stated and trolley %q has %g N on its hook: must be stated, loads.AtRest() for none", ErrLaunching, t.Mark, at.Hook)
		}
	}
	if err := p.checkParked(g); err != nil {
		return err
	}
	used := map[string]bool{}
	use := func(mark string) error {
		if g.leg(mark) == nil || used[mark] {
			return fmt.Errorf("%w: leg %q: must be a leg of the gantry that neither stands nor hangs elsewhere", ErrLaunching, mark)
		}
		used[mark] = true
		return nil
	}
	for i, h := range p.Hanging {
		if err := use(h.Leg); err != nil {
			return err
		}
		if err := within(fmt.Sprintf("Hanging[%d].", i), bound{"At", h.At, "m", 0, g.Length}); err != nil {
			return err
		}
		if err := p.passes(h); err != nil {
			return err
		}
	}
	if err := p.checkStands(g, use); err != nil {
		return err
	}
	for _, l := range g.Legs {
		if !used[l.Mark] {
			return fmt.Errorf("%w: leg %q neither stands nor hangs in position %q: must be in Stands or in Hanging, its weight counts", ErrLaunching, l.Mark, p.Name)
		}
	}
	return nil
}

// checkParked reports what a parked gantry may not do.
func (p Position) checkParked(g Gantry) error {
	if !p.Parked {
		return nil
	}
	if p.Roll != 0 {
		return fmt.Errorf("%w: field Roll = %g m of position %q, which is Parked: must be 0, a gantry that rolls is not tied down", ErrLaunching, p.Roll, p.Name)
	}
	for i, t := range p.Trolleys {
		if !t.Locked || t.Hook > 0 {
			return fmt.Errorf("%w: trolley %q of position %q, which is Parked, is not locked or has a load on its hook: must be Locked without load", ErrLaunching, g.Trolleys[i].Mark, p.Name)
		}
	}
	return nil
}

func (p Position) checkStands(g Gantry, use func(string) error) error {
	if len(p.Stands) < 2 {
		return fmt.Errorf("%w: %d legs stand: must be at least two, the gantry cannot stand on fewer", ErrLaunching, len(p.Stands))
	}
	if len(p.Stands) > 2 && g.Stiffness == nil {
		return fmt.Errorf("%w: %d legs stand and Gantry.Stiffness is not stated: must be stated, statics does not say how they share", ErrLaunching, len(p.Stands))
	}
	if len(p.Stands) > 2 && p.Roll != 0 {
		return fmt.Errorf("%w: the gantry rolls by %g m on %d legs: must be on two; state each place where a leg lands or leaves as a position", ErrLaunching, p.Roll, len(p.Stands))
	}
	last := math.Inf(-1)
	for i, s := range p.Stands {
		of := fmt.Sprintf("Stands[%d] ", i)
		if err := use(s.Leg); err != nil {
			return fmt.Errorf("%s: %w", of, err)
		}
		if s.On == "" {
			return fmt.Errorf("%w: field %sOn is empty: must be the mark of the pier or element that receives leg %q", ErrLaunching, of, s.Leg)
		}
		if !(s.X >= last+0.1) {
			return fmt.Errorf("%w: field %sX = %g m: must be at least 0.1 m in front of the leg before", ErrLaunching, of, s.X)
		}
		last = s.X
		for _, at := range p.ends() {
			if x := s.X - at; !(x >= 0 && x <= g.Length) {
				return fmt.Errorf("%w: leg %q at x = %g m is off the gantry, which is from %g to %g m: must be under it", ErrLaunching, s.Leg, s.X, at, at+g.Length)
			}
		}
		if err := within(of, bound{"Off", s.Off, "m", -10, 10}, bound{"Friction", s.Friction, "", 0, 0.7}); err != nil {
			return err
		}
		if err := s.Bars.check(of); err != nil {
			return err
		}
	}
	if !slices.ContainsFunc(p.Stands, func(s Stand) bool { return s.Holds }) {
		return fmt.Errorf("%w: no leg Holds the gantry along in position %q: must be at least one, pinned or with its brakes or drive", ErrLaunching, p.Name)
	}
	for _, mark := range p.Lost {
		if p.stand(mark) < 0 {
			return fmt.Errorf("%w: field Lost has leg %q: must be one that stands", ErrLaunching, mark)
		}
	}
	return nil
}

func (b *Bars) check(of string) error {
	if b == nil {
		return nil
	}
	if b.Document == "" {
		return fmt.Errorf("%w: field %sBars.Document is empty: must be where their capacity comes from", ErrLaunching, of)
	}
	return within(of+"Bars.", bound{"Number", float64(b.Number), "", 2, 100}, bound{"Capacity", b.Capacity, "N", 1e3, 10e6}, bound{"Preload", b.Preload, "N", 0, b.Capacity}, bound{"Clamp", b.Clamp, "", 0, 1})
}

// stand is the number of the stand of a leg; −1 for none.
func (p Position) stand(leg string) int {
	for i, s := range p.Stands {
		if s.Leg == leg {
			return i
		}
	}
	return -1
}

// ends are the places of the rear end of the gantry at the beginning and the end of a
// position (m). Over a roll on the same two legs the forces of the legs are linear; about
// a leg, the moment of what is beyond it only grows and that of what is inside only falls,
// or the other way round, because all weights are downwards: extremes are at the ends.
func (p Position) ends() []float64 {
	if p.Roll == 0 {
		return []float64{p.At}
	}
	return []float64{p.At, p.At + p.Roll}
}

// passes reports a leg that stands where one that hangs is carried past.
func (p Position) passes(h Hanging) error {
	from, to := p.At+h.At, p.At+p.Roll+h.At
	for _, s := range p.Stands {
		if s.X >= math.Min(from, to) && s.X <= math.Max(from, to) {
			return fmt.Errorf("%w: leg %q hangs at x = %g m to %g m, where leg %q stands at %g m: must hang clear of the legs that stand", ErrLaunching, h.Leg, from, to, s.Leg, s.X)
		}
	}
	return nil
}
