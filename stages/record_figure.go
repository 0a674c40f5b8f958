package stages

import (
	"fmt"
	"math"
	"strings"
)

// The sizes of what a figure can show: smaller numbers are written as 0, for they are
// the underflow of an exponential; larger ones no axis can show.
const (
	leastDrawn = 1e-30
	mostDrawn  = 1e30
)

// drawn are the figures that a stage made itself, as they are written down. The error
// names figure, curve, point and value.
func drawn(figures []Figure) ([]Figure, error) {
	list := make([]Figure, len(figures))
	for i, f := range figures {
		if err := f.valid(); err != nil {
			return nil, fmt.Errorf("figure %d: %w", i+1, err)
		}
		list[i] = f
		list[i].Lines, list[i].Texts = nil, nil
		for _, l := range f.Lines {
			points := make([][2]float64, len(l.Points))
			for k, p := range l.Points {
				points[k] = visible(p)
			}
			list[i].Lines = append(list[i].Lines, Polyline{Name: l.Name, Points: points})
		}
		for _, t := range f.Texts {
			list[i].Texts = append(list[i].Texts, Text{At: visible(t.At), Text: t.Text})
		}
	}
	return list, nil
}

// visible is a point with 0 for what is too small to be shown.
func visible(p [2]float64) [2]float64 {
	for k, v := range p {
		if math.Abs(v) < leastDrawn {
			p[k] = 0
		}
	}
	return p
}

// valid reports what is wrong with a figure: it has no title, a curve has no point, or a
// number cannot be shown. A figure without curves is an empty frame.
func (f Figure) valid() error {
	if strings.TrimSpace(f.Title) == "" {
		return fmt.Errorf("title is empty: must be the caption")
	}
	for i, l := range f.Lines {
		name := fmt.Sprintf("%q, curve %d %q", f.Title, i+1, l.Name)
		if len(l.Points) == 0 {
			return fmt.Errorf("%s has no point: must have at least one", name)
		}
		for k, p := range l.Points {
			if err := shownAt(p); err != nil {
				return fmt.Errorf("%s, point %d: %w", name, k+1, err)
			}
		}
	}
	if err := f.tabular(); err != nil {
		return fmt.Errorf("%q: %w", f.Title, err)
	}
	for i, t := range f.Texts {
		if err := shownAt(t.At); err != nil {
			return fmt.Errorf("%q, text %d %q: %w", f.Title, i+1, t.Text, err)
		}
	}
	return nil
}

// tabular reports a figure whose values are to be printed and whose curves differ in number of
// points or in abscissas.
func (f Figure) tabular() error {
	if !f.Tabulated {
		return nil
	}
	for i, l := range f.Lines {
		first := f.Lines[0].Points
		if len(l.Points) != len(first) {
			return fmt.Errorf("curve %d %q has %d points and the first %d: must be as many, its values are tabulated", i+1, l.Name, len(l.Points), len(first))
		}
		for k, p := range l.Points {
			if p[0] != first[k][0] {
				return fmt.Errorf("curve %d %q, point %d at %g and that of the first at %g: must be at the same abscissa, its values are tabulated", i+1, l.Name, k+1, p[0], first[k][0])
			}
		}
	}
	return nil
}

// shownAt reports a coordinate that no axis can show.
func shownAt(p [2]float64) error {
	for k, name := range []string{"abscissa", "ordinate"} {
		if v := p[k]; !finite(v) || math.Abs(v) > mostDrawn {
			return fmt.Errorf("%s = %g: must be finite, at most %g in size", name, v, mostDrawn)
		}
	}
	return nil
}
