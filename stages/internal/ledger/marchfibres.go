package ledger

import "math"

// FibresAt is the least and the largest of [Demand.FibresAt] over all situations.
func (m *March) FibresAt(k, n int) (low, high [2]float64, err error) {
	d := m.of[0]
	at, does := d.ledger.grid[k].At[n], &d.ledger.measured(d.situation, k)[n]
	if len(m.of) == 1 {
		return d.fibres(at, does)
	}
	c, err := d.combination(0)
	if err != nil {
		return low, high, err
	}
	return d.fibresWithout(m.product, at, does, func(outer int, corner Corner) (off, on float64) {
		off, on = math.Inf(-1), math.Inf(-1)
		for i := range m.of {
			v := c.weights[outer][m.product] * m.does(i, k).parts[n*does.slots+corner.Slot].Plane.At(corner.Spot())
			off, on = math.Max(off, m.by.largest(-v)), math.Max(on, m.by.largest(v))
		}
		return off, on
	})
}

// Fibres is the least and the largest of [Demand.Fibres] over all situations.
func (m *March) Fibres(x float64) (low, high [2]float64, err error) {
	low, high = [2]float64{math.Inf(1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(-1)}
	for _, d := range m.of {
		l, h, err := d.Fibres(x)
		if err != nil {
			return low, high, err
		}
		low, high = [2]float64{math.Min(low[0], l[0]), math.Max(low[1], l[1])}, [2]float64{math.Min(high[0], h[0]), math.Max(high[1], h[1])}
	}
	return low, high, nil
}
