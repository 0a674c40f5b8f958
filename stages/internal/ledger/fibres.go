package ledger

import "math"

// Fibres are the least and the largest stress at the lowest and at the highest
// corners of x (Pa), with all tendons in full.
func (d *Demand) Fibres(x float64) (low, high [2]float64, err error) {
	at := d.ledger.At(x)
	return d.fibres(at, d.ledger.effect(d.situation, at))
}

// FibresAt are Fibres at node n of stretch k.
func (d *Demand) FibresAt(k, n int) (low, high [2]float64, err error) {
	return d.fibres(d.ledger.grid[k].At[n], &d.ledger.measured(d.situation, k)[n])
}

func (d *Demand) fibres(at *Station, does *effect) (low, high [2]float64, err error) {
	return d.fibresWithout(-1, at, does, func(int, Corner) (off, on float64) { return 0, 0 })
}

// fibresWithout are the fibres with what a product (−1 for none) takes off and adds at most,
// at a corner of the outer causes, in place of its own.
func (d *Demand) fibresWithout(product int, at *Station, does *effect, moves func(outer int, corner Corner) (off, on float64)) (low, high [2]float64, err error) {
	c, err := d.combination(0)
	if err != nil {
		return low, high, err
	}
	lowest, highest := extremeCorners(at)
	low, high = [2]float64{math.Inf(1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(-1)}
	sums, values := make([]float64, c.Columns()), make([]float64, c.terms)
	for _, corner := range at.Corners {
		isLow, isHigh := corner.At.Z == at.Corners[lowest].At.Z, corner.At.Z == at.Corners[highest].At.Z
		if !isLow && !isHigh {
			continue
		}
		does.values(values, at, corner)
		if product >= 0 {
			values[product] = 0
		}
		for outer := range c.Corners() {
			c.Sums(sums, outer, values)
			off, on := moves(outer, corner)
			least, most := c.Extreme(sums, -1)-off, c.Extreme(sums, 1)+on
			if isLow {
				low = [2]float64{math.Min(low[0], least), math.Max(low[1], most)}
			}
			if isHigh {
				high = [2]float64{math.Min(high[0], least), math.Max(high[1], most)}
			}
		}
	}
	return low, high, nil
}

// values are the stresses of the products at a corner (Pa), all tendons in full.
func (e *effect) values(into []float64, at *Station, corner Corner) {
	for g := range into {
		into[g] = e.part(g, corner.Slot).Plane.At(corner.Spot())
	}
	for kept := range len(e.apart) / e.slots {
		into[0] += at.nominal(1+kept) * e.part(len(into)+kept, corner.Slot).Plane.At(corner.Spot())
	}
}
