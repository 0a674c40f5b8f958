package stages

import (
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Format is the number of the layout of a Record in JSON.
const Format = derive.FormatNumber

// Record is a calculation as plain data: inputs, results of each situation, every check
// with its derivation. Every number is finite, and the same input gives the same
// Record. Units are SI.
type Record struct {
	Format     int              `json:"format"`               // Format of this package
	Element    string           `json:"element"`              // mark
	Length     float64          `json:"length"`               // m
	Caution    []string         `json:"caution"`              // opens every sheet
	Basis      []string         `json:"basis"`                // models, conventions, what is neglected
	Inputs     []Group          `json:"inputs"`               // with their sources
	Outlines   []Drawing        `json:"outlines"`             // the section, for a figure
	Tendons    []TendonRecord   `json:"tendons,omitempty"`    // with their paths
	Weights    []Load           `json:"weights"`              // parts of the self-weight, nominal
	Factors    []PartialFactors `json:"factors,omitempty"`    // partial factors of the checks
	Stages     []StageRecord    `json:"stages"`               // in order of age; none for a calculation without stages
	Results    []ResultRecord   `json:"results,omitempty"`    // of a calculation without stages, or behind the stages of a plan
	NotChecked []string         `json:"notChecked,omitempty"` // what no stage checks
	Appendix   []Group          `json:"appendix,omitempty"`   // creep coefficients and shrinkage strains, derived

	// Lists are section states, symbols, sources, lines and tables, each written
	// once; checks and groups refer to them by number.
	derive.Lists
}

// Group is a set of lines under a heading: inputs, an operation, a derivation.
type Group struct {
	Title string `json:"t"`           // heading
	Lines []int  `json:"l,omitempty"` // numbers in the Lines of the record, from 1
}

// Load is a load on the element, for a figure and a table: at one place or spread
// from From to To.
type Load struct {
	Mark      string  `json:"mark"`            // name
	Own       bool    `json:"own,omitempty"`   // self-weight of the outline, not an extra weight
	Direction string  `json:"dir,omitempty"`   // a Direction; "": down
	Rolls     bool    `json:"rolls,omitempty"` // a train, at any place of the element; From to To is its own length
	From      float64 `json:"from"`            // m
	To        float64 `json:"to"`              // m; equal to From for a load at one place
	Force     float64 `json:"f,omitempty"`     // N, downwards; 0 for a couple
	Couple    float64 `json:"c,omitempty"`     // N·m, anticlockwise; 0 for a force
	Centre    float64 `json:"x,omitempty"`     // x of its resultant, m
	Y         float64 `json:"y,omitempty"`     // of its resultant, m
	Z         float64 `json:"z,omitempty"`     // of its resultant, m

	// Presence is the range of the factor on an action: 1 to 1 always present, 0 to 1
	// present or absent, −1 to 1 both ways; zero for a part of the weight.
	Presence Range `json:"p,omitzero"`

	// Kind is that of an action, a limits.ActionKind; "" for a part of the weight. Wind is
	// the speed of one of wind; nil where none is stated.
	Kind string      `json:"kind,omitempty"`
	Wind *WindRecord `json:"wind,omitempty"`
}

// TendonRecord is a tendon with its path.
type TendonRecord struct {
	Mark    string `json:"mark"`    // name on the drawing
	Strands int    `json:"strands"` // number of strands
	Strand  string `json:"strand"`  // designation of the strand

	External     bool `json:"external,omitempty"`     // outside the concrete between anchors and deviators
	Pretensioned bool `json:"pretensioned,omitempty"` // a layer stressed on the bed

	Approval string `json:"approval,omitempty"` // reference of the approval of its anchorages

	Points []PathPoint `json:"points"` // ends of its segments, from the left
}

// PathPoint is a place of a tendon with angle and length from its left anchor.
type PathPoint struct {
	X      float64 `json:"x"`           // m
	Y      float64 `json:"y"`           // m
	Z      float64 `json:"z"`           // m
	Angle  float64 `json:"a,omitempty"` // rad
	Length float64 `json:"s"`           // m

	// Elevation and Plan are what the curve is from here to the next point: straight,
	// parabola, cubic or circle; "" at the last one.
	Elevation string `json:"elev,omitempty"`
	Plan      string `json:"plan,omitempty"`
}

// StageRecord is one stage of the plan with its results.
type StageRecord struct {
	Number     int               `json:"number"`     // the first is 1
	Name       string            `json:"name"`       // that of its first situation
	Age        float64           `json:"age"`        // d
	Situations []SituationRecord `json:"situations"` // in order
}

// SituationRecord is one situation with its results.
//
// In a brief one every check has its numbers; a derivation is written only for a check that
// fails, for the governing one of each stage, and of checks alike for the governing one of
// the whole plan. Forces along tendons and anchorage zones are given of those stressed in it,
// forces at places of checks where these are derived, and movements in the last situation of
// a stage.
type SituationRecord struct {
	Name       string             `json:"name"`                 // in words
	Age        float64            `json:"age"`                  // d
	Day        float64            `json:"day"`                  // of the project, d
	Until      float64            `json:"until,omitempty"`      // age, d
	Standing   bool               `json:"standing,omitempty"`   // the weight is carried forward
	Brief      bool               `json:"brief,omitempty"`      // see above
	Phase      string             `json:"phase"`                // a limits.Phase
	Supports   []Support          `json:"supports"`             // on which it rests or from which it is suspended
	Equipment  []EquipmentItem    `json:"equipment,omitempty"`  // what holds or carries it
	Method     StressingMethod    `json:"method,omitzero"`      // of a stressing, as the method statement says
	Braces     *Bracing           `json:"braces,omitempty"`     // fixed before the slings are released; nil for none
	OutOfLevel float64            `json:"outOfLevel,omitempty"` // m
	Roll       float64            `json:"roll,omitempty"`       // rad, both ways
	Gradient   float64            `json:"gradient,omitempty"`   // rad, both ways
	Mass       Mass               `json:"mass"`                 // nominal self-weight of all elements carried, with centre of gravity
	Weight     Range              `json:"weight"`               // factor on that weight for the tolerance; for elements of unlike tolerance that of their sum
	Dynamic    Range              `json:"dynamic"`              // dynamic factor
	Together   []Together         `json:"together,omitempty"`   // lift points that hang on one hook or at one x
	DynamicBy  formula.Source     `json:"dynamicBy,omitzero"`   // where it comes from; empty for an input
	Events     []Group            `json:"events,omitempty"`     // operations on tendons and elements
	Added      []string           `json:"added,omitempty"`      // marks of the elements that become weight that is carried
	Joined     []string           `json:"joined,omitempty"`     // marks of the elements that act with their neighbours from here on
	Concrete   []int              `json:"concrete,omitempty"`   // strength at this stage: lines by number
	Basis      string             `json:"basis"`                // of that strength, in words
	Strength   float64            `json:"strength"`             // assumed characteristic cylinder strength, Pa
	Loads      []Load             `json:"loads,omitempty"`      // actions beside the weight
	Reactions  []Reaction         `json:"reactions"`            // in the order of the supports
	Total      Range              `json:"total"`                // of all reactions together at rest, N: the total of the gauges
	Present    [][2]float64       `json:"present,omitempty"`    // x from and to of every body, m; of a girder of segments whose plan has brief situations
	Joints     []JointRecord      `json:"joints,omitempty"`     // those that act, from left to right, where Present is
	Bodies     []BodyRecord       `json:"bodies,omitempty"`     // where there are several, in the order of Reaction.Body; none for one
	HoldPoints []derive.HoldPoint `json:"hold,omitempty"`       // values to be shown first
	Stations   derive.Rows        `json:"stations"`             // for the table, from left to right; see StationsOf
	Diagram    derive.Rows        `json:"diagram"`              // for figures: where a curve bends or jumps, with both sides of a jump
	Moves      derive.Rows        `json:"moves,omitzero"`       // movements of every body of a standing situation: body, x, deflection (up +), its band for creep, bow (left +), along
	MoveNotes  []string           `json:"moveNotes,omitempty"`  // what the movements neglect
	Tendons    []TendonForce      `json:"tendons,omitempty"`    // of the tendons stressed so far
	Stressing  []Stressing        `json:"stressing,omitempty"`  // of the tendons jacked in this situation, in order
	Placed     PlacedForces       `json:"placed,omitzero"`      // forces and losses of tendons where checks govern
	Steps      []ElasticStep      `json:"steps,omitempty"`      // of stressing, in order, with the elastic losses of each
	Checks     []Check            `json:"checks"`               // each at its governing place
	Figures    []Figure           `json:"figures,omitempty"`    // of this operation
	NotChecked []string           `json:"notChecked,omitempty"` // what is left out, where and why
	Unanswered []string           `json:"unanswered,omitempty"` // questions without an answer of the standard: the situation is not fully checked
}

// BodyRecord is elements that act together and rest on supports of their own.
type BodyRecord struct {
	Elements []string `json:"elements"` // their marks
	Total    Range    `json:"total"`    // of its reactions together at rest, N
}

// Station is the internal forces and the stresses at one x.
type Station struct {
	X         float64        // m
	Axis      section.Point  // centroid of the gross section there, of the first element that is carried: bending moments are about it, m
	Weight    section.Forces // of self-weight and actions always present, nominal, on the supports of the situation; T about y = z = 0
	Prestress section.Forces // of the mean prestress, about the same axes
	// Stresses at the highest and the lowest corner, minimum and maximum over the
	// factors of the service limit, Pa, tension +.
	TopLeast, TopMost       float64
	BottomLeast, BottomMost float64
}

// TendonForce is the force of a tendon at anchors and mid-length (N).
type TendonForce struct {
	Mark   string  `json:"mark"`             // name on the drawing
	Left   float64 `json:"l"`                // at the left anchor, N
	Middle float64 `json:"m"`                // at mid-length, N
	Right  float64 `json:"r"`                // at the right anchor, N
	Bonded bool    `json:"bonded,omitempty"` // grouted by then
	// Losses are the losses at mid-length from the last jacking force, for pretensioned
	// strands from the stress just before release, Pa, a loss positive. For a force that
	// is given, Friction is the loss by friction and draw-in together.
	Losses tendon.Losses `json:"lost"`
	// Given names the document that states the force after lock-off; none: computed.
	Given string `json:"given,omitempty"`
	// Deviations are the forces on the concrete at kinks after lock-off, later losses
	// not taken off: at deviators and hold-downs.
	Deviations []tendon.Deviation `json:"deviations,omitempty"`
	// Along is the force along the tendon, for a figure: x to 1 mm and force to 10 N at
	// places between which a straight line is right to a thousandth.
	// In a brief situation only of a tendon stressed in it.
	Along [][2]float64 `json:"along,omitempty"`
}

// Figure is a drawing as plain data: polylines and texts in one frame, in SI.
type Figure struct {
	Title string     `json:"title"`           // caption
	XUnit string     `json:"xUnit"`           // unit of the abscissa
	YUnit string     `json:"yUnit"`           // unit of the ordinate
	Lines []Polyline `json:"lines"`           // curves
	Texts []Text     `json:"texts,omitempty"` // labels

	// Exaggerated: the ordinates are small lengths, e.g. deflections, on a scale of their own.
	Exaggerated bool `json:"exaggerated,omitempty"`

	// Tabulated: sheets print the values of the curves beneath it, in a table with a row for
	// each abscissa, which all curves have in common.
	Tabulated bool `json:"tabulated,omitempty"`
}

// Polyline is a named curve.
type Polyline struct {
	Name   string       `json:"name"`   // for the legend
	Points [][2]float64 `json:"points"` // abscissa and ordinate
}

// Text is a label at a place.
type Text struct {
	At   [2]float64 `json:"at"`   // abscissa and ordinate
	Text string     `json:"text"` // the label
}

// Governing is the governing check of each stage, in order, and the index of the
// governing one of all; −1 when there is no stage. The worse state governs (fail, not
// evaluated, conditional, pass), then the larger utilisation.
func (r Record) Governing() (perStage []Check, worst int) {
	worst = -1
	for _, stage := range r.Stages {
		var governs *Check
		for _, situation := range stage.Situations {
			for i := range situation.Checks {
				if c := &situation.Checks[i]; governs == nil || c.worse(*governs) {
					governs = c
				}
			}
		}
		if governs == nil {
			perStage = append(perStage, Check{Name: "no check", State: NotEvaluated, Note: "no standard answered a question of this stage"})
		} else {
			perStage = append(perStage, *governs)
		}
		if last := len(perStage) - 1; worst < 0 || perStage[last].worse(perStage[worst]) {
			worst = last
		}
	}
	return perStage, worst
}

// Status is the state of the governing check of all stages; NotEvaluated when there is
// no stage, or when no check fails but a question is unanswered.
func (r Record) Status() State {
	perStage, worst := r.Governing()
	if worst < 0 {
		return NotEvaluated
	}
	state := perStage[worst].State
	if state != Pass && state != Conditional {
		return state
	}
	for _, stage := range r.Stages {
		for _, situation := range stage.Situations {
			if len(situation.Unanswered) > 0 {
				return NotEvaluated
			}
		}
	}
	return state
}
