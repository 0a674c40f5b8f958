package ledger

import (
	"cmp"
	"container/heap"
	"math"
	"slices"
)

// crackedIn are the reaches that crack in any situation. The most tensile are looked at
// first; where the nodes beside those that may have cracked are within a reach that has, there
// is nothing to add.
func (m *March) crackedIn(q *WallQuery, pairs []wallPair) (cracked [][2]float64, err error) {
	var list []wallPair
	for _, one := range pairs {
		if one.tensile > q.Cracked {
			list = append(list, one)
		}
	}
	slices.SortStableFunc(list, func(a, b wallPair) int { return cmp.Compare(b.tensile, a.tensile) })
	l := m.of[0].ledger
	tables := map[int][]cornerBase{}
	for _, one := range list {
		b := &m.walls[one.at]
		p := &l.grid[b.stretch]
		from, to := p.At[one.from].X, p.At[one.to].X
		if slices.ContainsFunc(cracked, func(reach [2]float64) bool { return reach[0] <= from && to <= reach[1] }) {
			continue
		}
		if len(p.spreading) > 0 && len(p.At[0].Pieces) == 1 { // with the parts that count at each corner
			bound, err := m.fineBound(tables, pair{one.situation, b.stretch, 0}, 1, everyCorner)
			if err != nil {
				return nil, err
			}
			if bound <= q.Cracked {
				continue
			}
		}
		_, reaches, err := m.nodesIn(q, one)
		if err != nil {
			return nil, err
		}
		cracked = l.Join(append(cracked, reaches...))
	}
	return cracked, nil
}

func everyCorner(*Stretch, Corner) bool { return true }

// nodesIn are the nodes of a pair with their own bounds, and what of it has cracked.
func (m *March) nodesIn(q *WallQuery, one wallPair) ([]wallNode, [][2]float64, error) {
	d, nodes := m.of[one.situation], make([]wallNode, Nodes)
	for n := range nodes {
		b := &m.walls[one.at+n]
		nodes[n] = wallNode{stretch: b.stretch, slot: b.slot, node: n}
		if err := d.boundWalls(q, &nodes[n]); err != nil {
			return nil, nil, err
		}
	}
	reaches, err := d.boundNodes(q, nodes)
	return nodes, d.ledger.Join(reaches), err
}

// marchSearch is the search for the worst wall of a march.
type marchSearch struct {
	*March
	q     *WallQuery
	worst Wall
	best  int // the situation that has it
	list  []wallFound
}

// wallFound is a pair that was looked at and its worst wall, if that is near the worst of all.
type wallFound struct {
	wallPair
	nodes   []wallNode
	reaches [][2]float64
	wall    Wall
}

// look looks at the nodes of pairs in the order of their bounds, then between them, and at
// last narrows the places of all that are near the worst.
func (s *marchSearch) look(pairs []wallPair) error {
	var q queue
	for i, one := range pairs {
		q.list = append(q.list, queued{i, one.bound, false})
	}
	heap.Init(&q)
	tables := map[int][]wallFine{}
	fine := func(i int) (float64, error) { return s.fineWall(tables, s.q, pairs[i]) }
	for {
		floor := math.Inf(-1)
		if s.worst.Found {
			floor = s.worst.Value * (1 - near)
		}
		i, bound, found, err := q.next(floor, fine)
		if err != nil {
			return err
		}
		if !found {
			break
		}
		one := pairs[i]
		one.bound = bound
		if err := s.nodes(one); err != nil {
			return err
		}
	}
	for i := range s.list {
		of := &s.list[i]
		if s.worst.Found && of.bound <= s.worst.Value {
			break
		}
		wall := s.worst
		if err := s.of[of.situation].between(s.q, of.nodes, of.reaches, &wall); err != nil {
			return err
		}
		if s.keep(of.situation, wall) {
			of.wall = wall
		}
	}
	for i := range s.list {
		of := &s.list[i]
		if of.wall.Factors == nil || of.wall.Value < s.worst.Value*(1-near) {
			continue
		}
		if err := s.of[of.situation].refineWall(s.q, of.reaches, &of.wall); err != nil {
			return err
		}
		s.keep(of.situation, of.wall)
	}
	return nil
}

// keep keeps a wall if it is the worst.
func (s *marchSearch) keep(situation int, wall Wall) bool {
	if wall.Factors == nil || s.worst.Found && wall.Value <= s.worst.Value {
		return false
	}
	s.worst, s.best = wall, situation
	return true
}

// nodes looks at the nodes of a pair.
func (s *marchSearch) nodes(one wallPair) error {
	d := s.of[one.situation]
	nodes, reaches, err := s.nodesIn(s.q, one)
	if err != nil {
		return err
	}
	of := wallFound{wallPair: one, nodes: nodes, reaches: reaches, wall: Wall{Found: s.worst.Found, Value: s.worst.Value * (1 - near)}}
	sorted := slices.Clone(nodes)
	slices.SortStableFunc(sorted, func(a, b wallNode) int { return cmp.Compare(b.bound, a.bound) })
	for _, n := range sorted {
		if n.cracked || of.wall.Found && n.bound <= of.wall.Value {
			continue
		}
		p := &d.ledger.grid[n.stretch]
		if err := d.wallAt(s.q, p, n.slot, p.At[n.node], &d.ledger.measured(d.situation, n.stretch)[n.node], &of.wall); err != nil {
			return err
		}
	}
	s.list = append(s.list, of)
	s.keep(one.situation, of.wall)
	return nil
}
