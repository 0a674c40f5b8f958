package launching

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Carrier is a girder carrier with what it carries.
type Carrier struct {
	Mark    string
	Train   loads.Train // axles with their forces, its own weight and that of the element on it, and its dynamic factor
	Wheel   float64     // force of the heaviest wheel group on the deck, N, 1e3 to 5e6: for what is checked by others
	Brakes  int         // braked axle groups, alike, 1 to 50
	Brake   float64     // greatest force along of each, N, 1e3 to 5e6; by its maker
	Drag    float64     // greatest rolling resistance as a part of its weight, 0 to 0.2
	Speed   float64     // greatest, m/s, 0 to 20; 0: not stated
	Runaway float64     // minimum rolling resistance that holds it back, as a part of its weight, 0 to 0.05: usually 0
}

// Ride is a girder carrier that passes over the element, which is on its bearings with
// the prestress and the age that it has by then: one more stage of its plan. The train is
// set at its worst place for every stress and reaction: each axle at and beside every
// support and at every eighth of the length, and in steps of a fortieth. It comes with its
// first axle towards x; state [loads.Train.Turned] for the other way. Its track is off the
// axis to either side. Braking and gradient act along at the top of the deck and end at
// the bearings that hold the element along.
type Ride struct {
	Name      string
	Age       float64 // of the element, d
	Carrier   Carrier
	Off       float64                // of the track from the axis, to either side, m, 0 to 5, its middle on the deck
	Gradient  float64                // of the deck, either way, rad, 0 to 0.1
	HoldBack  float64                // minimum factor of brakes, one of them lost, against the gradient, 1 to 5; 0 means 1.5 (common practice)
	Earliest  float64                // minimum age of the element at which it may pass, d, of EarliestAge; 0: not stated
	Mortar    *Mortar                // below the bearings of the element; nil: by others
	Line      Spans                  // the spans on both sides
	Actions   []stages.Action        // wind on the carrier
	Taken     []string               // marks of actions of the element that stayed and are taken off
	Equipment []stages.EquipmentItem // the piers
}

// Spans are the simple spans on both sides of the element, end to end with it.
type Spans struct {
	Before, After float64 // their lengths, m, 0 to 200; 0: the carrier comes from, or goes to, the ground
	Bearings      float64 // of each from its ends, m, 0.1 to 10
}

func (r Ride) check() error {
	c := r.Carrier
	if err := c.Train.Check(); err != nil {
		return fmt.Errorf("%w: field Ride.Carrier.Train: %w", ErrLaunching, err)
	}
	err := within("Ride.", bound{"Off", r.Off, "m", 0, 5}, bound{"Gradient", r.Gradient, "rad", 0, 0.1}, bound{"HoldBack", or(r.HoldBack, 1.5), "", 1, 5}, bound{"Earliest", r.Earliest, "d", 0, 365e3},
		bound{"Carrier.Wheel", c.Wheel, "N", 1e3, 5e6}, bound{"Carrier.Brakes", float64(c.Brakes), "", 1, 50}, bound{"Carrier.Brake", c.Brake, "N", 1e3, 5e6},
		bound{"Carrier.Drag", c.Drag, "", 0, 0.2}, bound{"Carrier.Speed", c.Speed, "m/s", 0, 20}, bound{"Carrier.Runaway", c.Runaway, "", 0, 0.05},
		bound{"Line.Before", r.Line.Before, "m", 0, 200}, bound{"Line.After", r.Line.After, "m", 0, 200}, bound{"Line.Bearings", r.Line.Bearings, "m", 0.1, 10})
	if err != nil {
		return err
	}
	if r.Mortar != nil {
		if err := r.Mortar.within("Ride."); err != nil {
			return err
		}
	}
	for i, beside := range [2]float64{r.Line.Before, r.Line.After} {
		if beside > 0 && !(beside > 2*r.Line.Bearings) {
			return fmt.Errorf("%w: field Ride.Line.%s = %g m: must be more than twice Line.Bearings, %g m", ErrLaunching, [2]string{"Before", "After"}[i], beside, r.Line.Bearings)
		}
	}
	return nil
}

// along is the largest force along between its wheels and the deck (N): its brakes, or its
// drive up the gradient against drag.
func (r Ride) along() float64 {
	c := r.Carrier
	return math.Max(float64(c.Brakes)*c.Brake, c.Train.Weight()*(math.Sin(r.Gradient)+c.Drag))
}

