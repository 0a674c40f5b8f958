package sheet

import (
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// asked is a row of the form of a kind of equipment: what it asks for, with the unit of
// what is written in, and the facts that fill it in the order of the label.
type asked struct {
	label string
	unit  formula.Unit
	facts []string
}

// configuration is the row of a crane whose text stands above its form.
const configuration = "Configuration as above"

// Rows that several kinds have.
var (
	askedRigging  = asked{"Rigging sketch, WLL, angles, equalised", "", []string{"rigging sketch", "rigging WLL", "sling angles", "equalised legs"}}
	askedAnchors  = asked{"Lifting anchors: type, WLL", "", []string{"lifting anchors", "anchor WLL"}}
	askedWind     = asked{"Wind limit, working / parked", formula.MetrePerSecond, []string{"wind limit", "wind limit parked"}}
	askedBasis    = asked{"Wind: gust or mean, height, whose chart", "", []string{"wind basis"}}
	askedHoist    = asked{"Rated − deducted = derated; what", formula.Newton, []string{"rated capacity", "deductions", "derated capacity", "deductions are"}}
	askedPosition = asked{"Position, legs", "", []string{"position", "legs"}}
	askedBars     = asked{"Anchor bars: number, force", "", []string{"anchor bars", "anchor force"}}
	askedTrolleys = asked{"Trolleys at x of the element, left / right", formula.Metre, []string{"trolley left", "trolley right"}}
	askedPair     = asked{"Hoists, which pair is equalised", "", []string{"hoist arrangement"}}
	askedCarrier  = []asked{
		{"Axle groups, which are linked", "", []string{"axle groups", "groups linked"}},
		{"Rated capacity; axle load, loaded", "", []string{"rated capacity", "axle load"}},
		{"Restraint of the element on it", "", []string{"restraint"}},
		{"Speed limit", formula.MetrePerSecond, []string{"speed limit"}},
		{"Route, gradient, crossfall checked", "", []string{"route"}},
		askedWind, askedBasis,
	}
)

// Rows of a gantry that are asked of its hoists, and of where it is.
var (
	ofHoists = []string{askedPair.label, askedHoist.label, askedRigging.label, askedAnchors.label}
	ofPlace  = []string{askedPosition.label, askedBars.label, askedTrolleys.label}
)

// forms are the rows of each kind.
var forms = map[stages.EquipmentKind][]asked{
	stages.Crane: {
		{configuration, "", []string{"configuration"}},
		{"Radius max: pick / slew / set", formula.Metre, []string{"radius at pick", "radius at slew", "radius at set"}},
		{"Measured: pick / slew / set", formula.Metre, []string{"measured at pick", "measured at slew", "measured at set"}},
		{"Radius; chart × share = derated", "", []string{"chart radius", "chart capacity", "share of chart", "derated capacity"}},
		{"Gross; block + rigging in it; utilisation", "", []string{"gross load", "deductions", "utilisation"}},
		{"Outrigger char.; mat; permissible", "", []string{"outrigger maximum", "mat length", "mat width", "permissible ground pressure"}},
		{"Out of level: limit / measured", "", []string{"crane level", "crane level measured"}},
		{"Radius: tail swing / exclusion", formula.Metre, []string{"tail swing", "exclusion radius"}},
		askedRigging, askedAnchors,
		{"Wind limit; its basis; parked", "", []string{"wind limit", "wind basis", "wind limit parked"}},
		{"Rope out of plumb; reserve for CoG", "", []string{"rope out of plumb", "tolerance of CoG"}},
	},
	stages.Gantry: {
		askedPosition, askedBars, askedTrolleys,
		askedPair, askedHoist, askedRigging, askedAnchors, askedWind, askedBasis,
		{"Span below: stressed, bedding mortar", "", []string{"last span"}},
	},
	stages.StraddleCarrier: {
		{"Route, ground", "", []string{"route", "ground"}}, {"Wheel load, loaded", formula.Newton, []string{"wheel load"}},
		{"Travel speed", formula.MetrePerSecond, []string{"travel speed"}},
		askedPair, askedHoist, askedRigging, askedAnchors, askedWind, askedBasis,
	},
	stages.Carrier: askedCarrier, stages.Trailer: askedCarrier,
	stages.Pier: {
		{"Bearing shelf: level, concrete strength", "", []string{"level", "concrete strength"}},
		{"Access and edge protection", "", []string{"access"}},
	},
	stages.Stack: {
		{"Height, packing, lock rings", "", []string{"height", "packing", "lock rings"}},
		{"Permissible force, vertical / horizontal", formula.Newton, []string{"vertical capacity", "horizontal capacity"}},
	},
	stages.Jacks: {
		{"Linked", "", []string{"linked"}}, {"Jack numbers, gauges, calibration", "", []string{"jack numbers"}},
		{"Rated force; horizontal, permissible", "", []string{"rated force", "horizontal capacity"}}, {"Stroke; residual at least", "", []string{"stroke", "residual stroke"}},
		{"Lowered in all; packing out at a stroke", "", []string{"lowered in all", "packing out at a stroke"}},
		{"Stack with jack: height; base", "", []string{"stack height", "stack base"}},
		{"Level difference ≤: along; across", "", []string{"difference along", "difference across"}},
		{"Packing beside: gap ≤; capacity", "", []string{"packing beside, gap", "packing beside, capacity"}},
	},
	stages.Towers: {
		{"Falsework design; limit of a bearing", "", []string{"document", "limit of a bearing"}},
		{"Erected as designed, inspected by", "", []string{"inspected by"}}, {"Lowering gear, stroke left", "", []string{"lowering gear"}},
	},
	stages.LiftingFrame: {
		{"Weight", "", []string{"weight"}}, {"Anchor bars; preload of each", "", []string{"anchor bars", "anchor preload"}},
	},
	stages.Erected: {
		{"Weight, nominal", "", []string{"weight"}}, {"Weighed", formula.Newton, []string{"weighed"}},
	},
}
