package ledger

import (
	"math"
	"slices"
)

// Beside are the stretches that end and begin at x, with the node nearest to it.
func (l *Ledger) Beside(x float64) [][2]int {
	near := 10 * Inset * l.Girder.Length
	var list [][2]int
	for k := range l.grid {
		switch p := &l.grid[k]; {
		case math.Abs(p.To-x) < near:
			list = append(list, [2]int{k, Nodes - 1})
		case math.Abs(p.From-x) < near:
			list = append(list, [2]int{k, 0})
		}
	}
	return list
}

// ExtremeInFull is ExtremeAt with all tendons in full that cross the place.
func (d *Demand) ExtremeInFull(k, n int, sign float64, count func(Corner) bool) (Worst, error) {
	return d.extremeAt(k, n, sign, count, func(*Stretch, int, float64) []int { return nil })
}

// ExtremeAt is the largest (sign +1) or smallest (sign −1) stress at one node of a
// stretch over the corners that count says, under the worst factors. Tendons that end at the
// node do not cross it: they are not counted, and named with the factor 0.
func (d *Demand) ExtremeAt(k, n int, sign float64, count func(Corner) bool) (Worst, error) {
	return d.extremeAt(k, n, sign, count, d.apartAt)
}

func (d *Demand) extremeAt(k, n int, sign float64, count func(Corner) bool, spreads func(*Stretch, int, float64) []int) (Worst, error) {
	p := &d.ledger.grid[k]
	at, of := p.At[n], &d.ledger.measured(d.situation, k)[n]
	worst := Worst{Value: math.Inf(-1)}
	c, err := d.stretchLayout(p)
	if err != nil {
		return worst, err
	}
	ending := d.endingAt(p, at.X)
	for number, corner := range at.Corners {
		if !count(corner) {
			continue
		}
		apart := slices.DeleteFunc(slices.Clone(spreads(p, number, at.X)), func(i int) bool { return slices.Contains(ending, i) })
		for outer := range c.Corners() {
			if err := d.keep(p, at, of, number, outer, apart, ending, sign, &worst); err != nil {
				return worst, err
			}
		}
	}
	worst.Value *= sign
	for _, i := range ending {
		worst.Ending = d.appendApart(worst.Ending, &p.spreading[i], 0)
	}
	return worst, nil
}

// endingAt are the stressed tendons of a stretch that end at x where the girder goes on, by their
// first anchors in the stretch.
func (d *Demand) endingAt(p *Stretch, x float64) (list []int) {
	if len(d.ledger.Beside(x)) < 2 {
		return nil
	}
	near := 10 * Inset * d.ledger.Girder.Length
	for i := range p.spreading {
		if s := &p.spreading[i]; s.grows == 0 && d.stressed(s) && math.Abs(s.anchor-x) < near && !slices.Contains(list, s.own) {
			list = append(list, s.own)
		}
	}
	return list
}

// besideJoint is x, or where one piece ends and another begins a hair to the right: there a
// station has one of the two, as every stretch has, and not both with half of what acts.
func (l *Ledger) besideJoint(x float64) float64 {
	near := Inset / 4 * l.Girder.Length // less than the ends of stretches are away
	for i := range l.Girder.Pieces {
		end := l.Girder.Pieces[i].To
		if math.Abs(x-end) > near {
			continue
		}
		for k := range l.Girder.Pieces {
			if math.Abs(l.Girder.Pieces[k].From-end) <= near {
				return end + Inset*l.Girder.Length
			}
		}
	}
	return x
}