// Situations is the passage with the track off to the left and, where it is off, to the
// right. The error wraps [ErrLaunching].
func (r Ride) Situations(h stages.History) ([]stages.Situation, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	if err := onBearings(h); err != nil {
		return nil, err
	}
	length := h.Girder.Length()
	if carried := r.Line.Before + length + r.Line.After; r.Line.Before > 0 && r.Line.After > 0 && r.Carrier.Train.Length() > carried {
		return nil, fmt.Errorf("%w: carrier %s is %.1f m from the first axle to the last: must be at most %.1f m, the spans that carry it", ErrLaunching, r.Carrier.Mark, r.Carrier.Train.Length(), carried)
	}
	d := deck{h.Element.Mark, length, h.Girder}
	top, err := d.top(length/2, 0)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrLaunching, err)
	}
	for _, y := range [2]float64{r.Off, -r.Off} {
		if _, err := d.top(length/2, y); err != nil {
			return nil, fmt.Errorf("%w: field Ride.Off: %w", ErrLaunching, err)
		}
	}
	train := r.Carrier.Train
	along := stages.Action{Mark: "braking of " + r.Carrier.Mark, Kind: stages.Braking, Direction: stages.Along, Z: top, Least: -1, Most: 1,
		Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, r.along()/length)}}}
	name := or(r.Name, "carrier "+r.Carrier.Mark+" passes")
	tracks := []float64{r.Off, -r.Off}
	words := []string{", track to the left", ", track to the right"}
	if r.Off == 0 {
		tracks, words = tracks[:1], []string{""}
	}
	var list []stages.Situation
	for i, y := range tracks {
		s := stages.Situation{
			Name: name + words[i], Age: r.Age, Standing: true, Phase: limits.Seating, Equipment: r.Equipment,
			Actions: append([]stages.Action{{Mark: r.Carrier.Mark, Kind: stages.Equipment, Train: &train, Y: y, Z: top}, along}, r.Actions...),
			Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
				list, err := r.checks(length)
				if err != nil || r.Mortar == nil {
					return list, err
				}
				bed, err := r.Mortar.check(e)
				return append(list, bed), err
			},
			Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) {
				return r.items(length, top)
			},
		}
		if i == 0 {
			s.Off = r.Taken
		}
		list = append(list, s)
	}
	return list, nil
}

// checks are what holds the carrier on the gradient, and the deck below its wheels.
func (r Ride) checks(length float64) ([]stages.OwnCheck, error) {
	c := r.Carrier
	weight := newtons("W_c", c.Train.Weight(), "weight of the carrier with what it carries")
	chain := &formula.Chain{}
	pull := chain.Derive(newtons("F_down", 0, "pull down the gradient that brakes must hold, with the minimum rolling resistance"), "max(0, W_c*(sin(α) - μ_min))", formula.Mechanics, weight,
		formula.Q("α", r.Gradient, formula.Radian, "gradient of the deck"), formula.Q("μ_min", c.Runaway, formula.One, "minimum rolling resistance, as a part of the weight"))
	permissible := chain.Derive(newtons("F_hold", 0, "permissible pull with one brake lost"), "(n_b - 1)*F_b/FS_b", practice,
		formula.Q("n_b", float64(c.Brakes), formula.One, "braked axle groups"), newtons("F_b", c.Brake, "greatest force along of each"),
		formula.Q("FS_b", or(r.HoldBack, 1.5), formula.One, "minimum factor of the brakes"))
	lines, err := chain.Lines()
	if err != nil {
		return nil, err
	}
	limit := limits.Limit{Name: "brakes of the carrier, one lost", LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: practice, Line: lines[len(lines)-1]}
	limit.Line.Result = permissible
	brakes := stages.NewCheck(limit, pull)
	brakes.Place = "carrier " + c.Mark
	own := brakes.Derived(lines...)
	wheels := local("below the wheels of carrier "+c.Mark, length/2, fmt.Sprintf("punching and transverse bending of the deck slab: required for pairs of wheel groups of %s, characteristic without dynamic factor", kilonewtons(c.Wheel)))
	list := []stages.OwnCheck{own, wheels}
	if r.Earliest > 0 {
		list = append(list, r.age())
	}
	return list, nil
}

