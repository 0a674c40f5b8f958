package sheet

import (
	"math"
	"strconv"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// characteristicTotal is the total at rest with the dynamic factor; false where another
// action is vertical, whose part is not in the record.
func characteristicTotal(s stages.SituationRecord, total stages.Range) (stages.Range, bool) {
	for _, l := range s.Loads {
		if l.Force != 0 && l.Direction == string(stages.Down) {
			return stages.Range{}, false
		}
	}
	return stages.Range{Least: total.Least * s.Dynamic.Least, Most: total.Most * s.Dynamic.Most}, true
}

// nominalTotal is the sum of the nominal reactions of a body, without the unit.
func (a *author) nominalTotal(s stages.SituationRecord, body int) string {
	return a.gauge(totalOf(s, body), math.Round)
}

func totalOf(s stages.SituationRecord, body int) float64 {
	sum := 0.0
	for _, r := range s.Reactions {
		if r.Body == body {
			sum += r.Nominal
		}
	}
	return sum
}

// shareForces is the band of a share at the nominal total of its body, rounded inwards.
func (a *author) shareForces(s stages.SituationRecord, r stages.Reaction) string {
	if r.Bounded || r.Share == nil || alone(r) {
		return none
	}
	total := totalOf(s, r.Body) * a.units.in(formula.Newton).factor
	low, high, _ := inwardsOf(shareRange(r), 100, 1)
	return inwards(stages.Range{Least: math.Min(low*total, high*total), Most: math.Max(low*total, high*total)}, 0.01, a.gaugeDecimals(high*total/100))
}

// gauge is a force as a gauge shows it, without its unit: no decimals from 100 on, four
// figures below.
func (a *author) gauge(value float64, cut func(float64) float64) string {
	v := value * a.units.in(formula.Newton).factor
	if math.Abs(v) >= 100 && math.Abs(v) < 1e15 {
		return minus(strconv.FormatFloat(cut(v), 'f', 0, 64))
	}
	return rounded(v, figures, cut)
}

// gauged are both ends of a range as a gauge shows them, rounded outwards.
func (a *author) gauged(r stages.Range) (least, most string) {
	return a.gauge(r.Least, down), a.gauge(r.Most, up)
}

// gaugeDecimals are the decimals of forces of that size in the unit of the sheet.
func (a *author) gaugeDecimals(size float64) int {
	if math.Abs(size) >= 100 {
		return 0
	}
	return figures - 1 - magnitude(size)
}

// gaugeAccuracy is how far a reading may be off for the bands of the sheet, a fraction of
// the reading: gauges and load cells of class 1.
const gaugeAccuracy = 0.01

// totalBand is the band of the measured total: the range at rest and the accuracy of the
// gauges, rounded inwards.
func (a *author) totalBand(r stages.Range) string {
	unit := a.units.in(formula.Newton)
	wide := stages.Range{Least: r.Least - gaugeAccuracy*math.Abs(r.Least), Most: r.Most + gaugeAccuracy*math.Abs(r.Most)}
	return inwards(wide, unit.factor, a.gaugeDecimals(unit.factor*wide.Most)) + " " + unit.unit
}

// shareBand is the band of a share of the measured total of its body in per cent: the
// range at rest, and one gauge high while the others are low, rounded inwards. A bounded
// reaction has none: nothing says how the supports share.
func shareBand(r stages.Reaction) string {
	switch {
	case r.Bounded:
		return "no measuring band"
	case r.Share == nil || alone(r):
		return none
	}
	return inwards(shareRange(r), 100, 1) + " %"
}

// alone is true for a support that carries all of its body: its share says nothing.
func alone(r stages.Reaction) bool {
	return r.Share != nil && math.Abs(r.Share.Least-1) < 1e-9 && math.Abs(r.Share.Most-1) < 1e-9
}

// shareRange is the range of a share that the gauges may show, a fraction.
func shareRange(r stages.Reaction) stages.Range {
	off := func(share, error float64) float64 { // share·(1 + e) of a total share·(1 + e) + (1 − share)·(1 − e)
		return share + 2*error*math.Abs(share*(1-share))/(1+error*(2*share-1))
	}
	return stages.Range{Least: off(r.Share.Least, -gaugeAccuracy), Most: off(r.Share.Most, gaugeAccuracy)}
}

// magnitude is the power of ten of a number; that of 1 for nothing.
func magnitude(value float64) int {
	if math.Abs(value) < least {
		return 0
	}
	return int(math.Floor(math.Log10(math.Abs(value))))
}

// inwards are both ends of a band times a factor in words, see [inwardsOf].
func inwards(r stages.Range, factor float64, decimals int) string {
	low, high, decimals := inwardsOf(r, factor, decimals)
	text := func(v float64) string { return minus(strconv.FormatFloat(v, 'f', decimals, 64)) }
	return text(low) + " to " + text(high)
}

// inwardsOf are both ends of a band times a factor, with so many decimals: the least value
// rounded up and the most value down, with more decimals where nothing would be left
// between them.
func inwardsOf(r stages.Range, factor float64, decimals int) (low, high float64, used int) {
	for decimals = min(max(0, decimals), mostDigits); ; decimals++ {
		scale := math.Pow(10, float64(decimals))
		low, high = up(r.Least*factor*scale)/scale, down(r.Most*factor*scale)/scale
		if low <= high || decimals >= mostDigits {
			return low, high, decimals
		}
	}
}
