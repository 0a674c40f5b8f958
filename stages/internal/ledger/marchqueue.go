package ledger

import "container/heap"

// queue gives numbers in the order of values that they do not exceed. Coarse values are
// made fine when their turn comes.
type queue struct{ list []queued }

type queued struct {
	number int
	bound  float64
	fine   bool
}

func (q *queue) Len() int { return len(q.list) }
func (q *queue) Less(i, j int) bool {
	a, b := &q.list[i], &q.list[j]
	return a.bound > b.bound || a.bound == b.bound && a.number < b.number
}
func (q *queue) Swap(i, j int) { q.list[i], q.list[j] = q.list[j], q.list[i] }
func (q *queue) Push(x any)    { q.list = append(q.list, x.(queued)) }
func (q *queue) Pop() any {
	last := q.list[len(q.list)-1]
	q.list = q.list[:len(q.list)-1]
	return last
}

// next is the number whose fine value is the largest, above a floor; false where there is
// none.
func (q *queue) next(floor float64, fine func(number int) (float64, error)) (number int, bound float64, found bool, err error) {
	for len(q.list) > 0 && q.list[0].bound > floor {
		if top := q.list[0]; top.fine {
			heap.Pop(q)
			return top.number, top.bound, true, nil
		}
		top := &q.list[0]
		value, err := fine(top.number)
		if err != nil {
			return 0, 0, false, err
		}
		top.bound, top.fine = min(top.bound, value), true
		heap.Fix(q, 0)
	}
	return 0, 0, false, nil
}
