package stages

import (
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// ageing is the coefficient χ on the creep of what grows while it acts: 0.8, as in
// EN 1992-1-1:2004 5.10.6, (5.46), and EN 1992-2:2005 Annex KK.
const ageing = 0.8

// motion is what a run keeps for movements: of each situation how many lasting
// changes there were when it began and when it ended, of each change the situation
// that brought it, and since when one that grew has grown.
type motion struct {
	before, after []int
	by            []*situation
	grown         map[int]*situation
	since         map[*arrangement]*situation // since when creep has not been put to a system
	kinks         map[*body][]kink            // that stay where bodies were joined
	moved         map[*situation][]*Movement
	soft          map[softBetween][2]float64
	loaded        map[[2]int]float64 // by piece and change that grew: day from which it creeps on
	softness      map[softOn]*ledger.Softness
}

// softBetween is what soft answers, softOn what softness does.
type (
	softBetween struct {
		piece, began, now int
		grown             bool
	}
	softOn struct{ situation, number, steps int }
)

func newMotion() motion {
	return motion{
		grown: map[int]*situation{}, since: map[*arrangement]*situation{}, kinks: map[*body][]kink{}, moved: map[*situation][]*Movement{},
		soft: map[softBetween][2]float64{}, loaded: map[[2]int]float64{}, softness: map[softOn]*ledger.Softness{},
	}
}

// softness is 1/E and creep per stress of the first lasting changes on the day of a
// situation, and of the losses of the tendons stressed in the given steps.
func (r *run) softness(s *situation, number, steps int) (*ledger.Softness, error) {
	key := softOn{s.index, number, steps}
	if known := r.motion.softness[key]; known != nil {
		return known, nil
	}
	of := &ledger.Softness{Situation: &ledger.Situation{Steps: steps, Times: s.times, Prestress: r.cause(causePrestress, "")}}
	for k := range r.girder.Pieces {
		elastic, creep := make([]float64, number), make([]float64, number)
		for e := range number {
			var err error
			if elastic[e], creep[e], err = r.softOf(k, e, s); err != nil {
				return nil, err
			}
		}
		of.Elastic, of.Creep = append(of.Elastic, elastic), append(of.Creep, creep)
		lossElastic, lossCreep := r.softLoss(k, s, steps)
		of.LossElastic, of.LossCreep = append(of.LossElastic, lossElastic), append(of.LossCreep, lossCreep)
	}
	r.motion.softness[key] = of
	return of, nil
}

// softOf is soft for a lasting change. One that grew creeps on, once it has come to
// its end, as if all of it had come at the age from which it would have crept as
// much by then.
func (r *run) softOf(piece, e int, now *situation) (elastic, creep float64, err error) {
	since, end := r.motion.grown[e], r.motion.by[e]
	if since == nil {
		return r.soft(piece, end, now, false)
	}
	elastic, creep, err = r.soft(piece, since, end, true)
	if err != nil || creep == 0 || now.day <= end.day {
		return elastic, creep, err
	}
	cast, slow := r.girder.Pieces[piece].Element.Cast, r.mixes[piece].slow.TimeModel
	crept := func(day, loaded float64) (float64, error) {
		phi, err := slow.Creep(day-cast, loaded-cast)
		if err != nil {
			return 0, err
		}
		modulus, err := tendon.CreepModulus(r.mixes[piece].slow, loaded-cast)
		return phi / modulus, err
	}
	key := [2]int{piece, e}
	loaded, ok := r.motion.loaded[key]
	if !ok {
		loaded, err = formula.Root(since.day, end.day, func(day float64) (float64, error) {
			by, err := crept(end.day, day)
			return by - creep, err
		})
		if err != nil {
			return 0, 0, err
		}
		r.motion.loaded[key] = loaded
	}
	creep, err = crept(now.day, loaded)
	return elastic, creep, err
}

// soft is 1/E of a piece in the situation in which a stress began, and what it has
// crept since then per stress: φ/E_φ, and χ·φ/E_φ where it grew until now.
func (r *run) soft(piece int, began, now *situation, grown bool) (elastic, creep float64, err error) {
	if began.concrete[piece].Modulus == 0 { // not there yet
		return 0, 0, nil
	}
	elastic = 1 / began.concrete[piece].Modulus
	cast, slow := r.girder.Pieces[piece].Element.Cast, r.mixes[piece].slow
	if slow == nil || now.day <= began.day {
		return elastic, 0, nil
	}
	key := softBetween{piece, began.index, now.index, grown}
	if known, ok := r.motion.soft[key]; ok {
		return known[0], known[1], nil
	}
	phi, err := slow.Creep(now.day-cast, began.day-cast)
	if err != nil {
		return 0, 0, err
	}
	modulus, err := tendon.CreepModulus(slow, began.day-cast)
	if grown {
		phi *= ageing
	}
	if err == nil {
		r.motion.soft[key] = [2]float64{elastic, phi / modulus}
	}
	return elastic, phi / modulus, err
}

// softLoss is the same of the loss of each tendon, which has grown since it was
// stressed.
func (r *run) softLoss(piece int, s *situation, steps int) (elastic, creep []float64) {
	elastic, creep = make([]float64, len(r.tendons)), make([]float64, len(r.tendons))
	if s.times == nil || s.times[piece] == nil {
		return elastic, creep
	}
	for n := range r.ledger.Steps[:steps] {
		step := &r.ledger.Steps[n]
		for _, i := range step.Tendons {
			elastic[i], creep[i] = 0, 0
			if e := step.Modulus(piece); e > 0 && s.times[piece].Days[i] > 0 {
				elastic[i] = 1 / e
				if p := &s.times[piece].Periods[i]; p.CreepModulus > 0 {
					creep[i] = ageing * p.Creep / p.CreepModulus
				}
			}
		}
	}
	return elastic, creep
}

// aged is the modulus of a piece for what grows between two situations: E/(1 +
// χ·φ·E/E_φ), the age-adjusted modulus; 0 where the piece is not there.
func (r *run) aged(piece int, from, to *situation) (float64, error) {
	elastic, creep, err := r.soft(piece, from, to, true)
	if err != nil || elastic == 0 {
		return 0, err
	}
	return 1 / (elastic + creep), nil
}

// withModuli is a situation whose pieces have other moduli.
func (s *situation) withModuli(of func(piece int) (float64, error)) (*situation, error) {
	other := *s
	other.concrete = append(other.concrete[:0:0], s.concrete...)
	for k := range other.concrete {
		if other.concrete[k].Modulus == 0 {
			continue
		}
		e, err := of(k)
		if err != nil {
			return nil, err
		}
		if e > 0 && !math.IsInf(e, 0) {
			other.concrete[k].Modulus = e
		}
	}
	return &other, nil
}
