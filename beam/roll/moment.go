package roll

// Moment is the largest bending moment of the self-weight by magnitude (N·m) of a girder
// held at left and right from its ends (m): the moment whose lateral part cracks it,
// see Girder.Cracks.
func (g Girder) Moment(left, right float64) float64 { return g.moment(spans{left, right}) }
