package sheet

import (
	"fmt"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// readBeside is true for a stage in which tendons are stressed and nothing else is done, with
// supports that are read and stay as they are: their table is beside its words, below the
// sketch of the anchors.
func (a *author) readBeside(stage stages.StageRecord) bool {
	list := restingAlike(stage)
	return featuresOf(stage).stressingOnly() && !notRead(stage) && len(list) == 1 && len(list[0].situation.Bodies) == 0 &&
		len(list[0].situation.Reactions) <= mostBeside && len(a.anchorPlaces(stage)) > 0
}

// mostBeside is how many supports have room beside the words of a stressing.
const mostBeside = 6

// readingsBeside is the table of supports that are read after the last step.
func (a *author) readingsBeside(stage stages.StageRecord) []block {
	s, x := restingAlike(stage)[0].situation, a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{open: true, columns: columnsOf("No.", ">x "+length, ">y "+length, ">accept if", ">of "+a.nominalTotal(s, 0)+" "+unit, "Read "+unit, "%")}
	for k, r := range s.Reactions {
		g.rows = append(g.rows, row(fmt.Sprint(k+1), x.text(r.X), x.text(r.Y), shareBand(r), a.shareForces(s, r), "", ""))
	}
	total := row("all", "", "", "", "", "", "")
	total[3] = bold(a.totalBand(s.Total))
	g.rows = append(g.rows, total)
	return []block{paragraph{bold("Supports, read: ").and(plain, strings.ReplaceAll(kindsOfSupports(s), ";", ","))}, part{name: "supports", blocks: []block{g}}}
}
