package roll

import "github.com/tempstage/tempstage/section/formula"

// seatedOn are the quantities of the supports of a seated girder.
type seatedOn struct{ spring, height, arm, fall, wind formula.Quantity }

// Lines derive what [Seated.Solve] gives, as far as the girder is stable: each result is
// that of the field of [Result]. The error is that of Solve.
func (d Seated) Lines() ([]formula.Line, error) {
	r, err := d.solve()
	if err != nil {
		return nil, err
	}
	k := &derivation{of: r}
	k.begin(d.Girder, spans{d.Left, d.Right}, d.Offset, d.Wind)
	on := k.supports(d)
	if r.Arm <= r.Bow {
		k.Note("the roll stiffness is not above it: the girder is not stable")
		return k.Lines()
	}
	k.Derive(radians("θ_rigid", "tilt at rest of a girder that does not bend sideways"), "(α*r + e"+k.when(" + q_w*abs(y_w)")+")/l_r", k.source(mast1993),
		k.needed([]formula.Quantity{on.fall, on.spring, k.offset, on.arm}, k.share, on.wind)...)
	tilt, rests := k.settled("(α*r + e"+k.when(" + q_w*abs(y_w + z_0)")+")/(l_r - z_0)", k.source(mast1993),
		k.needed([]formula.Quantity{on.fall, on.spring, k.offset, on.arm, k.bow}, k.share, on.wind)...)
	if rests {
		k.resultant(d, on, tilt)
		k.seatedFactors(d, on)
	}
	return k.Lines()
}

// supports are the lines of the roll stiffness and of the height above the roll centre.
func (d *derivation) supports(s Seated) seatedOn {
	stiffness := formula.Q("K", s.Stiffness, formula.NewtonMetrePerRadian, "roll stiffness of all supports together")
	on := seatedOn{fall: formula.Q("α", s.CrossFall, formula.Radian, "cross-fall"), wind: metres("y_w", s.Wind.Height, "height of the wind force above the roll centre")}
	on.height = d.Derive(metres("y", 0, "height of the centre of gravity above the roll centre"), "y_0 + f*η", mast1993,
		metres("y_0", s.Height, "height of the centre of gravity of the straight girder above the roll centre"), d.camber, d.mean)
	on.spring = d.Derive(metres("r", 0, "roll stiffness over weight"), "K/W", mast1993, stiffness, d.weight)
	on.arm = d.Derive(metres("l_r", 0, "roll stiffness over weight less the height"), "r - y", mast1993, on.spring, on.height)
	if on.height.Value > 0 {
		d.Derive(number("FS_K", "factor on the roll stiffness of a rigid girder"), "K/(W*y)", formula.Mechanics, stiffness, d.weight, on.height)
	}
	d.Derive(formula.Q("K_min", 0, formula.NewtonMetrePerRadian, "roll stiffness up to which nothing is stable"), "max(0, W*(y + z_0))", mast1993, d.weight, on.height, d.bow)
	return on
}

// resultant are the lines of where the weight acts on the supports at rest.
func (d *derivation) resultant(s Seated, on seatedOn, tilt formula.Quantity) {
	distance := d.Derive(metres("s_R", 0, "distance of the resultant from the middle of the supports"), "r*(θ - α)", formula.Mechanics, on.spring, tilt, on.fall)
	if s.Kern == 0 {
		return
	}
	d.Derive(metres("d_R", 0, "distance of the resultant from the edge of the kern"), "s_kern - s_R", formula.Mechanics, metres("s_kern", s.Kern, "kern of the supports"), distance)
	if d.of.Seat.LeavesKern {
		d.Note("the resultant leaves the kern: the roll stiffness is no longer that of full contact")
	} else {
		d.Note("the resultant is within the kern")
	}
}

// seatedFactors are the lines of the factors against cracking and overturning.
func (d *derivation) seatedFactors(s Seated, on seatedOn) {
	with := d.of.cracks.with()
	against := d.when(d.of.cracks.against() + "q_w")
	d.crackingFactor("r*(θ_cr"+against+" - α)/(z_0*θ_cr + e"+d.when(with+"q_w*y_w")+" + y*"+d.sum("θ_cr", against)+")", mast1993,
		d.needed([]formula.Quantity{on.spring, d.tilt, on.fall, d.bow, d.offset, on.height}, d.share, on.wind)...)
	if d.of.falls.none {
		d.overturningFactor("", mast1993)
		return
	}
	with = d.of.falls.with()
	tilt := d.Derive(radians("θ_f", "tilt of failure"), "min(0.4, (b - h_r*α)/r + α)", mast1993, metres("b", s.HalfBase, "from the middle to the line about which the supports tip"),
		metres("h_r", s.RollCentre, "height of the roll centre above the seat"), on.fall, on.spring)
	d.Note("at which the resultant reaches the line about which the supports tip")
	d.overturningFactor("r*(θ_f - α)/(z_0*(1 + 2.5*θ_f)*"+d.sum("θ_f", with+"q_w")+" + e"+d.when(with+"q_w*y_w")+" + y*θ_f)", mast1993,
		d.needed([]formula.Quantity{on.spring, tilt, on.fall, d.bow, d.offset, on.height}, d.share, on.wind)...)
}
