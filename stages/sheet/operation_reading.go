package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// operationSupports are the places of supports with their reactions and what the
// gauges must show at rest: a table for situations that rest alike.
func (a *author) operationSupports(stage stages.StageRecord) []block {
	var blocks []block
	before := ""
	for i := range stage.Situations {
		if featuresOf(stage).stresses {
			break // the page is for the tables of stressing
		}
		if f := a.elevation(stage, i); f.svg != before {
			before = f.svg
			blocks = append(blocks, part{name: "drawn", blocks: []block{drawings{[]figure{f}}}})
		}
	}
	list := restingAlike(stage)
	for _, of := range list {
		if len(list) == 1 {
			of.names = ""
		}
		blocks = append(append(blocks, part{name: "readings", blocks: []block{a.readings(of)}}), a.slings(of.situation.Reactions)...)
	}
	return append(blocks, a.readingWords(stage)...)
}

// readings is the table of the supports of a situation, body by body: the forces for each
// use, the bands of readings at rest, and room to write.
func (a *author) readings(of resting) block {
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	x := a.units.aligned(formula.Metre)
	g := grid{open: true, columns: columnsOf("Support", ">x "+length, ">y "+length, ">z "+length,
		">static "+unit+" min", ">max", ">char. "+unit+" min", ">max", ">ULS "+unit+" min", ">max", ">go on within", "Read "+unit, "Share %")}
	if of.names != "" {
		g.caption = words(of.names)
	}
	s := of.situation
	total := func(name string, r stages.Range) {
		least, most := a.forces(r)
		g.rows = append(g.rows, []prose{bold(name), nil, nil, nil, bold(least), bold(most), nil, nil, nil, nil, bold(a.totalBand(r)), nil, nil})
	}
	for k, r := range s.Reactions {
		rest, most := a.forces(r.Static)
		least, high := a.forces(r.Characteristic)
		low, ultimate := a.forces(r.Ultimate)
		g.rows = append(g.rows, row(supportName(k, r), x.text(r.X), x.text(r.Y), x.text(r.Z), rest, most, least, high, low, ultimate, shareBand(r), "", ""))
		if last := k+1 == len(s.Reactions) || s.Reactions[k+1].Body != r.Body; last && r.Body > 0 && r.Body <= len(s.Bodies) {
			b := s.Bodies[r.Body-1]
			total("total of "+strings.Join(b.Elements, ", "), b.Total)
		}
	}
	if len(s.Bodies) == 0 {
		total("total", s.Total)
	}
	return g
}

// gaugeAccuracy is how far a reading may be off for the bands of the sheet, a fraction of
// the reading: gauges and load cells of class 1.
const gaugeAccuracy = 0.01

// totalBand is the band of the measured total: the range at rest and the accuracy of the
// gauges, rounded inwards.
func (a *author) totalBand(r stages.Range) string {
	unit := a.units.in(formula.Newton)
	wide := stages.Range{Least: r.Least - gaugeAccuracy*math.Abs(r.Least), Most: r.Most + gaugeAccuracy*math.Abs(r.Most)}
	return inwards(wide, unit.factor, figures-1-magnitude(unit.factor*wide.Most)) + " " + unit.unit
}

// shareBand is the band of a share of the measured total of its body in per cent: the
// range at rest, and one gauge high while the others are low, rounded inwards. A bounded
// reaction has none: nothing says how the supports share.
func shareBand(r stages.Reaction) string {
	switch {
	case r.Bounded:
		return "no measuring band"
	case r.Share == nil:
		return none
	}
	off := func(share, error float64) float64 { // share·(1 + e) of a total share·(1 + e) + (1 − share)·(1 − e)
		return share + 2*error*math.Abs(share*(1-share))/(1+error*(2*share-1))
	}
	return inwards(stages.Range{Least: off(r.Share.Least, -gaugeAccuracy), Most: off(r.Share.Most, gaugeAccuracy)}, 100, 1) + " %"
}

// magnitude is the power of ten of a number; that of 1 for nothing.
func magnitude(value float64) int {
	if math.Abs(value) < least {
		return 0
	}
	return int(math.Floor(math.Log10(math.Abs(value))))
}

