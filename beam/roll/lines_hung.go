package roll

import "github.com/tempstage/tempstage/section/formula"

// Lines derive what [Hung.Solve] gives, as far as the girder is stable: each result is
// that of the field of [Result]. The error is that of Solve.
func (h Hung) Lines() ([]formula.Line, error) {
	r, err := h.solve()
	if err != nil {
		return nil, err
	}
	d := &derivation{of: r}
	d.begin(h.Girder, spans{h.Left, h.Right}, h.Offset, h.Wind)
	axis := metres("h_a", h.Axis, "height of the roll axis above the centre of gravity of the straight girder")
	arm := d.Derive(metres("y_r", 0, "height of the roll axis above the centre of gravity"), "h_a - f*η", mast1989, axis, d.camber, d.mean)
	d.Derive(metres("h_min", 0, "height of the roll axis up to which nothing is stable"), "z_0 + f*η", mast1989, d.bow, d.camber, d.mean)
	if r.Arm <= r.Bow {
		d.Note("the roll axis is not above it: the girder is not stable")
		return d.Lines()
	}
	var lever formula.Quantity
	if d.windy {
		lever = d.Derive(metres("l_w", 0, "height of the roll axis above the wind force"), "y_r - h_w", formula.Mechanics, arm, metres("h_w", h.Wind.Height, "height of the wind force above the centre of gravity"))
	}
	d.Derive(radians("θ_rigid", "tilt at rest of a girder that does not bend sideways"), d.sum("e", " + q_w*abs(l_w)")+"/y_r", formula.Mechanics, d.needed([]formula.Quantity{d.offset, arm}, d.share, lever)...)
	if _, rests := d.settled(d.sum("e", " + q_w*abs(l_w - z_0)")+"/(y_r - z_0)", d.source(mast1989), d.needed([]formula.Quantity{d.offset, arm, d.bow}, d.share, lever)...); rests {
		d.hungFactors(arm, lever)
	}
	return d.Lines()
}

// hungFactors are the lines of the factors against cracking and overturning.
func (d *derivation) hungFactors(arm, lever formula.Quantity) {
	against := d.of.cracks.against()
	d.crackingFactor("y_r*"+d.sum("θ_cr", against+"q_w")+"/(z_0*θ_cr + e"+d.when(against+"q_w*l_w")+")", mast1989,
		d.needed([]formula.Quantity{arm, d.tilt, d.bow, d.offset}, d.share, lever)...)
	with, against := d.of.falls.with(), d.of.falls.against()
	switch {
	case d.of.falls.none || d.of.Overturning == 0:
		d.overturningFactor("", mast1989)
		return
	case d.of.FailTilt == 0:
		d.overturningFactor("y_r/"+d.sum("z_0", "*(1"+with+"2.5*q_w)"), mast1989, d.needed([]formula.Quantity{arm, d.bow}, d.share)...)
		return
	}
	operands := d.needed([]formula.Quantity{d.offset, d.bow}, d.share, lever)
	tilt := d.Derive(radians("θ_f", "tilt of failure"), "min(0.4, sqrt("+d.sum("e", against+"q_w*(l_w - z_0)")+"/(2.5*z_0)))", d.source(mast1989), operands...)
	d.Note("at which the factor of the cracked girder is largest")
	d.overturningFactor("y_r*θ_f/(z_0*(1 + 2.5*θ_f)*"+d.sum("θ_f", with+"q_w")+" + e"+d.when(against+"q_w*l_w")+")", mast1989, append(operands, arm, tilt)...)
}
