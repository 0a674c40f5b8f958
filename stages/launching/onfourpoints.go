package launching

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// OnFourPoints is a stage whose element stands on four elastic supports in two lines, in storage,
// on a carrier or on its bearings, with the check of how far each support may be out of the
// plane of the other three: until the smallest force of a support has changed by a part of what
// it is on a plane, 0.01 to 0.5; 0 means 0.05 (common practice). The stage states the distance as
// OutOfLevel; a larger one of an earlier stage on the same supports acts. Where a pair is equalised
// levels change nothing, and the check says so. The torsional stiffness is that of
// the length between the lines as a whole. A situation on other supports is refused.
func OnFourPoints(stage stages.Stage, change float64) stages.Stage {
	return onFourPoints{stage, change}
}

type onFourPoints struct {
	stage  stages.Stage
	change float64
}

// Situations are those of the stage, each with the check. The error wraps [ErrLaunching].
func (l onFourPoints) Situations(h stages.History) ([]stages.Situation, error) {
	if l.stage == nil {
		return nil, fmt.Errorf("%w: OnFourPoints without a stage: must be a stage", ErrLaunching)
	}
	if err := within("", bound{"change of OnFourPoints", or(l.change, usualChange), "", 0.01, 0.5}); err != nil {
		return nil, err
	}
	situations, err := l.stage.Situations(h)
	return checkedBy(situations, func(e stages.Effects) ([]stages.OwnCheck, error) { return l.warps(h, e) }), err
}

// warps are the checks of the level of every support of a situation.
func (l onFourPoints) warps(h stages.History, e stages.Effects) (list []stages.OwnCheck, err error) {
	const name = "warp of the supports"
	f, numbers, err := pointsOf(h, e)
	if err != nil {
		return nil, err
	}
	part := or(l.change, usualChange)
	if f.Equalised[0] || f.Equalised[1] {
		own, err := f.unchanged(name, part)
		own.X, own.Place = e.Reactions[0].X, "all four supports"
		return []stages.OwnCheck{own}, err
	}
	out := e.OutOfLevel
	if !(out > 0) {
		return nil, fmt.Errorf("%w: field OutOfLevel of %q is %g m: must be the distance by which a support may be out of the plane of the other three", ErrLaunching, e.Situation.Name, out)
	}
	worst, err := f.worst()
	if err != nil {
		return nil, err
	}
	for i, n := range numbers {
		own, err := f.held(name, i, part, out)
		if err != nil {
			return nil, err
		}
		own.X, own.Place = e.Reactions[n].X, fmt.Sprintf("support %d at x = %.2f m, y = %.2f m", n+1, e.Reactions[n].X, e.Reactions[n].Y)
		if i == worst {
			distance := formula.Q("d_w", out, formula.Metre, "distance of a support from the plane of the other three")
			own.Hold = &stages.Hold{Kind: "levels surveyed", Required: distance, AtMost: true, Assumed: distance}
		}
		list = append(list, own)
	}
	return list, nil
}

// unchanged is the check of four supports of which a pair is equalised.
func (f FourPoints) unchanged(name string, part float64) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	line := 1
	if f.Equalised[1] {
		line = 2
	}
	change := c.Given(newtons("ΔR", 0, "change of a reaction by a level difference of a support"), formula.Mechanics, fmt.Sprintf("the pair of line %d is equalised: levels change nothing", line))
	limit := c.Derive(newtons("ΔR_p", 0, "permissible change of the smallest reaction"), "p_R*R_0", practice,
		formula.Q("p_R", part, formula.One, "permissible change of a reaction, as a part of it"), newtons("R_0", slices.Min(f.Level[:]), "smallest reaction"))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.Serviceability, Sense: limits.AtMost, Source: practice, Line: formula.Given(limit, practice), Note: lines[0].Note}, change)
	return check.Derived(lines...), nil
}

