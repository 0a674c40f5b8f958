package tendon_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
)

// ψ of AASHTO LRFD relates to the modulus at loading: so does the creep of the
// simplified loss, which then lies near the stepwise one.
func TestSimplifiedTakesTheModulusOfItsCreep(t *testing.T) {
	const ksi = 6.894757293168361e6
	s := tendon.Sustained{
		Concrete: concrete.AASHTO{Strength: 8 * ksi, TransferStrength: 4.8 * ksi, Cement: concrete.TypeI, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.2032}},
		From:     2, To: 20000, Area: 0.7, Inertia: 0.2, Distance: 0.5, Stress: 8e6,
		TendonArea: 5e-3, TendonModulus: 196.5e9, TendonStress: 1300e6, TensileStrength: 1860e6, Relaxation: tendon.Class2,
	}
	l, err := s.Simplified()
	require.NoError(t, err)
	steps, err := s.Stepwise(200)
	require.NoError(t, err)
	require.InEpsilon(t, steps.Creep, l.Creep, 0.05, "two approximations of one thing, as for EN 1992-1-1")
	psi, err := s.Concrete.Creep(20000, 2)
	require.NoError(t, err)
	young, err := s.Concrete.At(2)
	require.NoError(t, err)
	old, err := s.Concrete.At(28)
	require.NoError(t, err)
	stiffening := 5e-3 * (1/0.7 + 0.25/0.2)
	want := 196.5e9 / young.Modulus * psi * 8e6 / (1 + stiffening*196.5e9*(1/old.Modulus+0.8*psi/young.Modulus))
	require.InEpsilon(t, want, l.Creep, 1e-12)
	lines, err := s.Lines()
	require.NoError(t, err)
	value, err := lines[0].Recompute()
	require.NoError(t, err)
	require.InEpsilon(t, l.Total(), value, 1e-12)
}
