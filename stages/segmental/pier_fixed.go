package segmental

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// bent are measures: the out-of-balance moment to both sides; of a pier that is built in, with
// the transverse moment that acts at once added to it, in full.
func (k pierCase) bent() (list []func(Resultant) float64) {
	for _, along := range [2]float64{-1, 1} {
		if k.Rows > 0 {
			list = append(list, func(r Resultant) float64 { return along * r.Along })
			continue
		}
		for _, across := range [2]float64{-1, 1} {
			list = append(list, func(r Resultant) float64 { return along*r.Along + across*r.Across })
		}
	}
	return list
}

// moment is the check of the out-of-balance moment against its permissible value, in every
// combination: of arms alike only the one for equilibrium by EN has a moment.
func (k pierCase) moment(c combination) ([]ruledCheck, error) {
	if k.Moment == 0 {
		return nil, nil
	}
	measures := k.bent()
	e := Extreme{Value: math.Inf(-1)}
	for _, m := range measures {
		if at := k.balance.most(c, m); at.Value > e.Value {
			e = at
		}
	}
	chain := &formula.Chain{}
	k.vertical(chain, c, e)
	m, kind, place := k.along(chain, c, e), limits.Kind(""), "pier "+k.Mark
	demand := pierMoment("M_max", 0, "out-of-balance moment, without sign")
	if k.Rows > 0 {
		demand = chain.Derive(demand, "abs(M)", formula.Mechanics, m)
	} else {
		kind, place = limits.Overturning, fmt.Sprintf("pier %s, built in at x = %.2f m", k.Mark, k.At)
		demand.Name = "out-of-balance moment and the transverse one at once, added"
		demand = chain.Derive(demand, "abs(M) + abs(M_y)", formula.Mechanics, m, k.across(chain, c, e))
	}
	source := formula.Source{Document: k.Document}
	permissible := chain.Given(pierMoment("M_perm", k.Moment, "permissible moment of the pier and its fixing"), source, "")
	limit := limits.Limit{Kind: kind, Name: c.titled("out-of-balance moment of pier " + k.Mark), LimitState: c.forces(), Sense: limits.AtMost, Source: source, Line: formula.Given(permissible, source)}
	note := fmt.Sprintf("%s; at once: %s", k.note(c, e), k.atOnce(e))
	check, err := k.made(limit, demand, place, note, chain)
	return []ruledCheck{{check, linearLimit{c, measures, k.Moment, formula.NewtonMetre}}}, err
}

// atOnce is what acts together in an extreme, in words.
func (k pierCase) atOnce(e Extreme) string {
	words := fmt.Sprintf("V = %.0f kN, M along = %.0f kN·m, M across = %.0f kN·m", e.Vertical/1e3, e.Along/1e3, e.Across/1e3)
	if k.balance.Yaw > 0 {
		words += fmt.Sprintf(", M about the vertical = ±%.0f kN·m", math.Ceil(k.balance.Yaw/1e3))
	}
	if k.balance.Transverse > 0 {
		words += fmt.Sprintf(", force across = ±%.0f kN at z = %.2f m", math.Ceil(k.balance.Transverse/1e3), k.balance.Level)
	}
	return words
}