// pointsOf are the four supports of a situation as points of its element, with their nominal
// forces, and the number of each support, from 0.
func pointsOf(h stages.History, e stages.Effects) (f FourPoints, numbers [4]int, err error) {
	if len(h.Girder.Pieces) != 1 {
		return f, numbers, fmt.Errorf("%w: the warp of a girder of %d pieces is not evaluated: must be one element", ErrLaunching, len(h.Girder.Pieces))
	}
	on := e.Situation.Supports
	if numbers, err = lines(on); err != nil {
		return f, numbers, fmt.Errorf("%w: supports of %q: %w", ErrLaunching, e.Situation.Name, err)
	}
	element := h.Element
	torsion, err := torsionBetween(element.Section, on[numbers[0]].X, on[numbers[2]].X)
	if err != nil {
		return f, numbers, err
	}
	state, err := element.Concrete.At(e.Situation.Age)
	if err != nil {
		return f, numbers, err
	}
	const poisson = 0.2 // EN 1992-1-1:2004, 3.1.3(4), uncracked
	f.Length, f.Torsion = on[numbers[2]].X-on[numbers[0]].X, state.Modulus/(2*(1+poisson))*torsion
	for i, n := range numbers {
		f.Stiffness[i], f.Level[i] = on[n].Stiffness, e.Reactions[n].Nominal
	}
	for line := range 2 {
		right, left := on[numbers[2*line]], on[numbers[2*line+1]]
		f.Widths[line], f.Equalised[line] = left.Y-right.Y, left.Group != ""
	}
	return f, numbers, f.check()
}

// torsionBetween is the constant torsion constant that turns as much between two places as the
// section along x (m⁴): the length over ∫dx/J, by Gauss's rule of two points between breaks.
func torsionBetween(along section.Along, from, to float64) (float64, error) {
	places := []float64{from}
	for _, x := range slices.Sorted(slices.Values(along.Breaks())) {
		if x > from && x < to {
			places = append(places, x)
		}
	}
	places = append(places, to)
	give := 0.0
	for i, left := range places[:len(places)-1] {
		half := (places[i+1] - left) / 2
		for _, t := range [2]float64{-1 / math.Sqrt(3), 1 / math.Sqrt(3)} {
			torsion, err := along.At(left + half + half*t).Torsion()
			if err != nil {
				return 0, err
			}
			give += half / torsion.Constant
		}
	}
	return (to - from) / give, nil
}

// lines are the numbers of four supports in two lines across, from 0: right and left of the
// first line, right and left of the second. Each is elastic, or one pair is a group.
func lines(on []stages.Support) (numbers [4]int, err error) {
	if len(on) != 4 {
		return numbers, fmt.Errorf("there are %d: must be four, in two lines across", len(on))
	}
	order := []int{0, 1, 2, 3}
	slices.SortStableFunc(order, func(a, b int) int {
		if d := on[a].X - on[b].X; math.Abs(d) > 1e-6 {
			return int(math.Copysign(1, d))
		}
		return int(math.Copysign(1, on[a].Y-on[b].Y))
	})
	copy(numbers[:], order)
	grouped := 0
	for line := range 2 {
		right, left := on[numbers[2*line]], on[numbers[2*line+1]]
		if math.Abs(left.X-right.X) > 1e-6 {
			return numbers, fmt.Errorf("two are at x = %g and %g m: must be pairs, each on one line across", right.X, left.X)
		}
		if left.Group != right.Group {
			return numbers, fmt.Errorf("two at x = %g m are in the groups %q and %q: must be equalised with each other, or not at all", right.X, right.Group, left.Group)
		}
		if left.Group != "" {
			grouped++
		}
	}
	for i, s := range on {
		if grouped == 0 && s.Stiffness == 0 {
			return numbers, fmt.Errorf("support %d has no Stiffness: must be elastic, or one pair equalised", i+1)
		}
	}
	return numbers, nil
}
