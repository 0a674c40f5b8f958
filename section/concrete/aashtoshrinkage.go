package concrete

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Shrinkage is εsh at an age, from the end of curing on, by 5.4.2.3.3 of the model's
// edition; the standard does not separate drying from hydration. Moist curing of less
// than 5 days raises it by 20 %. Confirm against the edition in force.
func (c AASHTO) Shrinkage(age float64) (Shrinkage, error) {
	if err := c.checkShrinkage(age); err != nil {
		return Shrinkage{}, err
	}
	t, h, vs := c.Exposure.drying(age), 100*c.Exposure.Humidity, c.volumeToSurface()
	if c.Edition == UpTo2004 {
		half, ultimate := c.older()
		size := sizeRatio(t, vs) * (1064 - 94*vs) / 923
		return Shrinkage{Total: c.early() * size * olderHumidity(h) * t / (half + t) * ultimate}, nil
	}
	return Shrinkage{Total: c.early() * c.size() * (2 - 0.014*h) * c.strengthFactor() * c.development(t) * 0.48e-3}, nil
}

func (c AASHTO) checkShrinkage(age float64) error {
	if err := c.checkTime(); err != nil {
		return err
	}
	return checkAge(age)
}

// early is 1.2 for concrete that dries before 5 days of moist curing.
func (c AASHTO) early() float64 {
	if c.Accelerated == 0 && c.Exposure.DryingFrom < 5 {
		return 1.2
	}
	return 1
}

// older are the half-time (d) and the ultimate strain of the editions up to
// 2004, for moist and for steam curing.
func (c AASHTO) older() (half, ultimate float64) {
	if c.Accelerated > 0 {
		return 55, 0.56e-3
	}
	return 35, 0.51e-3
}

// olderHumidity is kh of the editions up to 2004.
func olderHumidity(h float64) float64 { return math.Min((140-h)/70, 3*(100-h)/70) }

// ShrinkageLines derive the strain at an age; see [AASHTO.Shrinkage].
func (c AASHTO) ShrinkageLines(age float64) ([]formula.Line, error) {
	if err := c.checkShrinkage(age); err != nil {
		return nil, err
	}
	k := &chain{source: c.source}
	rh, time := c.Exposure.humidity(), c.Exposure.dryingTime(age)
	early := formula.Q("k_e", c.early(), formula.One, "1.2 for moist curing of less than 5 days, 5.4.2.3.3")
	if c.Edition == UpTo2004 {
		half, ultimate := c.older()
		size := k.number("k_s", "effect of volume to surface", "(45 + t_d)/(26*exp(0.36*V_S) + t_d)*(1064 - 94*V_S)/923", "5.4.2.3.3", time, c.surface())
		humidity := k.number("k_h", "effect of humidity", "min((140 - 100*RH)/70, 3*(100 - 100*RH)/70)", "5.4.2.3.3", rh)
		k.number("ε_sh", "shrinkage", "k_e*k_s*k_h*t_d/(T_h + t_d)*ε_u", "5.4.2.3.3", early, size, humidity, time,
			formula.Q("T_h", half, formula.Day, "half-time"), formula.Q("ε_u", ultimate, formula.One, "ultimate strain"))
		return k.lines, k.err
	}
	size, strength := c.factorLines(k)
	humidity := k.number("k_hs", "effect of humidity", "2 - 0.014*100*RH", "5.4.2.3.3", rh)
	growth := c.developmentLine(k, time)
	k.number("ε_sh", "shrinkage", "k_e*k_s*k_hs*k_f*k_td*0.48e-3", "5.4.2.3.3", early, size, humidity, strength, growth)
	return k.lines, k.err
}
