package stages

import (
	"fmt"
	"reflect"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// run is one run of a plan.
type run struct {
	girder       Girder
	standard     limits.Standard
	tendons      []tendon.Tendon
	paths        []*tendon.Path
	layers       []tendon.Pretension // the last of tendons
	parts        []part              // of the weight, in the girder's x
	ledger       *ledger.Ledger
	causes       []cause
	weights      []weightLoad
	lasting      []lasting
	motion       motion
	factors      []PartialFactors // of the limits asked, for the record
	steps        []step
	arrangements int // how many so far
	situations   []*situation
	taken        []taken   // situations as the stages gave them
	retained     []float64 // parts of forces left before further pulls, in order
	known        []float64 // the first of them, found before
	past         *run      // up to the event of the last further pull
	mixes        []mix     // of each piece
	outlines     map[outlineAt]section.Shape
	names        map[*ledger.State]string
}

// step is what the run knows of a step of stressing beside the ledger.
type step struct {
	release bool
	tendons []int
	day     float64
	pulls   []pull // of each of tendons; none for a release
}

// situation is a Situation with what the run knows of it.
type situation struct {
	Situation
	stage     int // index in the plan
	index     int // in the run
	day       float64
	end       bool // the same as the one before it, at its end
	concrete  []concrete.State
	bodies    []*body
	states    []*ledger.State // of each body
	from      int             // steps of stressing made at its beginning
	steps     int             // at its end
	bonded    []bool          // at its end
	grouted   []string        // marks, at its end
	acts      []*arrangement  // of each body
	entries   []entry         // all that are not undone
	current   []entry         // those of the supports that act now
	transient []entry         // those that come and go with the situation
	trains    []entry         // a train that rolls over it, in each position
	cases     []*variant
	marches   []marchesOf // of its cases
	dynamic   [2]float64
	times     []*ledger.Time
	atJoints  []JointRecord // tension at its joints, as they were checked
}

// newRun checks the girder and lays out the plan.
func newRun(plan Plan, subject Subject, standard limits.Standard) (*run, error) {
	if isNil(subject) {
		return nil, errNoSubject
	}
	girder := subject.Girder()
	if err := girder.check(); err != nil {
		return nil, err
	}
	if standard == nil {
		return nil, fmt.Errorf("%w: the standard is missing: must be one of package limits", ErrStage)
	}
	if len(plan) == 0 {
		return nil, fmt.Errorf("%w: the plan has no stage: must be at least one", ErrStage)
	}
	r := &run{girder: girder.snapped(), standard: standard, motion: newMotion()}
	r.mixes = r.girder.mixes()
	if err := r.numbers(); err != nil {
		return nil, err
	}
	if err := r.expand(plan); err != nil {
		return nil, err
	}
	return r, r.lay()
}

// lay lays out the numbers of all situations.
func (r *run) lay() error {
	r.gatherBreaks()
	if err := r.prepareTimes(); err != nil {
		return err
	}
	if err := r.ledger.MakeGrid(); err != nil {
		return fmt.Errorf("%w: %w", ErrStage, err)
	}
	return r.makeCases()
}

// errNoSubject is the error of a plan without a subject.
var errNoSubject = fmt.Errorf("%w: the subject is nil: must be an Element or a Girder", ErrStage)

// isNil is true for no subject or stage, or a pointer to none.
func isNil(v any) bool {
	return v == nil || reflect.ValueOf(v).Kind() == reflect.Pointer && reflect.ValueOf(v).IsNil()
}

// numbers puts the girder into a ledger.
func (r *run) numbers() error {
	g := ledger.Girder{Length: r.girder.Length(), Paired: r.girder.Paired}
	for i, p := range r.girder.Pieces {
		g.Pieces = append(g.Pieces, ledger.Piece{From: p.At, To: p.To(), Section: p.Element.Section})
		for _, w := range p.Element.weight() {
			w.piece = i
			w.from, w.to, w.x = w.from+p.At, w.to+p.At, w.x+p.At
			r.parts = append(r.parts, r.girder.curved([]part{w})...)
		}
	}
	list, piece := r.girder.tendons()
	r.tendons = list
	for i, t := range list {
		path, err := t.Path()
		if err != nil {
			return err
		}
		r.paths = append(r.paths, path)
		g.Tendons = append(g.Tendons, ledger.Tendon{
			Path: path, Area: t.Area(), Modulus: t.Strand.Modulus, Duct: t.Duct, Piece: piece[i], External: t.External, Held: held(t, path),
		})
	}
	r.layers, piece = r.girder.layers()
	for i, l := range r.layers {
		path, err := l.Path()
		if err != nil {
			return err
		}
		t := l.Tendon()
		r.tendons, r.paths = append(r.tendons, t), append(r.paths, path)
		g.Tendons = append(g.Tendons, ledger.Tendon{Path: path, Area: t.Area(), Modulus: t.Strand.Modulus, Piece: piece[i]})
	}
	r.ledger = &ledger.Ledger{Girder: g}
	return nil
}

// expand turns the stages into situations, in order.
func (r *run) expand(plan Plan) error {
	history, state := r.begin(), newProgress(r)
	for i, stage := range plan {
		if isNil(stage) {
			return fmt.Errorf("%w %d is nil: must be a stage", ErrStage, i+1)
		}
		situations, err := stage.Situations(history)
		if err != nil {
			return fmt.Errorf("%w %d: %w", ErrStage, i+1, err)
		}
		if len(situations) == 0 {
			return fmt.Errorf("%w %d has no situation: must be at least one", ErrStage, i+1)
		}
		for _, s := range r.withEnds(situations) {
			if err := r.addSituation(i, s, &history, state); err != nil {
				return fmt.Errorf("%w %d, %s at age %g d: %w", ErrStage, i+1, s.Name, s.Age, err)
			}
		}
	}
	return nil
}

// begin is the history before the first situation.
func (r *run) begin() History {
	history := History{Girder: r.girder, Element: r.girder.Pieces[0].Element}
	for _, p := range r.girder.Pieces {
		if !p.Later {
			history.Added = append(history.Added, p.Element.Mark)
		}
	}
	return history
}

// addSituation takes one situation into the run.
func (r *run) addSituation(stage int, s timed, history *History, state *progress) error {
	r.taken = append(r.taken, taken{s, stage})
	if err := r.clock(&s.Situation); err != nil {
		return err
	}
	before := slices.Clone(history.Staying)
	if err := r.checkSize(&s.Situation, before); err != nil {
		return err
	}
	if err := history.step(&s.Situation); err != nil {
		return err
	}
	next := &situation{
		Situation: s.Situation, stage: stage, index: len(r.situations), end: s.end,
		day: r.girder.Pieces[0].Element.Cast + s.Age, from: len(r.steps),
	}
	next.dynamic[0], next.dynamic[1], _ = s.Dynamic.Range() // checked by History.step
	if err := state.advance(next, before); err != nil {
		return err
	}
	r.situations = append(r.situations, next)
	return nil
}

// gatherBreaks gives the ledger every place where a law along x changes.
func (r *run) gatherBreaks() {
	breaks := &r.ledger.Girder.Breaks
	for _, p := range r.parts {
		*breaks = append(*breaks, p.from, p.to)
	}
	for _, p := range r.girder.Pieces {
		for _, b := range p.Element.Bars {
			*breaks = append(*breaks, p.At+b.From, p.At+b.To)
		}
	}
	for _, step := range r.steps {
		for _, pull := range step.pulls {
			*breaks = append(*breaks, pull.force.Breaks()...)
		}
	}
	for _, s := range r.situations {
		for _, p := range s.Supports {
			*breaks = append(*breaks, p.X)
		}
		for _, a := range s.Actions {
			for _, p := range partsOf(a.Mark, a.Loads, a.Y, a.Z) {
				*breaks = append(*breaks, p.from, p.to)
			}
		}
		if len(s.trains) > 0 { // moments have a kink where axles are: at every second position
			for i := range trainSteps / 2 {
				*breaks = append(*breaks, r.girder.Length()*float64(2*i)/trainSteps)
			}
		}
	}
	slices.Sort(*breaks)
	*breaks = slices.Compact(*breaks)
}
