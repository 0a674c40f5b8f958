package stages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Creep and shrinkage are those of the element's own concrete: another one is
// refused, one that is a class off is said.
func TestLongTermIsOfTheSameConcrete(t *testing.T) {
	slow := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassN, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3, DryingFrom: 2}}
	remark := func(fck float64) (string, error) {
		e := bare()
		e.Concrete, slow.Fck = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassN}, fck
		e.LongTerm = slow
		r, err := stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11)}}.Run(e, limits.EN1992{})
		return strings.Join(r.NotChecked, "\n"), err
	}
	_, err := remark(25e6)
	require.ErrorIs(t, err, stages.ErrStage)
	require.ErrorContains(t, err, "Element.LongTerm has a characteristic strength of 25.0 MPa at 28 d, Element.Concrete of 50.0 MPa: must be the same concrete")
	words, err := remark(45e6)
	require.NoError(t, err)
	require.Contains(t, words, "are those of a concrete with a characteristic strength of 45.0 MPa at 28 d; its stresses are checked with one of 50.0 MPa")
	words, err = remark(50e6)
	require.NoError(t, err)
	require.NotContains(t, words, "are those of a concrete")
}

// A tendon that is never stressed is said: its duct weakens, its force is not there.
func TestWhatIsNeverStressedIsSaid(t *testing.T) {
	e := bare(straight("T", 0, 12, 0, 0.2), straight("U", 0, 12, 0, 0.6))
	r := run(t, e, stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}}})
	words := strings.Join(r.NotChecked, "\n")
	require.Contains(t, words, "tendon U: no stage stresses it, its duct is a hole and its force is left out of every stress")
	require.NotContains(t, words, "tendon T:")
}

// Many of them are one line with their number.
func TestManyThatAreNeverStressedAreOneLine(t *testing.T) {
	said := func(marks ...string) (lines []string) {
		tendons := []tendon.Tendon{straight("T", 0, 12, 0, 0.2)}
		for i, mark := range marks {
			tendons = append(tendons, straight(mark, 0, 12, 0, 0.3+0.1*float64(i)))
		}
		r := run(t, bare(tendons...), stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}}})
		for _, words := range r.NotChecked {
			if strings.Contains(words, "no stage stresses") {
				lines = append(lines, words)
			}
		}
		return lines
	}
	const why = ": no stage stresses them, their ducts are holes and their forces are left out of every stress"
	require.Equal(t, []string{"tendons U, V" + why}, said("U", "V"))
	require.Equal(t, []string{"tendons U, V, W" + why}, said("U", "V", "W"))
	require.Equal(t, []string{"tendons U, V and 2 more" + why}, said("U", "V", "W", "X"))
}
