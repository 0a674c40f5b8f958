package ledger

// Grip is how the concrete grips pretensioned strands. They are part of the section
// from the beginning, by the area that is gripped.
type Grip struct {
	Area        func(x float64) float64               // of the steel that is gripped, m²
	Shares      func(x float64) (least, most float64) // of their force by the long and the short transmission length, over that by the basic one
	Left, Right float64                               // lengths from the ends of the strands over which these differ, m
}

// share is the factor of a tendon that is kept apart, 0 to 1, on its whole force.
func (t *TendonAt) share(factor float64) float64 {
	if t.grown {
		return t.Least + factor*(t.Most-t.Least)
	}
	return factor
}
