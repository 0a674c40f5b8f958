package stages

import (
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// Format is the number of the layout of a Record in JSON.
const Format = 1

// Record is the calculation as plain data: what was put in, what each situation
// does to the element, every check with its derivation. It holds no function
// and no number that is not finite, and the same input gives the same Record.
type Record struct {
	Format     int            `json:"format"`
	Element    string         `json:"element"` // mark
	Length     float64        `json:"length"`  // m
	Caution    []string       `json:"caution"`
	Basis      []string       `json:"basis"` // models, conventions, what is neglected
	Inputs     []Group        `json:"inputs"`
	Outlines   []Drawing      `json:"outlines"` // the section, for a figure
	Tendons    []TendonRecord `json:"tendons"`
	Stages     []StageRecord  `json:"stages"`
	NotChecked []string       `json:"notChecked"`
}

// Group is a set of inputs under a heading.
type Group struct {
	Title string         `json:"title"`
	Lines []formula.Line `json:"lines"`
}

// Drawing is the section at one place: its outlines.
type Drawing struct {
	X      float64           `json:"x"` // m
	Solids []section.Outline `json:"solids"`
	Voids  []section.Outline `json:"voids"`
}

// TendonRecord is where a tendon runs and what it is.
type TendonRecord struct {
	Mark    string      `json:"mark"`
	Strands int         `json:"strands"`
	Strand  string      `json:"strand"`
	Points  []PathPoint `json:"points"`
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
	Number     int               `json:"number"`
	Name       string            `json:"name"`
	Age        float64           `json:"age"` // d
	Situations []SituationRecord `json:"situations"`
}

// SituationRecord is one situation with its results.
type SituationRecord struct {
	Name       string         `json:"name"`
	Age        float64        `json:"age"`   // d
	Day        float64        `json:"day"`   // of the project, d
	Until      float64        `json:"until"` // age, d
	Standing   bool           `json:"standing"`
	Phase      string         `json:"phase"`
	System     string         `json:"system"` // where it rests or hangs, in words
	Events     []Group        `json:"events"`
	Factors    []formula.Line `json:"factors"`  // weight and dynamic range
	Concrete   []formula.Line `json:"concrete"` // strength on the day
	Basis      string         `json:"basis"`    // of that strength
	Reactions  []Reaction     `json:"reactions"`
	Stations   []Station      `json:"stations"`
	Tendons    []TendonForce  `json:"tendons"`
	Checks     []Check        `json:"checks"`
	Figures    []Figure       `json:"figures"`
	NotChecked []string       `json:"notChecked"`
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
	TopMost     float64 `json:"topMost"`
	BottomLeast float64 `json:"bottomLeast"`
	BottomMost  float64 `json:"bottomMost"`
}

// TendonForce is the force of a tendon at anchors and mid-length (N).
type TendonForce struct {
	Mark   string  `json:"mark"`
	Left   float64 `json:"left"`
	Middle float64 `json:"middle"`
	Right  float64 `json:"right"`
	Bonded bool    `json:"bonded"`
}

// Figure is a drawing as plain data: polylines and texts in one frame, in SI.
type Figure struct {
	Title string     `json:"title"`
	XUnit string     `json:"xUnit"`
	YUnit string     `json:"yUnit"`
	Lines []Polyline `json:"lines"`
	Texts []Text     `json:"texts"`
}

// Polyline is a named curve.
type Polyline struct {
	Name   string       `json:"name"`
	Points [][2]float64 `json:"points"`
}

// Text is a label at a place.
type Text struct {
	At   [2]float64 `json:"at"`
	Text string     `json:"text"`
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

// Status is the outcome of the whole: that of its worst check, NotEvaluated
// when there is none.
func (r Record) Status() State {
	perStage, worst := r.Governing()
	if worst < 0 {
		return NotEvaluated
	}
	return perStage[worst].State
}
