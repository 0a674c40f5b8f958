package main

// handling is every check on rolling girders, slings, anchors, cranes and the ground
// below them.
func handling() []Check {
	rows := rolling()
	rows = append(rows, bulbTeeRolls()...)
	rows = append(rows, onBearings()...)
	rows = append(rows, ownBows()...)
	rows = append(rows, slings()...)
	rows = append(rows, anchorage()...)
	rows = append(rows, tandems()...)
	rows = append(rows, charts()...)
	rows = append(rows, endLifts()...)
	return append(append(rows, outriggers()...), tracks()...)
}

// closedRow is a closed form of statics that ours must meet to rounding.
func closedRow(name, of, unit string, value float64, ours func() (float64, error)) Check {
	return Check{Name: name, Package: of, Source: "statics", Kind: ClosedForm, Value: value, Unit: unit, Tolerance: same(value), Reason: floatRounding, Ours: ours}
}