// age is the check of the age of the element against the least at which this stage passes.
func (r Ride) age() stages.OwnCheck {
	source := formula.Source{Document: "this plan, solved for the minimum age at which the stage passes"}
	least, age := formula.Q("t_min", math.Ceil(100*r.Earliest)/100, formula.Day, "minimum age at which the carrier may pass"), formula.Q("t", r.Age, formula.Day, "age of the element when the carrier passes")
	check := stages.NewCheck(limits.Limit{Name: "age when the carrier passes", LimitState: limits.Serviceability, Sense: limits.AtLeast, Source: source, Line: formula.Given(least, source)}, age)
	own := check.Derived(formula.Given(age, source), formula.Given(least, source))
	own.Hold = &stages.Hold{Kind: "age of the span", Required: least, Assumed: age}
	return own
}

// Piers are the largest forces of the carrier on the piers at the left and the right end
// of the element (N, with its dynamic factor), also from the spans beside it:
// every axle at every kink of the influence line. The error wraps [ErrLaunching].
func (r Ride) Piers(length float64) (left, right float64, err error) {
	if err := r.check(); err != nil {
		return 0, 0, err
	}
	b := r.Line.Bearings
	if !(length > 2*b) {
		return 0, 0, fmt.Errorf("%w: length = %g m: must be more than twice Line.Bearings, %g m", ErrLaunching, length, b)
	}
	share := func(l, x float64) float64 { // of a force at x on the bearing at the far end of a span
		if l == 0 || x < 0 || x > l {
			return 0
		}
		return max(0, (x-b)/(l-2*b)) // what relieves it, beyond the far bearing, is left out
	}
	at := func(x float64, rear, here float64) float64 { // pier between a span of rear and one of here, x from their joint
		return max(share(rear, x+rear), share(here, here-x))
	}
	worst := func(rear, here float64) float64 {
		most := 0.0
		offsets := []float64{0}
		for _, a := range r.Carrier.Train.Axles[1:] {
			offsets = append(offsets, offsets[len(offsets)-1]+a.Behind)
		}
		for _, kink := range []float64{b - rear, 0, here - b} {
			for _, o := range offsets {
				sum := 0.0
				for j, a := range r.Carrier.Train.Axles {
					sum += a.Force * at(kink+o-offsets[j], rear, here)
				}
				most = math.Max(most, sum)
			}
		}
		return most * r.Carrier.Train.Factor()
	}
	return worst(r.Line.Before, length), worst(length, r.Line.After), nil
}

// items are the carrier, stated by what it brings.
func (r Ride) items(length, top float64) ([]stages.EquipmentItem, error) {
	left, right, err := r.Piers(length)
	if err != nil {
		return nil, err
	}
	at := length/2 + r.Carrier.Train.Length()/2
	item := stages.EquipmentItem{Mark: r.Carrier.Mark, Kind: stages.Carrier}
	for _, a := range r.Carrier.Train.Axles {
		at -= a.Behind
		const wheel = 0.4 // m, as drawn
		item.Outline = append(item.Outline, [][2]float64{{at - wheel, top}, {at, top + 2*wheel}, {at + wheel, top}, {at - wheel, top}})
	}
	var list facts
	if r.Carrier.Speed > 0 {
		list.value("speed limit", r.Carrier.Speed, formula.MetrePerSecond, limits.AtMost)
	}
	heaviest := slices.MaxFunc(r.Carrier.Train.Axles, func(a, b loads.Axle) int { return cmp.Compare(a.Force, b.Force) })
	list.text("axle groups", fmt.Sprintf("%d over %.4g m", len(r.Carrier.Train.Axles), r.Carrier.Train.Length()))
	list.value("axle load", heaviest.Force, formula.Newton, limits.AtLeast)
	list.value("weight with what it carries", r.Carrier.Train.Weight(), formula.Newton, limits.AtLeast)
	list.value("track off the axis", r.Off, formula.Metre, limits.AtMost)
	list.value("force on the pier at x = 0", left, formula.Newton, limits.AtLeast)
	list.value("force on the pier at the other end", right, formula.Newton, limits.AtLeast)
	list.value("force along", r.along(), formula.Newton, limits.AtLeast)
	item.Facts = list
	return []stages.EquipmentItem{item}, nil
}
