package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// PretensionRelease is the release of pretensioned strands from the bed: layers
// with the same stress and transmission length.
//
// The strands are bonded: the force just before release acts on the section transformed
// with Ep/Ecm at that age, which gives the elastic loss (Ep/Ecm)·σc exactly. Stress is
// the stress before that loss. Over the transmission length force and gripped area grow
// linearly; stresses there are checked with the long and the short length (EN
// 1992-1-1:2004 8.10.2.2(3)). Time-dependent losses are counted from the release.
type PretensionRelease struct {
	Layers  []string                  // marks of Element.Pretension, at least one
	Stress  float64                   // in the strands just before release, after the losses on the bed (draw-in, relaxation, heat), Pa
	Jacking float64                   // largest jacking stress on the bed, Pa, Stress to 3000e6
	Lengths tendon.TransmissionLength // from [tendon.Transmission.Length]
}

// check reports the first field that is not as it must be.
func (p PretensionRelease) check() error {
	switch {
	case len(p.Layers) == 0:
		return fmt.Errorf("in Transfer: PretensionRelease.Layers is empty: must have at least one mark of Element.Pretension")
	case !(p.Jacking >= p.Stress && p.Jacking <= 3000e6):
		return fmt.Errorf("in Transfer: PretensionRelease.Jacking = %g Pa of %v: must be at least Stress, %g Pa, at most 3000e6 Pa", p.Jacking, p.Layers, p.Stress)
	}
	return nil
}

// transfer takes the release of pretensioned strands into the history.
func (h *History) transfer(list []PretensionRelease) error {
	layers, _ := h.Girder.layers()
	for _, p := range list {
		if err := p.check(); err != nil {
			return err
		}
		for _, mark := range p.Layers {
			at := slices.IndexFunc(layers, func(l tendon.Pretension) bool { return l.Mark == mark })
			switch {
			case at < 0:
				return fmt.Errorf("in Transfer: %s is no pretension of the element: must be a mark of Element.Pretension", mark)
			case slices.Contains(h.Transferred, mark):
				return fmt.Errorf("in Transfer: pretension %s is released already: must be released once", mark)
			}
			h.Transferred = append(slices.Clone(h.Transferred), mark)
		}
	}
	return nil
}

// onBed refuses a piece that is carried while its strands are still held by the
// bed.
func (h *History) onBed() error {
	layers, piece := h.Girder.layers()
	for i, l := range layers {
		if mark := h.Girder.Pieces[piece[i]].Element.Mark; slices.Contains(h.Added, mark) && !slices.Contains(h.Transferred, l.Mark) {
			return fmt.Errorf("pretension %s of %s is still held by the bed: must be released by Transfer.Pretension before or when the element is carried", l.Mark, mark)
		}
	}
	return nil
}

// onCarried refuses a stressing that would act on an element that is not carried.
func (h *History) onCarried(e Event) error {
	layers, piece := h.Girder.layers()
	for i, l := range layers {
		mark := h.Girder.Pieces[piece[i]].Element.Mark
		if slices.ContainsFunc(e.Transfer, func(p PretensionRelease) bool { return slices.Contains(p.Layers, l.Mark) }) && !slices.Contains(h.Added, mark) {
			return fmt.Errorf("in Transfer: element %s of pretension %s is not carried: must be added before or with it", mark, l.Mark)
		}
	}
	if e.Jack == nil {
		return nil
	}
	list, piece := h.Girder.tendons()
	for i, t := range list {
		if !slices.Contains(e.Jack.Tendons, t.Mark) {
			continue
		}
		for n, p := range h.Girder.Pieces {
			own := piece[i] == n || piece[i] < 0 && h.Girder.runsIn(t, p)
			if own && !slices.Contains(h.Added, p.Element.Mark) {
				return fmt.Errorf("in Jacking: tendon %s runs through element %s, which is not carried: must be added before or with it", t.Mark, p.Element.Mark)
			}
		}
	}
	return nil
}

// runsIn is true where a tendon runs in the concrete of a piece, at its middle.
func (g Girder) runsIn(t tendon.Tendon, p Piece) bool {
	path, err := t.Path()
	if err != nil {
		return false // said when the girder is checked
	}
	from, to := math.Max(path.From(), p.At), math.Min(path.To(), p.To())
	if to-from <= g.near() {
		return false
	}
	x := (from + to) / 2
	return p.Element.Section.At(x-p.At).Clearance(path.At(x)) >= 0
}

// layers are the pretensioned layers of all pieces, in the girder's x, and the
// piece of each.
func (g Girder) layers() (list []tendon.Pretension, piece []int) {
	for i, p := range g.Pieces {
		for _, l := range p.Element.Pretension {
			if p.At != 0 {
				l.Elevation, l.Plan = l.Elevation.Moved(p.At), l.Plan.Moved(p.At)
			}
			list, piece = append(list, l), append(piece, i)
		}
	}
	return list, piece
}