// inwards are both ends of a band times a factor, with so many decimals: the least value
// rounded up and the most value down, with more decimals where nothing would be left
// between them.
func inwards(r stages.Range, factor float64, decimals int) string {
	for decimals = min(max(0, decimals), mostDigits); ; decimals++ {
		scale := math.Pow(10, float64(decimals))
		low, high := up(r.Least*factor*scale)/scale, down(r.Most*factor*scale)/scale
		if low <= high || decimals >= mostDigits {
			text := func(v float64) string { return minus(strconv.FormatFloat(v, 'f', decimals, 64)) }
			return text(low) + " to " + text(high)
		}
	}
}

// readingWords say what each reaction is for and how readings are compared.
func (a *author) readingWords(stage stages.StageRecord) []block {
	use := "Static: at rest. Char.: characteristic, with the dynamic factor and all actions, against rated capacities and working load limits. ULS: for ground, concrete and stacks. " +
		"Reactions + upwards; x along, y to the left looking along +x, z up."
	if i := slices.IndexFunc(stage.Situations, suspended); i >= 0 {
		use += fmt.Sprintf(" The dynamic factor, × %s, acts below the hook: it is in the characteristic and ULS reactions, not in the static ones. "+
			"A chart that contains a hoisting factor is entered with the static maximum, another with the characteristic one, each with the lifting gear.", coveredRange(stage.Situations[i].Dynamic))
	}
	read := "at rest, first the total, then each share of the measured total. Go on only if total and every share are within their bands. " +
		"The bands include ± 1 % for the gauges; accuracy of those used: ± ______ % (must be 1 % or better)."
	if slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return len(s.Bodies) > 0 }) {
		read += " With several bodies, a share is of the total of its own body."
	}
	if slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool {
		return slices.ContainsFunc(s.Reactions, func(r stages.Reaction) bool { return r.Bounded })
	}) {
		read += " A bounded reaction has no measuring band: nothing says how the supports share."
	}
	return []block{paragraph{bold("Readings: ").and(plain, read)}, paragraph{prose{{faint, use}}}}
}

// tilts are the differences of level that the calculation covers, rounded down, with room
// for what is measured.
func (a *author) tilts(s stages.SituationRecord) [][2]string {
	var pairs [][2]string
	add := func(words string, difference float64) {
		if difference > 0 {
			unit, factor, decimals := a.inSmall()
			scale := math.Pow(10, float64(decimals))
			pairs = append(pairs, [2]string{words + " ≤ " + trimmed(down(difference*factor*scale)/scale, decimals) + " " + unit, ""})
		}
	}
	along, across := spread(s.Supports)
	add("Level difference along, over "+a.units.place(along)+",", math.Abs(s.Gradient)*along)
	add("Level difference across, over "+a.units.place(across)+",", math.Abs(s.Roll)*across)
	add("One support out of the plane of the others", s.OutOfLevel)
	if len(pairs) == 0 {
		return [][2]string{{"Levels of the supports, permissible difference", ""}}
	}
	return pairs
}

// spread are the distances of the outermost supports along and across (m).
func spread(supports []stages.Support) (along, across float64) {
	if len(supports) == 0 {
		return 0, 0
	}
	least, most := supports[0], supports[0]
	for _, p := range supports {
		least.X, least.Y = math.Min(least.X, p.X), math.Min(least.Y, p.Y)
		most.X, most.Y = math.Max(most.X, p.X), math.Max(most.Y, p.Y)
	}
	return most.X - least.X, most.Y - least.Y
}

// resting is situations with the same supports and reactions.
type resting struct {
	names     string
	situation stages.SituationRecord
}

// restingAlike are the situations of a stage; those after one another on the same
// supports with the same reactions are one.
func restingAlike(stage stages.StageRecord) []resting {
	var list []resting
	for i, s := range stage.Situations {
		name := numbered(stage, i) + " " + s.Name
		if n := len(list); n > 0 && list[n-1].situation.Total == s.Total && slices.EqualFunc(s.Reactions, list[n-1].situation.Reactions, sameReaction) {
			list[n-1].names += "; " + name
			continue
		}
		list = append(list, resting{name, s})
	}
	return list
}

func sameReaction(r, other stages.Reaction) bool {
	if (r.Share == nil) != (other.Share == nil) || r.Share != nil && *r.Share != *other.Share {
		return false
	}
	r.Share, other.Share = nil, nil
	return r == other
}
