package limits

import (
	"errors"
	"fmt"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// ErrLimits is wrapped by every error about a national value or a question that
// cannot be answered.
var ErrLimits = errors.New("limits")

// Kind is what is limited.
type Kind string

// What can be asked for. The demand that is compared is named behind each.
const (
	Compression       Kind = "concrete compression"               // largest compressive stress, Pa
	Tension           Kind = "concrete tension"                   // largest tensile stress, Pa
	TensionSteel      Kind = "bonded bars in the tension zone"    // steel area that the tension force needs, m²
	PrincipalTension  Kind = "principal tension in the web"       // Pa
	WebShear          Kind = "web shear stress"                   // Pa
	JackStress        Kind = "jacking stress"                     // Pa
	LockOffStress     Kind = "tendon stress after lock-off"       // Pa
	StressingStrength Kind = "concrete strength at stressing"     // mean cylinder strength, Pa, at least
	AnchorSpacing     Kind = "spacing of anchors"                 // m, at least
	AnchorEdge        Kind = "edge distance of anchors"           // m, at least
	DuctSpacing       Kind = "clear distance between ducts"       // m, at least
	Uplift            Kind = "uplift at a support"                // least reaction, N, at least
	Overturning       Kind = "overturning about the support line" // destabilising moment, N·m
	Sliding           Kind = "sliding at the supports"            // horizontal force, N
	SetDown           Kind = "set-down"                           // the stage that follows a lift; asked of no standard
	Roll              Kind = "roll about the axis"                // height of the roll axis above the centre of gravity, m, at least; asked of no standard
)

// Phase is what is being done to the element.
type Phase string

// The phases of a precast element's temporary life.
const (
	Stressing Phase = "stressing" // transfer of prestress and second-stage stressing
	Lifting   Phase = "lifting"   // suspended from slings or hoists
	Storing   Phase = "storing"   // on dunnage
	Seating   Phase = "seating"   // on its bearings or jacks
	Hauling   Phase = "hauling"   // on a trailer or carrier
)

// Phases are all phases.
func Phases() []Phase { return []Phase{Stressing, Lifting, Storing, Seating, Hauling} }

// Question is what the engine asks a Standard.
type Question struct {
	Kind        Kind           // what is limited
	Phase       Phase          // what is being done
	Place       Place          // where
	Concrete    concrete.State // there, at that age
	Tendon      *tendon.Tendon // for the questions about tendons, ducts and anchors
	Neighbour   *tendon.Tendon // for DuctSpacing: the other tendon
	Above       bool           // for DuctSpacing: one duct is above the other, more than beside it
	TensionZone TensionZone    // for TensionSteel
	Accidental  bool           // an accidental action is present: for equilibrium its combination is asked for beside the usual one
}

// Place is where in a girder something is limited.
type Place struct {
	Piece string // mark of the element; "" for the only one
	Joint string // mark of the joint between two elements; "" inside an element
	Bars  bool   // bonded bars carry tension there
}

// TensionZone is the part of a section in tension.
type TensionZone struct {
	Force float64 // resultant of the tensile stresses, N
	Bars  float64 // area of the bonded bars in the zone, m²
}

// Sense says on which side of the limit the demand must stay.
type Sense string

// The two senses.
const (
	AtMost  Sense = "at most"
	AtLeast Sense = "at least"
)

// Limit states.
const (
	Serviceability = "SLS" // serviceability
	Ultimate       = "ULS" // strength
	Equilibrium    = "EQU" // loss of equilibrium
	Approval       = "approval"
	Detailing      = "detailing"
)

// Limit is what a standard allows.
//
// For Uplift, Overturning and Sliding the limit itself is geometry: the engine
// makes it, and takes clause and Factors from here.
type Limit struct {
	Kind       Kind             // what was asked
	Name       string           // what is limited, in words
	LimitState string           // SLS, ULS, EQU, approval or detailing
	Sense      Sense            // on which side the demand must stay
	Line       formula.Line     // the limit and how it was got
	Source     formula.Source   // standard with edition, and clause
	Factors    Factors          // on the actions
	Scale      formula.Quantity // by which the margin is made a ratio where the limit is zero
	BarStress  formula.Quantity // for TensionSteel: the stress at which the bars carry the tension force, Pa
	Friction   formula.Quantity // for Sliding: partial factor by which the least coefficient of friction is divided
	// LeansOnStrength is true when the limit follows the concrete's strength at
	// the age, so that it is conditional where a test is needed.
	LeansOnStrength bool
	Note            string // reach of the clause, e.g. that its use is by analogy
}

// Standard answers questions.
type Standard interface {
	// Limits are the limits that the standard sets on what is asked; none when it
	// sets none. The error wraps ErrLimits.
	Limits(Question) ([]Limit, error)
}

// All are several standards at once: each sets its own limits.
func All(standards ...Standard) Standard { return all(standards) }

type all []Standard

func (a all) Limits(q Question) ([]Limit, error) {
	var limits []Limit
	for i, standard := range a {
		if standard == nil {
			return nil, fmt.Errorf("%w: standard %d of All is nil: must be a standard", ErrLimits, i+1)
		}
		more, err := standard.Limits(q)
		if err != nil {
			return nil, err
		}
		limits = append(limits, more...)
	}
	return limits, nil
}
