package rigging

// Most is the largest force of a support (N).
func (l Legs) Most() float64 { return max(l.Forces[0], l.Forces[1], l.Forces[2], l.Forces[3]) }
