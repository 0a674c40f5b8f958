package section

import "sync/atomic"

// kept is what was found of a Shape, for all copies of it: a Shape never changes.
// It may be asked by several goroutines; those that ask first at once each find
// the same.
type kept struct {
	properties found[Properties]
	torsion    found[Torsion]
	walls      found[Walls]
	ways       found[Ways]
	sectorial  found[Sectorial]
}

// found is a result, once it was asked for.
type found[T any] struct{ atomic.Pointer[result[T]] }

type result[T any] struct {
	value T
	err   error
}

// keep is the result that is kept at a place, found at the first call; a Shape
// that keeps nothing finds it anew.
func keep[T any](s Shape, place func(*kept) *found[T], find func(Shape) (T, error)) (T, error) {
	if s.kept == nil {
		return find(s)
	}
	at := place(s.kept)
	r := at.Load()
	if r == nil {
		value, err := find(s)
		r = &result[T]{value, err}
		at.Store(r)
	}
	return r.value, r.err
}
