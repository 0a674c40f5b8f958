package launching

import (
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// outline is the gantry in elevation: its girder, the legs that stand and hang, its
// trolleys.
func (g Gantry) outline(p Position, feet map[string]float64) (lines [][][2]float64) {
	const trolley = 1.5 // m, as drawn
	low := g.bottom(feet)
	lines = append(lines, rectangle(p.At, p.At+g.Length, low, low+girderDepth))
	for _, s := range p.Stands {
		lines = append(lines, [][2]float64{{s.X, feet[s.On]}, {s.X, low}})
	}
	for _, h := range p.Hanging {
		lines = append(lines, [][2]float64{{p.At + h.At, low}, {p.At + h.At, low - max(g.Height-girderDepth/2, 0.5)/2}})
	}
	for _, t := range p.Trolleys {
		lines = append(lines, rectangle(p.At+t.At-trolley, p.At+t.At+trolley, low+girderDepth, low+girderDepth+1))
	}
	return lines
}

// girderDepth is the depth of the girder of a gantry as drawn (m).
const girderDepth = 2.0

// bottom is the level of the soffit of the girder in a picture (z, m), above the highest of
// what its legs stand on.
func (g Gantry) bottom(feet map[string]float64) float64 {
	top := 0.0
	for _, z := range feet {
		top = max(top, z)
	}
	return top + max(g.Height-girderDepth/2, 0.5)
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

// crown is the top of the deck at mid-length (m).
func (d deck) crown() float64 {
	for y := 0.0; y < 5; y += 0.25 {
		if z, err := d.top(d.length/2, y); err == nil {
			return z
		}
	}
	return 0
}

// step is the picture of a position: gantry, trolleys, element, what is beside it, and piers.
// A raised element hangs by its hooks, shifted from its place.
func (l Launch) step(p Position, d deck, raised *hung) stages.Figure {
	fig := stages.Figure{Title: "gantry " + l.Gantry.Mark + ", " + p.Name, XUnit: "m", YUnit: "m"}
	draw := func(name string, lines ...[][2]float64) {
		for _, points := range lines {
			fig.Lines = append(fig.Lines, stages.Polyline{Name: name, Points: points})
		}
	}
	write := func(x, z float64, words string) {
		fig.Texts = append(fig.Texts, stages.Text{At: [2]float64{x, z}, Text: words})
	}
	crown := d.crown()
	levels := l.levels(p, crown)
	draw("gantry "+l.Gantry.Mark, l.Gantry.outline(p, levels)...)
	if p.Roll != 0 {
		rolled := p
		rolled.At, rolled.Stands = p.At+p.Roll, nil
		draw("at the end of its roll", l.Gantry.outline(rolled, levels)[0])
	}
	shift, lift := 0.0, 0.0
	if raised != nil {
		shift, lift = raised.shift, raised.level
		draw("ropes", raised.ropes...)
	}
	draw("element "+d.mark, rectangle(shift, shift+d.length, lift, lift+crown))
	write(shift+d.length/2, lift+crown/2, d.mark)
	for _, s := range p.Stands {
		pier := func(p Pier) bool { return p.Mark == s.On }
		if len(l.Piers) == 0 || s.On == d.mark || slices.ContainsFunc(l.Piers, pier) {
			continue
		}
		from := -d.length // beside it, as long as this one: its own length is not known here
		if s.X > d.length {
			from = d.length
		}
		draw("deck beside", rectangle(from, from+d.length, 0, crown))
		write(from+d.length/2, crown/2, s.On)
	}
	for _, pier := range l.Piers {
		half := pier.Width / 2
		draw("piers", [][2]float64{{pier.X - half, pier.Top - 2.5}, {pier.X - half, pier.Top}, {pier.X + half, pier.Top}, {pier.X + half, pier.Top - 2.5}})
		write(pier.X, pier.Top-2.5, pier.Mark)
	}
	for _, s := range p.Stands {
		write(s.X, levels[s.On], s.Leg)
	}
	for i, t := range p.Trolleys {
		write(p.At+t.At, l.Gantry.bottom(levels)+3, l.Gantry.Trolleys[i].Mark)
	}
	return fig
}

// hung is an element on its hooks: its left end and its soffit in the picture (m), and its ropes.
type hung struct {
	shift, level float64
	ropes        [][][2]float64
}

// hangs is where the element of a hoist is in a position, drawn just above the deck beside it.
func (h Hoist) hangs(p Position, d deck) *hung {
	const clear = 0.3 // m, as drawn
	crown := d.crown()
	e := &hung{shift: h.shift(p, h.Hooks[0]), level: crown + clear}
	bottom := h.Gantry.bottom(h.launch().levels(p, crown))
	for _, k := range h.Hooks {
		at := p.At + p.Trolleys[k.Trolley].At
		e.ropes = append(e.ropes, [][2]float64{{at, bottom}, {at, e.level + crown}})
	}
	return e
}

// rectangle is a closed outline.
func rectangle(left, right, bottom, top float64) [][2]float64 {
	return [][2]float64{{left, bottom}, {right, bottom}, {right, top}, {left, top}, {left, bottom}}
}
