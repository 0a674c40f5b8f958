package ledger

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// ductIn is true for a tendon whose duct is a hole in a piece of a station.
func (l *Ledger) ductIn(at *Station, slot, i int) bool {
	return at.Tendons[i].Here && at.Tendons[i].Slot == slot && l.Girder.Tendons[i].Duct > 0 && !l.Girder.Tendons[i].External
}

// crosses is true where a cut comes nearer to a point than a radius (m).
func crosses(c *section.Cut, p section.Point, radius float64) bool {
	dy, dz := c.To.Y-c.From.Y, c.To.Z-c.From.Z
	y, z := p.Y-c.From.Y, p.Z-c.From.Z
	along, length := y*dy+z*dz, dy*dy+dz*dz
	if off := y*dz - z*dy; off*off >= radius*radius*length { // of the line through the cut
		return false
	}
	t := math.Max(0, math.Min(1, along/length))
	y, z = y-t*dy, z-t*dz
	return y*y+z*z < radius*radius
}

// netOf takes the allowance for the ducts that a cut crosses off its thickness,
// EN 1992-1-1:2004 6.2.3(6).
func (l *Ledger) netOf(thickness float64, ducts [][2]int, filling []section.Filling) (float64, error) {
	if len(ducts) == 0 {
		return thickness, nil
	}
	var err error
	for f := section.NotGrouted; f <= section.GroutedMetal && err == nil; f++ {
		var room [8]float64
		diameters := room[:0]
		for _, d := range ducts {
			if filling[d[1]] == f {
				diameters = append(diameters, l.Girder.Tendons[d[1]].Duct)
			}
		}
		if len(diameters) > 0 {
			thickness, err = section.WebWidth(thickness, f, diameters...)
		}
	}
	return thickness, err
}