// open are the questions that a document must answer.
func (k pierCase) open() (list []stages.OwnCheck) {
	ask := func(name, what string) {
		list = append(list, stages.OwnCheck{Check: stages.Check{Kind: limits.LocalForce, Name: name, State: stages.NotEvaluated, Sense: limits.AtMost, X: k.At,
			Place: fmt.Sprintf("pier %s at x = %.2f m", k.Mark, k.At), Note: what + "; " + string(k.rule)}})
	}
	if len(k.combinations) < 2 {
		c := stages.Check{Kind: limits.Overturning, Name: "equilibrium of the cantilever on pier " + k.Mark, State: stages.NotEvaluated, Sense: limits.AtMost, X: k.At, Note: "the standard gives no factors for equilibrium; " + string(k.rule)}
		list = append(list, stages.OwnCheck{Check: c})
	}
	if k.Rows > 0 && k.Row == 0 {
		ask("rows of bearings of pier "+k.Mark, "force of a row without the preload of ties: "+k.each(k.rowRange))
	}
	if k.Moment == 0 {
		name := "pier " + k.Mark + " and its footing"
		if k.Rows == 0 {
			name = "fixing of the deck, pier " + k.Mark + " and its footing"
		}
		ask(name, k.each(k.resultantRange))
	}
	if sideways := k.sideways(); sideways != "" {
		ask("transverse moment and yaw at pier "+k.Mark, sideways)
	}
	return list
}

// each are the words of every combination.
func (k pierCase) each(of func(combination) string) string {
	var list []string
	for _, c := range k.combinations {
		list = append(list, c.name+": "+of(c))
	}
	return strings.Join(list, "; ")
}

func (k pierCase) rowRange(c combination) string {
	_, low := k.worst(c, k.lifted)
	_, high := k.worst(c, k.pressed)
	return fmt.Sprintf("%.0f to %.0f kN", math.Floor(-low.Value/1e3), math.Ceil(high.Value/1e3))
}

// resultantRange are the extremes of each part of the resultant, with what acts at once.
func (k pierCase) resultantRange(c combination) string {
	var list []string
	for _, of := range []struct {
		words   string
		measure func(Resultant) float64
	}{
		{"M along", func(r Resultant) float64 { return r.Along }}, {"M across", func(r Resultant) float64 { return r.Across }}, {"V", func(r Resultant) float64 { return r.Vertical }},
	} {
		if of.words == "M across" && !k.bends() {
			continue
		}
		high := k.balance.most(c, of.measure)
		low := k.balance.most(c, func(r Resultant) float64 { return -of.measure(r) })
		list = append(list, fmt.Sprintf("%s max (%s), min (%s)", of.words, k.atOnce(high), k.atOnce(low)))
	}
	return strings.Join(list, ", ")
}

// bends is true where a part acts beside the axis of the pier across.
func (k pierCase) bends() bool {
	for _, p := range k.balance.Parts {
		if p.Across != 0 {
			return true
		}
	}
	return false
}

// sideways is what two rows, or a pier with a permissible moment, receive beside the moment
// along that is checked; "" where there is none.
func (k pierCase) sideways() string {
	var list []string
	if k.Rows > 0 && k.bends() {
		list = append(list, "within the rows, "+k.each(func(c combination) string {
			high := k.balance.most(c, func(r Resultant) float64 { return r.Across })
			low := k.balance.most(c, func(r Resultant) float64 { return -r.Across })
			return fmt.Sprintf("M across %.0f to %.0f kN·m", math.Floor(low.Across/1e3), math.Ceil(high.Across/1e3))
		}))
	}
	if k.balance.Yaw > 0 && (k.Rows > 0 || k.Moment > 0) {
		words := fmt.Sprintf("M about the vertical ±%.0f kN·m, characteristic", math.Ceil(k.balance.Yaw/1e3))
		if k.Rows > 0 {
			words += fmt.Sprintf(": ±%.0f kN across at each row", math.Ceil(k.balance.Yaw/k.Rows/1e3))
		}
		list = append(list, words)
	}
	if k.balance.Transverse > 0 && (k.Rows > 0 || k.Moment > 0) {
		list = append(list, fmt.Sprintf("force across ±%.0f kN at z = %.2f m, characteristic, with wind on both arms in full", math.Ceil(k.balance.Transverse/1e3), k.balance.Level))
	}
	return strings.Join(list, "; ")
}

// wholeKilonewtons is a force in words, rounded up.
func wholeKilonewtons(force float64) string { return fmt.Sprintf("%.0f kN", math.Ceil(force/1e3)) }
