package section

// Level is the data of τ = V·Q/(I·b) at a level, for a section with a vertical axis of
// symmetry. For any other see [Properties.ShearFlow].
type Level struct {
	Above       Part    // the section above, about the axes of the drawing
	FirstMoment float64 // Q: ∫z dA of that part about the centroid of the section, m³
	Width       float64 // b: of the concrete at the level, all webs together, m
}

// Level is that at z (m). Where the width steps it is the smaller one, with which
// the stress is the larger. Above and below the shape all is zero but Above.
func (s Shape) Level(z float64) Level {
	l := Level{Above: s.Above(z)}
	if s.Empty() {
		return l
	}
	p := s.Properties()
	l.FirstMoment = l.Above.FirstMomentY - l.Above.Area*p.Centroid.Z
	above, below := width(s.Chords(z)), width(s.chords(z, true))
	if l.Width = above; above == 0 || below > 0 && below < above {
		l.Width = below
	}
	return l
}

func width(chords []Chord) float64 {
	sum := 0.0
	for _, c := range chords {
		sum += c.To - c.From
	}
	return sum
}
