package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Creep is ψ(age, loaded) by 5.4.2.3.2 of the model's edition; a day of
// accelerated curing counts as seven in the age at loading. It depends on the
// specified strengths, not on Tests; the modulus to which it relates does. Confirm against the
// edition in force.
func (c AASHTO) Creep(age, loaded float64) (float64, error) {
	if err := c.checkCreep(age, loaded); err != nil {
		return 0, err
	}
	t, ti := age-loaded, c.maturity(loaded)
	h, vs := 100*c.Exposure.Humidity, c.volumeToSurface()
	if c.Edition == UpTo2004 {
		strength := 1 / (0.67 + c.Strength/ksi/9)
		growth := math.Pow(t, 0.6) / (10 + math.Pow(t, 0.6))
		size := sizeRatio(t, vs) * (1.80 + 1.77*math.Exp(-0.54*vs)) / 2.587
		return 3.5 * size * strength * (1.58 - h/120) * math.Pow(ti, -0.118) * growth, nil
	}
	return 1.9 * c.size() * (1.56 - 0.008*h) * c.strengthFactor() * c.development(t) * math.Pow(ti, -0.118), nil
}

func (c AASHTO) checkCreep(age, loaded float64) error {
	if err := c.checkTime(); err != nil {
		return err
	}
	if err := checkLoading(age, loaded); err != nil {
		return err
	}
	if c.maturity(loaded) < 0.5 {
		return fmt.Errorf("%w: loaded = %g d: must have a maturity of 0.5 d or more", ErrConcrete, loaded)
	}
	return nil
}

func (c AASHTO) checkTime() error {
	if err := c.check(); err != nil {
		return err
	}
	if err := c.Exposure.check(0.4); err != nil {
		return err
	}
	if vs := c.volumeToSurface(); vs > 6 {
		return fmt.Errorf("%w: Exposure.NotionalSize = %g m, volume to surface %.2f in: must be up to 6 in (0.3048 m; AASHTO LRFD C5.4.2.3.2)", ErrConcrete, c.Exposure.NotionalSize, vs)
	}
	return nil
}

// volumeToSurface is V/S in inches.
func (c AASHTO) volumeToSurface() float64 { return c.Exposure.NotionalSize / 2 / inch }

// maturity is ti (d): a day of accelerated curing counts as seven.
func (c AASHTO) maturity(loaded float64) float64 { return loaded + 6*math.Min(loaded, c.Accelerated) }

// size is ks.
func (c AASHTO) size() float64 { return math.Max(1, 1.45-0.13*c.volumeToSurface()) }

// strengthFactor is kf.
func (c AASHTO) strengthFactor() float64 { return 5 / (1 + c.transfer()/ksi) }

// development is ktd after t days.
func (c AASHTO) development(t float64) float64 {
	fci := c.transfer() / ksi
	if c.Edition == From2015 {
		return t / (12*(100-4*fci)/(fci+20) + t)
	}
	return t / (61 - 4*fci + t)
}

// sizeRatio is [t/(26·e^(0.36 V/S) + t)]/[t/(45 + t)] of the editions up to 2004.
func sizeRatio(t, vs float64) float64 { return (45 + t) / (26*math.Exp(0.36*vs) + t) }

// CreepModulus is the modulus at loading, Ec(loaded) (Pa): ψ is a ratio to the
// strain at loading. AASHTO LRFD 5.4.2.3.2.
func (c AASHTO) CreepModulus(loaded float64) (float64, error) {
	state, err := c.At(loaded)
	return state.Modulus, err
}

// CreepUnder is ψ under a compressive stress (Pa). The standard has no rule
// beyond the linear range: above 0.45·f′c(loaded), the bound of EN 1992-1-1
// 3.1.4(4), it is an error.
func (c AASHTO) CreepUnder(age, loaded, stress float64) (float64, error) {
	creep, err := c.Creep(age, loaded)
	if err == nil {
		err = checkStress(stress)
	}
	if err != nil {
		return 0, err
	}
	state, err := c.At(loaded)
	if err != nil {
		return 0, err
	}
	if stress > 0.45*state.Characteristic {
		return 0, fmt.Errorf("%w: stress = %g Pa at %g d: must be up to 0.45·f′c(t) = %.4g Pa: AASHTO LRFD has no creep beyond the linear range", ErrConcrete, stress, loaded, 0.45*state.Characteristic)
	}
	return creep, nil
}

// CreepLines derive ψ(age, loaded); see [AASHTO.Creep].
func (c AASHTO) CreepLines(age, loaded float64) ([]formula.Line, error) {
	if err := c.checkCreep(age, loaded); err != nil {
		return nil, err
	}
	k := &chain{source: c.source}
	rh, time := c.Exposure.humidity(), underLoad(age, loaded)
	ti := formula.Q("t_i", c.maturity(loaded), formula.Day, fmt.Sprintf("maturity at loading, age %g d", loaded))
	if c.Edition == UpTo2004 {
		size := k.number("k_c", "effect of volume to surface", "(45 + t_l)/(26*exp(0.36*V_S) + t_l)*(1.80 + 1.77*exp(-0.54*V_S))/2.587", "5.4.2.3.2", time, c.surface())
		strength := k.number("k_f", "effect of strength", "1/(0.67 + f_c/6.894757293168361e6/9)", "5.4.2.3.2", c.specified())
		k.number("ψ", "creep coefficient", "3.5*k_c*k_f*(1.58 - 100*RH/120)*pow(t_i, -0.118)*pow(t_l, 0.6)/(10 + pow(t_l, 0.6))", "5.4.2.3.2", size, strength, rh, ti, time)
		return k.lines, k.err
	}
	size, strength := c.factorLines(k)
	humidity := k.number("k_hc", "effect of humidity", "1.56 - 0.008*100*RH", "5.4.2.3.2", rh)
	growth := c.developmentLine(k, time)
	k.number("ψ", "creep coefficient", "1.9*k_s*k_hc*k_f*k_td*pow(t_i, -0.118)", "5.4.2.3.2", size, humidity, strength, growth, ti)
	return k.lines, k.err
}

func (c AASHTO) surface() formula.Quantity {
	return formula.Q("V_S", c.volumeToSurface(), formula.One, "volume to surface in inches, h0/2")
}

// factorLines are ks and kf.
func (c AASHTO) factorLines(k *chain) (size, strength formula.Quantity) {
	size = k.number("k_s", "effect of volume to surface", "max(1, 1.45 - 0.13*V_S)", "5.4.2.3.2", c.surface())
	strength = k.number("k_f", "effect of strength", "5/(1 + f_ci/6.894757293168361e6)", "5.4.2.3.2", c.transferStrength())
	return size, strength
}

// developmentLine is ktd.
func (c AASHTO) developmentLine(k *chain, time formula.Quantity) formula.Quantity {
	expression := "T/(12*(100 - 4*f_ci/6.894757293168361e6)/(f_ci/6.894757293168361e6 + 20) + T)"
	if c.Edition != From2015 {
		expression = "T/(61 - 4*f_ci/6.894757293168361e6 + T)"
	}
	return k.number("k_td", "development with time", expression, "5.4.2.3.2", renamed(time, "T", time.Name), c.transferStrength())
}
