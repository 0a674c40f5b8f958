package launching

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// outline is the gantry in elevation: its girder, the legs that stand and hang, its
// trolleys.
func (g Gantry) outline(p Position, feet map[string]float64) (lines [][][2]float64) {
	const depth, trolley = 2.0, 1.5 // m, as drawn
	top := 0.0
	for _, z := range feet {
		top = max(top, z)
	}
	low := top + max(g.Height-depth/2, 0.5)
	box := func(from, to, bottom, height float64) {
		lines = append(lines, [][2]float64{{from, bottom}, {to, bottom}, {to, bottom + height}, {from, bottom + height}, {from, bottom}})
	}
	box(p.At, p.At+g.Length, low, depth)
	for _, s := range p.Stands {
		lines = append(lines, [][2]float64{{s.X, feet[s.On]}, {s.X, low}})
	}
	for _, h := range p.Hanging {
		lines = append(lines, [][2]float64{{p.At + h.At, low}, {p.At + h.At, low - (low-top)/2}})
	}
	for _, t := range p.Trolleys {
		box(p.At+t.At-trolley, p.At+t.At+trolley, low+depth, 1)
	}
	return lines
}

// levels are the tops of what the legs of a position stand on (z, m).
func (l Launch) levels(p Position, deckTop float64) map[string]float64 {
	levels := map[string]float64{}
	for _, s := range p.Stands {
		levels[s.On] = deckTop
	}
	for _, pier := range l.Piers {
		levels[pier.Mark] = pier.Top
	}
	return levels
}

// items are the gantry, stated by where it is and what its feet bring.
func (l Launch) items(p Position, d deck) ([]stages.EquipmentItem, error) {
	feet, err := l.Gantry.Across(p)
	if err != nil {
		return nil, err
	}
	item := stages.EquipmentItem{Mark: l.Gantry.Mark, Kind: stages.Gantry, Outline: l.Gantry.outline(p, l.levels(p, d.crown()))}
	value := func(name string, v float64, unit formula.Unit, sense limits.Sense) {
		item.Facts = append(item.Facts, stages.Fact{Name: name, Value: v, Unit: unit, Sense: sense})
	}
	value("rear end of the gantry at x", p.At, formula.Metre, "")
	if p.Roll != 0 {
		value("rolls to x", p.At+p.Roll, formula.Metre, "")
	}
	for i, t := range p.Trolleys {
		name := "trolley " + l.Gantry.Trolleys[i].Mark + " from the rear end of the gantry"
		if t.Locked {
			name += ", locked"
		}
		value(name, t.At, formula.Metre, "")
	}
	for i, f := range feet {
		s := p.Stands[i]
		value(fmt.Sprintf("leg %s on %s at x", f.Leg, f.On), f.X, formula.Metre, "")
		value("each foot of leg "+f.Leg+", characteristic", f.Foot.Most, formula.Newton, limits.AtLeast)
		if s.Bars != nil {
			value(fmt.Sprintf("preload of each of %d anchor bars of leg %s", s.Bars.Number, f.Leg), s.Bars.Preload, formula.Newton, limits.AtLeast)
		}
	}
	if p.Wind.Speed > 0 {
		value(fmt.Sprintf("wind limit, mean over %g s at %g m", p.Wind.Averaging, p.Wind.Height), p.Wind.Speed, formula.MetrePerSecond, limits.AtMost)
	}
	return []stages.EquipmentItem{item}, nil
}

// crown is the top of the deck at mid-length (m).
func (d deck) crown() float64 {
	for y := 0.0; y < 5; y += 0.25 {
		if z, err := d.top(d.length/2, y); err == nil {
			return z
		}
	}
	return 0
}

// step is the picture of a position: gantry, trolleys, element and piers.
func (l Launch) step(p Position, d deck) stages.Figure {
	fig := stages.Figure{Title: "gantry " + l.Gantry.Mark + ", " + p.Name, XUnit: "m", YUnit: "m"}
	for _, line := range l.Gantry.outline(p, l.levels(p, d.crown())) {
		fig.Lines = append(fig.Lines, stages.Polyline{Name: "gantry " + l.Gantry.Mark, Points: line})
	}
	crown := d.crown()
	fig.Lines = append(fig.Lines, stages.Polyline{Name: "element " + d.mark, Points: [][2]float64{{0, 0}, {d.length, 0}, {d.length, crown}, {0, crown}, {0, 0}}})
	for _, pier := range l.Piers {
		half := pier.Width / 2
		fig.Lines = append(fig.Lines, stages.Polyline{Name: "piers", Points: [][2]float64{{pier.X - half, pier.Top - 4}, {pier.X - half, pier.Top}, {pier.X + half, pier.Top}, {pier.X + half, pier.Top - 4}}})
		fig.Texts = append(fig.Texts, stages.Text{At: [2]float64{pier.X, pier.Top - 4}, Text: pier.Mark})
	}
	for _, s := range p.Stands {
		fig.Texts = append(fig.Texts, stages.Text{At: [2]float64{s.X, l.levels(p, crown)[s.On]}, Text: s.Leg})
	}
	return fig
}
