package stages

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A set of supports is possible where some factors leave none acting against its
// sense: the same factor everywhere, unlike factors of two weights only, or a part of
// an action that is neither absent nor there in full.
func TestASetIsPossibleWhereSomeFactorsAllowIt(t *testing.T) {
	pads := &arrangement{supports: []Support{{}, {X: 1}}}
	ties := &arrangement{supports: []Support{{}, {X: 1, Role: Tie}}}
	within := func(least, most float64) Range { return Range{Least: least, Most: most} }
	fixed := func(a, b float64) sharedTerm { return sharedTerm{vertical: []float64{a, b}} }
	under := func(factor int, a, b float64) sharedTerm {
		return sharedTerm{vertical: []float64{a, b}, factors: []int{factor}}
	}
	for name, c := range map[string]struct {
		of     shared
		expect bool
	}{
		"both push":                              {shared{of: pads, terms: []sharedTerm{fixed(3, 1)}}, true},
		"one pulls":                              {shared{of: pads, terms: []sharedTerm{fixed(3, -1)}}, false},
		"one pulls, and is a tie":                {shared{of: ties, terms: []sharedTerm{fixed(3, -1)}}, true},
		"a tie pushes":                           {shared{of: ties, terms: []sharedTerm{fixed(3, 1)}}, false},
		"under a large action":                   {shared{of: pads, ranges: []Range{within(0, 2)}, terms: []sharedTerm{fixed(3, -1), under(0, 0, 1)}}, true},
		"under an action too small":              {shared{of: pads, ranges: []Range{within(0, 0.9)}, terms: []sharedTerm{fixed(3, -1), under(0, 0, 1)}}, false},
		"two weights with unlike errors":         {shared{of: pads, ranges: []Range{within(0.9, 1.1), within(0.9, 1.1)}, terms: []sharedTerm{under(0, 0, 9), under(1, 9, -10)}}, true},
		"two weights without error":              {shared{of: pads, ranges: []Range{within(1, 1.01), within(1, 1.01)}, terms: []sharedTerm{under(0, 0, 9), under(1, 9, -10)}}, false},
		"a part of an action, neither end":       {shared{of: pads, ranges: []Range{within(0, 1)}, terms: []sharedTerm{fixed(1, -1), under(0, -2.5, 3)}}, true},
		"no part of an action":                   {shared{of: pads, ranges: []Range{within(0, 1)}, terms: []sharedTerm{fixed(1, -1), under(0, -4, 3)}}, false},
		"a factor that multiplies another":       {shared{of: pads, ranges: []Range{within(0.8, 1.2), within(0, 1)}, terms: []sharedTerm{fixed(5, -1.1), {vertical: []float64{0, 1}, factors: []int{0, 1}}}}, true},
		"more factors than are tried are let be": {shared{of: pads, ranges: make([]Range, mostFree+1), terms: []sharedTerm{fixed(3, -1)}}, true},
	} {
		c.of.size = 9
		require.Equal(t, c.expect, c.of.possible([]int{0, 1}), name)
	}
}
