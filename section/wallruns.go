package section

import "math"

// wall is true where a station is across a wall: not in an outward corner,
// its faces not too far from parallel.
func (w *Walls) wall(station int) bool {
	s := &w.net.stations[station]
	return s.radius > 0 && !w.net.cornered(s) && s.skew() <= mostSkew
}

// carriesOn is true of a stride along a wall; of one between the chords of an arc
// bent is true too.
func (w *Walls) carriesOn(s *stride) (along, bent bool) {
	if s.length == 0 {
		from, to := w.net.stations[s.from].near.face, w.net.stations[s.to].near.face
		chords := from != to && math.Abs(w.net.faces[from].turnTo) <= gentlest
		return chords && w.wall(s.from) && w.wall(s.to), true
	}
	return !s.ends() && w.wall(s.from) && w.wall(s.mid) && w.wall(s.to), false
}

// runs picks the cuts of every wall on the outlines: a run of strides along it.
func (w *Walls) runs() {
	n := w.net
	for first := 0; first < len(n.strides); {
		outline := n.outlineOf(first)
		last := first
		for last < len(n.strides) && n.outlineOf(last) == outline {
			last++
		}
		w.runsOf(n.strides[first:last])
		first = last
	}
}

func (n *wallNet) outlineOf(stride int) int {
	return n.faces[n.stations[n.strides[stride].from].near.face].outline
}

// runsOf picks those of one outline, from where no run goes on so that none is cut
// where the outline begins.
func (w *Walls) runsOf(strides []stride) {
	begin, closed := 0, true
	for i := range strides {
		before := &strides[(i+len(strides)-1)%len(strides)]
		if along, _ := w.carriesOn(&strides[i]); !along || before.to != strides[i].from {
			begin, closed = i, false
			break
		}
	}
	var run []int
	whole := false // strides along a face in it
	flush := func() {
		if whole {
			w.pick(run, closed)
		}
		run, whole = run[:0], false
	}
	for i := range strides {
		s := &strides[(begin+i)%len(strides)]
		if len(run) > 0 && run[len(run)-1] != s.from {
			flush()
		}
		switch along, bent := w.carriesOn(s); {
		case !along:
			flush()
		case bent:
			run = append(run, s.from, s.to)
		default:
			run, whole = append(run, s.from, s.mid, s.to), true
		}
	}
	flush()
}

// pick adds the cuts of one wall, given the stations along one side of it; round a
// closed ring, which has no ends, also those above and below the centroid.
func (w *Walls) pick(run []int, closed bool) {
	n := w.net
	first, last, middle := &n.stations[run[0]], &n.stations[run[len(run)-1]], len(run)/2
	if !closed {
		w.keep(*first)
		w.keep(*last)
		w.keep(n.half(first, last, 0.5, run[middle]))
		w.keep(n.half(first, last, 0.5, run[len(run)-1-middle]))
	}
	for i, k := range run {
		a, b := n.stations[run[max(i-1, 0)]].middle, n.stations[k].middle
		w.crossing(run[max(i-1, 0)], k, a.Z, b.Z)
		if closed {
			w.crossing(run[max(i-1, 0)], k, a.Y, b.Y)
		}
	}
	w.thinnest(run, closed)
}

// crossing keeps the cut where a height passes zero between two stations; along an
// arc of chords that of both.
func (w *Walls) crossing(from, to int, before, behind float64) {
	a, b := &w.net.stations[from], &w.net.stations[to]
	switch least := w.net.least; {
	case math.Abs(behind) <= least:
		w.keep(*b)
	case before < -least && behind > least || before > least && behind < -least:
		w.keep(w.net.half(a, b, before/(before-behind), from))
		w.keep(w.net.half(a, b, before/(before-behind), to))
	}
}

// thinnest keeps the first and the last of the stations where the wall is thinnest,
// round a closed ring all of them.
func (w *Walls) thinnest(run []int, closed bool) {
	least, ends := math.Inf(1), [2]int{-1, -1}
	for _, k := range run {
		least = math.Min(least, w.net.stations[k].radius)
	}
	for _, k := range run {
		if w.net.stations[k].radius*tie > least {
			continue
		}
		if ends[0] < 0 {
			ends[0] = k
		}
		if ends[1] = k; closed {
			w.keep(w.net.stations[k])
		}
	}
	w.keep(w.net.stations[ends[0]])
	w.keep(w.net.stations[ends[1]])
}

// half is the station at a part of the way between two on one face; along an arc
// of chords it is the given one.
func (n *wallNet) half(a, b *station, part float64, other int) station {
	if a.near.face != b.near.face {
		return n.stations[other]
	}
	reached, left := n.station(a.near.face, a.near.part+part*(b.near.part-a.near.part))
	if reached.chord() > left.chord() {
		return reached
	}
	return left
}
