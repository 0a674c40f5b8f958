package ledger

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// taper is the flow across a cut for N, My and Mz about the girder's axis that do not
// change along it (1/m for N, 1/m² for moments): where the section varies, what of the
// shear goes through inclined slabs by their own force, with its sign.
type taper [3]float64

// bends are N, My and Mz.
func bends(f *section.Forces) [3]float64 { return [3]float64{f.N, f.My, f.Mz} }

// flow of forces.
func (t *taper) flow(f [3]float64) float64 { return t[0]*f[0] + t[1]*f[1] + t[2]*f[2] }

// tapers is true where the outline of any piece may vary.
func (l *Ledger) tapers() bool {
	for i := range l.Girder.Pieces {
		if _, constant := l.Girder.Pieces[i].Section.(section.Shape); !constant {
			return true
		}
	}
	return false
}

// taperAt finds the taper of every cut of a piece of a station from the piece a short
// way before and behind it.
func (l *Ledger) taperAt(at *Station, slot int, c *crossings) ([]taper, error) {
	piece := &l.Girder.Pieces[at.Pieces[slot].Index]
	if _, constant := piece.Section.(section.Shape); constant {
		return nil, nil
	}
	const most = 1e-3 // m either way
	p := &l.grid[l.stretchAt(at.X)]
	way := math.Min(most, (p.To-p.From)/4)
	x := math.Max(p.From+way, math.Min(p.To-way, at.X))
	before, after := piece.At(x-way), piece.At(x+way)
	cuts := make([]section.WallCut, c.number())
	for i := range cuts {
		cuts[i] = *c.cut(i)
	}
	list := make([]taper, len(cuts))
	for k, unit := range [3]section.Forces{{N: 1}, {My: 1}, {Mz: 1}} {
		flows, err := c.walls.Between(section.Change{
			Distance: 2 * way, Before: before, After: after,
			From: About(unit, before.Properties().Centroid), To: About(unit, after.Properties().Centroid),
		}, cuts...)
		if err != nil {
			return nil, err
		}
		for i, q := range flows {
			list[i][k] = q
		}
	}
	return list, nil
}
