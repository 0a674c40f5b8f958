package stages

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// settings are what the setting of the supports brings: stated levels and
// preloads, levels out of the plane, and the shape in which it is set down.
func (p *progress) settings(s *situation, a *arrangement, state *ledger.State) []entry {
	var list []entry
	level, held := make([]float64, len(a.supports)), false
	stated := false
	for i, q := range a.supports {
		level[i] = q.Level
		stated = stated || q.Level != 0
		held = held || q.Held || q.Preload != 0 && a.elastic
	}
	if held || stated && a.elastic {
		list = append(list, entry{"levels and preloads", a, &load{name: "levels and preloads", at: noLoads, level: level, held: held}, state, 1, -1, nil, true, nil})
	}
	if !a.elastic {
		return list
	}
	list = append(list, p.outOfPlane(s, a, state, a.level)...)
	return append(list, p.freeShape(s, a, state)...)
}

// outOfPlane are the supports out of level by a distance from the plane of the others (m).
func (p *progress) outOfPlane(s *situation, a *arrangement, state *ledger.State, distance float64) []entry {
	var list []entry
	for i, off := range a.outOfLevel(distance) {
		if off == 0 {
			continue
		}
		level := make([]float64, len(a.supports))
		level[i] = off
		cause := p.run.cause(causeLevel, fmt.Sprintf("support %d out of level in stage %d", i+1, s.stage+1))
		list = append(list, entry{fmt.Sprintf("support %d out of level", i+1), a, &load{name: "out of level", at: noLoads, level: level}, state, 1, cause, nil, false, nil})
	}
	return list
}

func noLoads(r3.Vec) beam.SpaceLoads { return beam.SpaceLoads{} }

// outOfLevel is how far each support may be off by itself (m): of four that have
// one redundant force only, the one by the whole distance from the plane of the
// others that moves the forces most; else each by a quarter of it.
func (a *arrangement) outOfLevel(distance float64) []float64 {
	off := make([]float64, len(a.supports))
	if columns := a.columns(nil); len(columns)-rankOf(columns) == 1 && len(columns) == 4 {
		off[columns[mostMoving(columns)].members[0]] = distance
		return off
	}
	for i := range off {
		off[i] = distance / 4
	}
	return off
}

// mostMoving is the support of four with one redundant force whose distance from the plane of
// the others moves the forces most: they are in proportion to its own part in the forces
// that balance each other, by Cramer's rule the determinant of the other three.
func mostMoving(four []column) int {
	at, most := 0, 0.0
	for i := range four {
		if len(four[i].members) == 0 {
			continue // a moment of a fixed support
		}
		rows := make([][3]float64, 0, 3)
		for k, c := range four {
			if k != i {
				rows = append(rows, c.resultant)
			}
		}
		d := math.Abs(rows[0][0]*(rows[1][1]*rows[2][2]-rows[1][2]*rows[2][1]) - rows[0][1]*(rows[1][0]*rows[2][2]-rows[1][2]*rows[2][0]) + rows[0][2]*(rows[1][0]*rows[2][1]-rows[1][1]*rows[2][0]))
		if d > most*(1+1e-9) { // of equals the first
			at, most = i, d
		}
	}
	return at
}
