package formula_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

// The result of a line is an operand of the next; the first error is kept, and no line
// is given with it.
func TestChain(t *testing.T) {
	var c formula.Chain
	w := c.Given(formula.Q("w", 3, formula.NewtonPerMetre, "line load"), formula.Mechanics, "weighed")
	m := c.Derive(formula.Q("M", 99, formula.NewtonMetre, "moment"), "w*l*l/8", formula.Mechanics, w, formula.Q("l", 4, formula.Metre, "span"))
	require.Equal(t, 6.0, m.Value)
	c.Note("at midspan")
	lines, err := c.Lines()
	require.NoError(t, err)
	require.Len(t, lines, 2)
	require.Equal(t, "weighed", lines[0].Note)
	require.Equal(t, "at midspan", lines[1].Note)
	require.Equal(t, 6.0, lines[1].Result.Value)
	zero := c.Derive(formula.Q("r", 1, formula.One, "ratio"), "M/0", formula.Mechanics, m)
	require.Zero(t, zero.Value)
	c.Derive(formula.Q("s", 1, formula.One, "after an error"), "2*3", formula.Mechanics)
	c.Note("lost")
	c.Given(w, formula.Mechanics, "")
	lines, err = c.Lines()
	require.ErrorIs(t, err, formula.ErrExpression)
	require.ErrorContains(t, err, "of r")
	require.Nil(t, lines)
}
