package limits

import (
	"errors"
	"fmt"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// ErrLimits is wrapped by every error about a national value or a question that is out
// of range.
var ErrLimits = errors.New("limits")

// Kind is the kind of a limit.
type Kind string

// The kinds, each with its demand.
const (
	Compression       Kind = "concrete compression"               // largest compressive stress, Pa
	Tension           Kind = "concrete tension"                   // largest tensile stress, Pa
	TensionSteel      Kind = "bonded bars in the tension zone"    // steel area required by the tension force, m²
	PrincipalTension  Kind = "principal tension in the web"       // Pa
	WebShear          Kind = "web shear stress"                   // Pa
	JackStress        Kind = "jacking stress"                     // Pa
	LockOffStress     Kind = "tendon stress after lock-off"       // Pa
	StressingStrength Kind = "concrete strength at stressing"     // mean cylinder strength, Pa, at least
	AnchorSpacing     Kind = "spacing of anchors"                 // m, at least
	AnchorEdge        Kind = "edge distance of anchors"           // m, at least
	DuctSpacing       Kind = "clear distance between ducts"       // m, at least
	Uplift            Kind = "uplift at a support"                // minimum reaction, N, at least
	Overturning       Kind = "overturning about the support line" // destabilising moment, N·m
	Sliding           Kind = "sliding at the supports"            // horizontal force, N
	SetDown           Kind = "set-down"                           // the stage that follows a lift; asked of no standard
	Roll              Kind = "roll about the axis"                // height of the roll axis above the centre of gravity, m, or roll stiffness of the supports, N·m/rad, at least; asked of no standard
	RollCracking      Kind = "roll: factor against cracking"      // at least
	RollOverturning   Kind = "roll: factor against overturning"   // at least
	RollTilt          Kind = "tilt at rest"                       // of a suspended element, rad; asked of no standard
	RollKern          Kind = "roll: resultant within the kern"    // its distance from the middle of the supports, m; asked of no standard
	BraceForce        Kind = "force in a brace"                   // N; asked of no standard
	LevelMatch        Kind = "level difference of the halves"     // m; asked of no standard
	PullForce         Kind = "force that pulls the halves level"  // N; asked of no standard
	StitchGap         Kind = "gap of the stitch by lateral bow"   // change of its width, m; asked of no standard
	StitchTie         Kind = "bars along the stitch"              // stress in them by differential shrinkage, Pa; asked of no standard
	SlingForce        Kind = "force in a sling"                   // N; asked of no standard
	SlingAngle        Kind = "angle of a sling"                   // from the vertical, rad; asked of no standard
	AnchorForce       Kind = "force in a lifting anchor"          // N; asked of no standard
	GroundPressure    Kind = "ground pressure below a mat"        // Pa; asked of no standard
	EdgeDistance      Kind = "distance of a mat from an edge"     // m, at least; asked of no standard
	LocalForce        Kind = "punching, fixings"                  // of the slab below a foot, a wheel, a jack, at a lift point, its bending there, the fixing of a foot, N; asked of no standard
	JointSpread       Kind = "joint before tendons have spread"   // tension at a joint near anchors, Pa; asked of no standard
	WallSpread        Kind = "walls before tendons have spread"   // principal tension near anchors, Pa; asked of no standard
	Elsewhere         Kind = "checks in another calculation"      // of a situation that is only carried along here; asked of no standard
	CraneUse          Kind = "use of the crane chart"             // gross load over the capacity of the chart
)

// Phase is the kind of operation on the element.
type Phase string

// The phases of a precast element's temporary life.
const (
	Stressing Phase = "stressing" // transfer of prestress and second-stage stressing
	Lifting   Phase = "lifting"   // suspended from slings or hoists
	Storing   Phase = "storing"   // on dunnage
	Seating   Phase = "seating"   // on its bearings or jacks
	Hauling   Phase = "hauling"   // on a trailer or carrier
	Striking  Phase = "striking"  // while the falsework below it is lowered and taken away
)

// Phases are all phases.
func Phases() []Phase { return []Phase{Stressing, Lifting, Storing, Seating, Hauling, Striking} }

// Question is a question of package stages to a Standard.
type Question struct {
	Kind        Kind           // what is limited
	Phase       Phase          // what is being done
	Place       Place          // where
	Concrete    concrete.State // there, at that age
	Tendon      *tendon.Tendon // for the questions about tendons, ducts and anchors
	Neighbour   *tendon.Tendon // for DuctSpacing: the other tendon
	Above       bool           // for DuctSpacing: one duct is above the other, not beside it
	TensionZone TensionZone    // for TensionSteel
	Cranes      int            // for CraneUse: cranes that carry the element together
	Accidental  bool           // an accidental action is present: for equilibrium its combination is asked for as well
}

// Place is the place of a question in a girder.
type Place struct {
	Piece string // mark of the element; "" for the only one
	Joint string // mark of the joint between two elements; "" inside an element
	Bars  bool   // bonded bars can carry tension there
}

// TensionZone is the part of a section in tension.
type TensionZone struct {
	Force float64 // resultant of the tensile stresses, N
	Bars  float64 // area of the bonded bars in the zone, m²
}

// Sense is whether the demand must be at most or at least the limit.
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
	WorkingLoad    = "WLL" // working load limits and rated capacities
	Approval       = "approval"
	Detailing      = "detailing"
)

// Limit is a limit of a standard.
//
// For Uplift, Overturning and Sliding the limit itself is geometry: package stages
// makes it, with clause and Factors from here.
type Limit struct {
	Kind       Kind             // what was asked
	Name       string           // what is limited, in words
	LimitState string           // SLS, ULS, EQU, WLL, approval or detailing
	Sense      Sense            // whether the demand must be at most or at least the limit
	Line       formula.Line     // the limit with its derivation
	Source     formula.Source   // standard with edition, and clause
	Factors    Factors          // on the actions
	Scale      formula.Quantity // divisor of the margin for the utilisation where the limit is zero
	BarStress  formula.Quantity // for TensionSteel: the stress at which the bars carry the tension force, Pa
	Friction   formula.Quantity // for Sliding: partial factor by which the minimum coefficient of friction is divided
	// LeansOnStrength is true when the limit depends on the strength of the concrete at
	// that age: the check is conditional where a test is needed.
	LeansOnStrength bool
	Note            string // range of the clause, e.g. that its use is by analogy
}

// Standard gives the limits for a question.
type Standard interface {
	// Limits are the limits of the standard for the question; none where it has none.
	// The error wraps ErrLimits.
	Limits(Question) ([]Limit, error)
}

// All are several standards at once: every limit of each applies.
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
