package stages

import (
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// Format is the number of the layout of a Record in JSON.
const Format = 1

// Record is the calculation as plain data: what was put in, what each situation
// does to the element, every check with its derivation. It holds no function
// and no number that is not finite, and the same input gives the same Record.
type Record struct {
	Format     int            `json:"format"`     // Format of this package
	Element    string         `json:"element"`    // mark
	Length     float64        `json:"length"`     // m
	Caution    []string       `json:"caution"`    // opens every sheet
	Basis      []string       `json:"basis"`      // models, conventions, what is neglected
	Inputs     []Group        `json:"inputs"`     // what was put in, with sources
	Outlines   []Drawing      `json:"outlines"`   // the section, for a figure
	Tendons    []TendonRecord `json:"tendons"`    // where they run
	Weights    []Load         `json:"weights"`    // parts of the weight at factor 1
	Stages     []StageRecord  `json:"stages"`     // in order of age
	NotChecked []string       `json:"notChecked"` // what no stage of this package checks
	Appendix   []Group        `json:"appendix"`   // creep coefficients and shrinkage strains, derived
}

// Group is a set of inputs under a heading.
type Group struct {
	Title string         `json:"title"` // heading
	Lines []formula.Line `json:"lines"` // its quantities
}

// Drawing is the section at one place: its outlines.
type Drawing struct {
	X        float64           `json:"x"`        // m
	Solids   []section.Outline `json:"solids"`   // outlines of concrete, m
	Voids    []section.Outline `json:"voids"`    // outlines of voids, m
	Centroid section.Point     `json:"centroid"` // of the gross section, m
}

// Load is a load on the element, for a figure and a table: at one place, or
// spread from one end to another.
type Load struct {
	Mark   string  `json:"mark"`   // what it is, in words
	From   float64 `json:"from"`   // m
	To     float64 `json:"to"`     // m; equal to From for a load at one place
	Force  float64 `json:"force"`  // N, downwards; 0 for a couple
	Couple float64 `json:"couple"` // N·m, anticlockwise; 0 for a force
	Centre float64 `json:"centre"` // x of its resultant, m
}

// TendonRecord is where a tendon runs and what it is.
type TendonRecord struct {
	Mark    string      `json:"mark"`    // name on the drawing
	Strands int         `json:"strands"` // number of strands
	Strand  string      `json:"strand"`  // designation of the strand
	Points  []PathPoint `json:"points"`  // ends of its pieces, from the left
}

// PathPoint is a place of a tendon with angle and length from its left anchor.
type PathPoint struct {
	X      float64 `json:"x"`      // m
	Y      float64 `json:"y"`      // m
	Z      float64 `json:"z"`      // m
	Angle  float64 `json:"angle"`  // rad
	Length float64 `json:"length"` // m
}

// StageRecord is one stage of the plan.
type StageRecord struct {
	Number     int               `json:"number"`     // the first is 1
	Name       string            `json:"name"`       // that of its first situation
	Age        float64           `json:"age"`        // d
	Situations []SituationRecord `json:"situations"` // in order
}

// SituationRecord is one situation with its results.
type SituationRecord struct {
	Name       string         `json:"name"`       // in words
	Age        float64        `json:"age"`        // d
	Day        float64        `json:"day"`        // of the project, d
	Until      float64        `json:"until"`      // age, d
	Standing   bool           `json:"standing"`   // weight is locked in
	Phase      string         `json:"phase"`      // a limits.Phase
	System     string         `json:"system"`     // where it rests or hangs, in words
	Events     []Group        `json:"events"`     // what is done to tendons
	Factors    []formula.Line `json:"factors"`    // weight and dynamic range
	Concrete   []formula.Line `json:"concrete"`   // strength on the day
	Basis      string         `json:"basis"`      // of that strength
	Loads      []Load         `json:"loads"`      // other loads that may be there or not
	Reactions  []Reaction     `json:"reactions"`  // in the order of the supports
	Stations   []Station      `json:"stations"`   // for the table, from left to right
	Diagram    []Station      `json:"diagram"`    // for figures: ends and middle of each smooth piece, so that jumps have both sides
	Tendons    []TendonForce  `json:"tendons"`    // of the tendons stressed so far
	Checks     []Check        `json:"checks"`     // each at its worst place
	Figures    []Figure       `json:"figures"`    // of this operation
	NotChecked []string       `json:"notChecked"` // where and what is left out, and why
	Unanswered []string       `json:"unanswered"` // questions that nobody answered: the situation is not fully checked
}

// Station is the internal forces and the stresses at one x.
type Station struct {
	X         float64        `json:"x"`         // m
	Weight    section.Forces `json:"weight"`    // from the weight of the situation, factor 1
	Prestress section.Forces `json:"prestress"` // from the mean prestress
	Evaluated bool           `json:"evaluated"` // false within the dispersion length of anchors
	// Stresses (Pa, tension +) at the highest and the lowest corner over all
	// service corners.
	TopLeast    float64 `json:"topLeast"`
	TopMost     float64 `json:"topMost"`     // Pa
	BottomLeast float64 `json:"bottomLeast"` // Pa
	BottomMost  float64 `json:"bottomMost"`  // Pa
}

// TendonForce is the force of a tendon at anchors and mid-length (N).
type TendonForce struct {
	Mark   string  `json:"mark"`   // name on the drawing
	Left   float64 `json:"left"`   // at the left anchor, N
	Middle float64 `json:"middle"` // at mid-length, N
	Right  float64 `json:"right"`  // at the right anchor, N
	Bonded bool    `json:"bonded"` // grouted by then
	// Losses are the parts of what is lost at mid-length since the jack stood
	// there, Pa, a loss positive.
	Losses tendon.Losses `json:"losses"`
	// Along is the force along the tendon: x (m) and force (N), for a figure.
	Along [][2]float64 `json:"along"`
}

// Figure is a drawing as plain data: polylines and texts in one frame, in SI.
type Figure struct {
	Title string     `json:"title"` // caption
	XUnit string     `json:"xUnit"` // unit of the abscissa
	YUnit string     `json:"yUnit"` // unit of the ordinate
	Lines []Polyline `json:"lines"` // curves
	Texts []Text     `json:"texts"` // labels
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

// Governing is the worst check of each stage, in order, and the index of the
// worst of all; −1 when there is no check. "Worst" is the worse state first
// (fail, conditional, not evaluated, pass), then the larger utilisation.
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

// Status is the outcome of the whole: that of its worst check; NotEvaluated when
// there is none, or when all pass but a question was left unanswered.
func (r Record) Status() State {
	perStage, worst := r.Governing()
	if worst < 0 {
		return NotEvaluated
	}
	if state := perStage[worst].State; state != Pass {
		return state
	}
	for _, stage := range r.Stages {
		for _, situation := range stage.Situations {
			if len(situation.Unanswered) > 0 {
				return NotEvaluated
			}
		}
	}
	return Pass
}
