package roll

// Wind is the horizontal force of the wind across the girder, from either side.
type Wind struct {
	Force  float64 // on the whole girder, N, at most its weight; 0 for none
	Height float64 // of its resultant, m, ±20: above the centre of gravity of a hung girder, above the roll centre of a seated one
}

// sides are the force of the wind as a share of the weight, + to the offset side.
func (w Wind) sides(weight float64) []float64 {
	if w.Force == 0 {
		return []float64{0}
	}
	return []float64{-w.Force / weight, w.Force / weight}
}

func (w Wind) check(of string, weight float64) error {
	return within(of, bound{"Wind.Force", w.Force, "N", 0, weight}, bound{"Wind.Height", w.Height, "m", -20, 20})
}