// checkLayers checks each pretensioned layer: its mark, its ends, that it is in
// the concrete.
func (g Girder) checkLayers(marks map[string]bool) error {
	list, piece := g.layers()
	for i, l := range list {
		path, err := l.Path()
		if err != nil {
			return fmt.Errorf("%w: %w", ErrStage, err)
		}
		if marks[l.Mark] || !symbolic.MatchString(l.Mark) {
			return fmt.Errorf("%w: pretension mark %q: must be a letter, then letters, digits and underscores, and differ from other marks", ErrStage, l.Mark)
		}
		marks[l.Mark] = true
		p := g.Pieces[piece[i]]
		if math.Abs(path.From()-p.At) > g.near() || math.Abs(path.To()-p.To()) > g.near() {
			return fmt.Errorf("%w: pretension %s runs from x = %g to %g m: must be from end to end of the element, %g to %g m; sleeved strands are Groups", ErrStage, l.Mark, path.From(), path.To(), p.At, p.To())
		}
		for _, x := range g.placesOf(path) {
			if x < p.At || x > p.To() {
				continue
			}
			at := path.At(x)
			if c := p.Element.Section.At(x - p.At).Clearance(at); !(c >= l.Strand.Diameter/2) {
				return fmt.Errorf("%w: pretension %s at x = %.3f m, %s: its middle is %.3f m inside the edge of the concrete: must be at least half a strand, %.4f m",
					ErrStage, l.Mark, x, pointWords(at), c, l.Strand.Diameter/2)
			}
		}
	}
	return nil
}

// pretensioned is true for a tendon of the run that is a pretensioned layer.
func (r *run) pretensioned(i int) bool { return i >= len(r.tendons)-len(r.layers) }

// release adds the step in which strands are released from the bed, all at once.
func (p *progress) release(s *situation, list []PretensionRelease) error {
	if len(list) == 0 {
		return nil
	}
	of := p.step(s)
	known := step{day: s.day}
	for i := range list {
		for _, mark := range list[i].Layers {
			k := p.run.tendonOf(mark)
			layer := p.run.layers[k-(len(p.run.tendons)-len(p.run.layers))]
			force, err := layer.Released(list[i].Stress, list[i].Lengths)
			if err != nil {
				return err
			}
			p.run.ledger.Hold(k, gripOf(force))
			of.Tendons, of.Force = append(of.Tendons, k), append(of.Force, force.At)
			known.pulls = append(known.pulls, pull{tendon: k, how: firstPull, force: force, jack: list[i].Jacking})
		}
	}
	known.tendons = of.Tendons
	p.add(s, of, known)
	return nil
}

// gripOf is how the concrete grips the strands whose force after release is given.
func gripOf(f *tendon.Force) *ledger.Grip {
	shares := func(x float64) (least, most float64) {
		low, high := f.Range(x)
		if mean := f.At(x); mean > 0 && low < high {
			return low / mean, high / mean
		}
		return 1, 1
	}
	g := &ledger.Grip{Area: f.Gripped, Shares: shares}
	from, to := f.Path.From(), f.Path.To()
	breaks := f.Breaks()
	for i := 1; i < len(breaks); i++ { // the last place on each half at which the shares differ
		a, b := breaks[i-1], breaks[i]
		low, high := f.Range((a + b) / 2)
		if !(high-low > 1e-12*high) {
			continue
		}
		if (a+b)/2 < (from+to)/2 {
			g.Left = math.Max(g.Left, b-from)
		} else {
			g.Right = math.Max(g.Right, to-a)
		}
	}
	return g
}

// pretensionInputs are the data of the pretensioned layers.
func (r *run) pretensionInputs() []lineGroup {
	var groups []lineGroup
	for _, l := range r.layers {
		t := l.Tendon()
		given := func(symbol string, value float64, unit formula.Unit, name string) formula.Line {
			return formula.Given(formula.Q(symbol, value, unit, name), formula.Source{Document: "input"})
		}
		lines := append([]formula.Line{}, tendonLines(t)[:5]...)
		for i, g := range l.Groups {
			lines = append(lines, given(fmt.Sprint("n_", i+1), float64(g.Strands), formula.One, fmt.Sprintf("strands sleeved over %g m on the left and %g m on the right", g.Left, g.Right)))
		}
		groups = append(groups, lineGroup{title: "Pretensioned strands " + l.Mark, lines: lines})
	}
	return groups
}

// lines are the data of a release for the record.
func (p PretensionRelease) lines() []formula.Line {
	given := func(symbol string, value float64, unit formula.Unit, name string) formula.Line {
		return formula.Given(formula.Q(symbol, value, unit, name), formula.Source{Document: "input"})
	}
	return []formula.Line{
		given("σ_p", p.Stress, formula.Pascal, "stress in the strands just before release"),
		given("σ_0", p.Jacking, formula.Pascal, "jacking stress on the bed"),
		given("l_pt", p.Lengths.Basic, formula.Metre, "transmission length, basic value"),
		given("l_pt1", p.Lengths.Short, formula.Metre, "transmission length, short value"),
		given("l_pt2", p.Lengths.Long, formula.Metre, "transmission length, long value"),
	}
}

// dispersion is the length from the end of the element beyond which the stress is
// linear over the section, √(l_pt² + d²) behind the longest sleeve, EN
// 1992-1-1:2004 8.10.2.2(4).
func (r *run) dispersion(k int) float64 {
	t := &r.ledger.Girder.Tendons[k]
	g := r.girder.Pieces[t.Piece]
	p := g.Element.Section.At(g.Element.Length / 2).Properties()
	return math.Hypot(math.Max(t.Grip.Left, t.Grip.Right), p.Top+p.Bottom)
}
