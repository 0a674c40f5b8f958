package sheet

import (
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// piersOf are the piers of free cantilevers of a step, those that its movements change first.
func (a *author) piersOf(stage stages.StageRecord) (list []stepItem) {
	var still []stepItem
	for _, p := range stepItems(stage, stages.Pier) {
		switch {
		case len(p.positions) == 0:
		case worked(p):
			list = append(list, p)
		default:
			still = append(still, p)
		}
	}
	return append(list, still...)
}

// worked is true for a pier that receives another force in one position than in another.
func worked(p stepItem) bool {
	return slices.ContainsFunc(p.positions, func(o stages.EquipmentPosition) bool { return !slices.Equal(o.Facts, p.positions[0].Facts) })
}

// stepMoves is the table of the movements: what stands on each arm after it, the out-of-balance
// at the pier, rows and ties, with room for what is read and signed; then what the pier has.
func (a *author) stepMoves(i int) []block {
	stage := a.record.Stages[i]
	var blocks []block
	piers := a.piersOf(stage)
	if len(piers) == 0 {
		g := grid{open: true, columns: columnsOf("Movement", "day", "signed, time")}
		for k, s := range stage.Situations {
			g.rows = append(g.rows, row(a.movement(i, k), days(s.Day, up), ""))
		}
		return []block{part{name: "moves", blocks: []block{g}}}
	}
	for n, p := range piers {
		if n > 0 && !worked(p) {
			at := p.positions[0]
			blocks = append(blocks, paragraph{bold("Pier "+p.mark+", unchanged: ").and(plain, "out-of-balance "+a.stateOf(at.Facts, "out-of-balance moment")+", worst "+a.stateOf(at.Facts, "maximum out-of-balance moment")+". "+a.pierWords(p))})
			continue
		}
		blocks = append(blocks, part{name: "moves", blocks: []block{a.movesAt(i, p)}}, paragraph{bold("Pier "+p.mark+": ").and(plain, a.pierWords(p))})
	}
	return blocks
}

// movesAt is a row for each movement with what a pier receives after it.
func (a *author) movesAt(i int, p stepItem) grid {
	stage := a.record.Stages[i]
	force, moment := a.units.in(formula.Newton).unit, a.units.in(formula.NewtonMetre).unit
	rows, ties := a.stateOf(p.facts, "rows apart") != "", a.countOf(p.facts, "ties at each row") != ""
	heads := []string{"Movement", "Left arm after it", "Right arm after it", ">V " + force + " nominal", ">M " + moment + " nominal", ">max"}
	if rows {
		heads = append(heads, ">row "+force+" min", ">max")
	}
	if ties {
		heads = append(heads, "ties "+force+" left", "right")
	}
	g := grid{open: true, columns: columnsOf(append(heads, "signed, time")...)}
	for k, s := range stage.Situations {
		at := positionIn(s, p.mark)
		cells := []string{a.movement(i, k), a.stateOf(at, "left arm"), a.stateOf(at, "right arm"), a.stateIn(at, "vertical force"), a.stateIn(at, "out-of-balance moment"), a.stateIn(at, "maximum out-of-balance moment")}
		if rows {
			cells = append(cells, a.stateIn(at, "minimum force of a row"), a.stateIn(at, "maximum force of a row"))
		}
		if ties {
			cells = append(cells, "", "")
		}
		g.rows = append(g.rows, row(append(cells, "")...))
	}
	return g
}

// movement is situation k of stage i with the tendons and bars that are taken out in it.
func (a *author) movement(i, k int) string {
	stage := a.record.Stages[i]
	text := numbered(stage, k) + " " + a.units.words(moveName(stage, k))
	var out []string
	for _, t := range a.before(i, k) {
		if !slices.ContainsFunc(stage.Situations[k].Tendons, func(o stages.TendonForce) bool { return o.Mark == t.Mark }) {
			out = append(out, t.Mark)
		}
	}
	if len(out) > 0 {
		text += ": " + alikeMarks(out)
	}
	return text
}

// positionIn is what is stated of a pier in a situation.
func positionIn(s stages.SituationRecord, mark string) []stages.Fact {
	for _, item := range s.Equipment {
		if item.Kind == stages.Pier && strings.TrimPrefix(item.Mark, string(stages.Pier)+" ") == mark && len(item.Positions) > 0 {
			return item.Positions[0].Facts
		}
	}
	return nil
}

// worstTie are the facts of the position in which a tie has its greatest force.
func worstTie(p stepItem) (worst []stages.Fact) {
	most := math.Inf(-1)
	for _, at := range p.positions {
		for _, f := range at.Facts {
			if f.Name == "maximum force of a tie" && f.Value > most {
				most, worst = f.Value, at.Facts
			}
		}
	}
	return worst
}

// pierWords are what a pier has and what may be on the deck.
func (a *author) pierWords(p stepItem) string {
	list := []string{"M + where the right arm goes down, max in the worst combination"}
	if apart := a.stateOf(p.facts, "rows apart"); apart != "" {
		text := "rows " + apart + " apart, forces without the ties"
		if most := a.stateOf(p.facts, "permissible force of a row"); most != "" {
			text += ", with them at most " + most
		}
		list = append(list, text)
	} else {
		list = append(list, "fixed to the deck")
	}
	if most := a.stateOf(p.facts, "permissible moment"); most != "" {
		list = append(list, "permissible "+most)
	}
	if n := a.countOf(p.facts, "ties at each row"); n != "" {
		list = append(list, n+" ties at each row, preload "+a.stateOf(p.facts, "tie preload")+" each, in the worst combination "+a.stateIn(worstTie(p), "maximum force of a tie")+" of "+a.stateOf(p.facts, "tie capacity")+"; read each at ______________")
	}
	text := strings.Join(list, "; ") + ". Nothing on the deck but what is listed"
	if one := a.stateOf(p.facts, "working load, one arm"); one != "" {
		text += " and crew and small gear, at most " + one + " on one arm with " + a.stateOf(p.facts, "working load, other arm") + " on the other"
	}
	return text + "."
}
