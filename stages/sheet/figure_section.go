package sheet

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// sectionFigures are the cross-sections to scale, with centroid and tendons.
func (a *author) sectionFigures() []block {
	var blocks []block
	drawn := a.sectionsDrawn()
	for i, d := range a.record.Outlines {
		if !drawn[i] {
			continue
		}
		f := figure{name: a.sectionKey(), wide: true, caption: fmt.Sprintf("Cross-section at x = %s, seen looking along +x, to scale.", a.units.quantity(d.X, formula.Metre))}
		if len(a.record.Outlines) > 1 {
			f.name = fmt.Sprintf("section-%d", i+1)
		}
		middle, ok := a.nearestMiddle()
		if ok && len(a.record.Tendons) > 0 {
			f.caption += fmt.Sprintf(" Tendons: ● at x = %s, ○ at the left end.", a.units.quantity(middle, formula.Metre))
		}
		f.caption += cornerWords(cornersOf(d)) + a.wallWords()
		if f.svg = a.sectionSVG(d, middle); f.svg != "" {
			blocks = append(blocks, drawings{[]figure{a.described(f)}})
		}
	}
	return blocks
}

// sectionKey is the key of the figure of the section, of several the first.
func (a *author) sectionKey() string {
	if len(a.record.Outlines) > 1 {
		for i, drawn := range a.sectionsDrawn() {
			if drawn {
				return fmt.Sprintf("section-%d", i+1)
			}
		}
	}
	return "section"
}

// nearestMiddle is the end of a tendon's piece that lies nearest to mid-length: a
// place of which the Record holds the tendons' coordinates.
func (a *author) nearestMiddle() (float64, bool) {
	best, found := 0.0, false
	for _, t := range a.record.Tendons {
		for _, p := range t.Points {
			if half := a.record.Length / 2; !found || math.Abs(p.X-half) < math.Abs(best-half)-1e-9 {
				best, found = p.X, true
			}
		}
	}
	return best, found
}

// frame maps coordinates of a section to the paper.
type frame struct {
	scale    vg.Length
	y0, z0   float64 // of the point that lies at the origin
	left, up vg.Length
}

func (f frame) at(p section.Point) vg.Point { // y runs to the left
	return at(f.left+vg.Length(f.y0-p.Y)*f.scale, f.up+vg.Length(p.Z-f.z0)*f.scale)
}

func (f frame) path(o section.Outline) []vg.Point {
	points := make([]vg.Point, len(o))
	for i, p := range o {
		points[i] = f.at(p)
	}
	return points
}

// sectionSVG draws one cross-section; "" for a drawing without an outline.
func (a *author) sectionSVG(d stages.Drawing, middle float64) string {
	least, most, ok := extent(d)
	if !ok {
		return ""
	}
	const side, below, above, tallest = 88, 20, 12, 150
	wide, deep := vg.Length(most.Y-least.Y), vg.Length(most.Z-least.Z)
	scale := min((pageWidth-2*side)/wide, tallest/deep)
	k := newSketch(pageWidth, deep*scale+below+above)
	f := frame{scale: scale, y0: most.Y, z0: least.Z, left: (pageWidth - wide*scale) / 2, up: below}
	for _, o := range d.Solids {
		k.fill(pale, f.path(o))
	}
	for _, o := range d.Voids {
		k.fill(white, f.path(o))
	}
	for _, o := range append(append([]section.Outline{}, d.Solids...), d.Voids...) {
		path := f.path(o)
		k.line(thick, append(path, path[0])...)
	}
	a.centroid(k, f, d, least, most)
	a.dimensions(k, f, least, most)
	dots := a.tendonDots(k, f, middle)
	walls := dimensioned(d, least, most)
	for _, w := range walls {
		k.wall(f, w)
	}
	k.corners(f, d)
	k.wallSections(a.wallSections(f, d))
	for _, l := range dots {
		k.label(l.at, l.mark)
	}
	for _, w := range walls {
		k.label(f.at(middleOfWall(w)), a.units.quantity(w.Thickness, formula.Metre))
	}
	return k.done()
}

// extent is the box round a section.
func extent(d stages.Drawing) (least, most section.Point, ok bool) {
	for _, o := range d.Solids {
		for _, p := range o {
			if !ok {
				least, most, ok = p, p, true
			}
			least = section.Point{Y: math.Min(least.Y, p.Y), Z: math.Min(least.Z, p.Z)}
			most = section.Point{Y: math.Max(most.Y, p.Y), Z: math.Max(most.Z, p.Z)}
		}
	}
	return least, most, ok && most.Y > least.Y && most.Z > least.Z
}

func (a *author) centroid(k *sketch, f frame, d stages.Drawing, least, most section.Point) {
	c := f.at(d.Centroid)
	right := f.at(section.Point{Y: least.Y, Z: d.Centroid.Z})
	k.line(chained, at(c.X-16, c.Y), at(right.X+12, c.Y))
	k.line(chained, at(c.X, c.Y-8), at(c.X, c.Y+8))
	k.write(at(right.X+14, c.Y), "centroid z = "+a.units.quantity(d.Centroid.Z, formula.Metre), text.XLeft, text.YCenter)
}

// dimensions are the overall width and depth.
func (a *author) dimensions(k *sketch, f frame, least, most section.Point) {
	low, high := f.at(section.Point{Y: most.Y, Z: least.Z}), f.at(section.Point{Y: least.Y, Z: most.Z})
	y, x := low.Y-8, low.X-10
	k.line(thin, at(low.X, y), at(high.X, y))
	k.line(thin, at(x, low.Y), at(x, high.Y))
	for _, p := range []vg.Point{at(low.X, y), at(high.X, y), at(x, low.Y), at(x, high.Y)} {
		k.line(thin, at(p.X-2, p.Y-2), at(p.X+2, p.Y+2))
	}
	k.write(at((low.X+high.X)/2, y-2), a.units.quantity(most.Y-least.Y, formula.Metre), text.XCenter, text.YTop)
	k.write(at(x-3, (low.Y+high.Y)/2), a.units.quantity(most.Z-least.Z, formula.Metre), text.XRight, text.YCenter)
}

// dot is a tendon with its mark.
type dot struct {
	at   vg.Point
	mark string
}

// tendonDots are the tendons at the left end and near mid-length.
func (a *author) tendonDots(k *sketch, f frame, middle float64) (labels []dot) {
	for _, t := range a.record.Tendons {
		if len(t.Points) == 0 {
			continue
		}
		first := t.Points[0]
		k.ring(f.at(section.Point{Y: first.Y, Z: first.Z}), false)
		for _, p := range t.Points {
			if math.Abs(p.X-middle) < 1e-9*(1+a.record.Length) {
				centre := f.at(section.Point{Y: p.Y, Z: p.Z})
				k.ring(centre, true)
				labels = append(labels, dot{centre, t.Mark})
			}
		}
	}
	return labels
}

// ring is a small circle, full or empty.
func (k *sketch) ring(centre vg.Point, full bool) {
	const radius = 2
	var path vg.Path
	path.Move(at(centre.X+radius, centre.Y))
	path.Arc(centre, radius, 0, 2*math.Pi)
	path.Close()
	k.SetLineStyle(thin)
	if full {
		k.SetColor(black)
	} else {
		k.SetColor(white)
	}
	k.Fill(path)
	k.SetColor(black)
	k.Stroke(path)
	k.avoid([]vg.Point{at(centre.X-radius, centre.Y), at(centre.X+radius, centre.Y)})
	k.dots = append(k.dots, centre)
}
