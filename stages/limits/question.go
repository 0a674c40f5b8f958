package limits

import (
	"errors"
	"fmt"
	"math"

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
	Compression       Kind = "concrete compression"            // largest compressive stress, Pa
	Tension           Kind = "concrete tension"                // largest tensile stress, Pa
	TensionSteel      Kind = "bonded bars in the tension zone" // steel area that the tension force needs, m²
	PrincipalTension  Kind = "principal tension in the web"    // Pa
	WebShear          Kind = "web shear stress"                // Pa
	JackStress        Kind = "tendon stress at the jack"       // Pa
	LockOffStress     Kind = "tendon stress after locking off" // Pa
	StressingStrength Kind = "concrete strength at stressing"  // mean cylinder strength, Pa, at least
	AnchorSpacing     Kind = "spacing of anchors"              // m, at least
	AnchorEdge        Kind = "edge distance of anchors"        // m, at least
	Uplift            Kind = "uplift at a support"             // least reaction, N, at least
	Tipping           Kind = "tipping over a line of supports" // overturning moment, N·m
)

// Phase is what is being done to the element.
type Phase string

// The phases of a precast element's temporary life.
const (
	Stressing Phase = "stressing" // transfer of prestress and second-stage stressing
	Lifting   Phase = "lifting"   // hung from slings or hoists
	Storing   Phase = "storing"   // on dunnage
	Seating   Phase = "seating"   // on its bearings or jacks
)

// Question is what the engine asks a Standard.
type Question struct {
	Kind        Kind           // what is limited
	Phase       Phase          // what is being done
	Concrete    concrete.State // on the day
	Tendon      *tendon.Tendon // for the questions about tendons and anchors
	BondedBars  bool           // for Tension: bonded bars cross the tension zone
	TensionZone TensionZone    // for TensionSteel
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
)

// Factors are the partial factors that a limit puts on the actions.
type Factors struct {
	WeightLeast, WeightMost       float64 // on the weight: favourable, unfavourable; 0 means 1
	PrestressLeast, PrestressMost float64 // on the prestress: inferior, superior; 0 means 1
	VariableMost                  float64 // on other loads that may be there or not; 0 means 1
}

// Check reports factors that are not finite or whose least is above their most;
// the error wraps ErrLimits.
func (f Factors) Check() error {
	f = f.Filled()
	for _, p := range []struct {
		name        string
		least, most float64
	}{{"Weight", f.WeightLeast, f.WeightMost}, {"Prestress", f.PrestressLeast, f.PrestressMost}, {"Variable", 0, f.VariableMost}} {
		if !(p.least >= 0 && p.least <= p.most) || math.IsInf(p.most, 0) {
			return fmt.Errorf("%w: Factors on %s: least %g, most %g: allowed finite, 0 ≤ least ≤ most", ErrLimits, p.name, p.least, p.most)
		}
	}
	return nil
}

// Filled is the same with 1 for each 0.
func (f Factors) Filled() Factors {
	for _, p := range []*float64{&f.WeightLeast, &f.WeightMost, &f.PrestressLeast, &f.PrestressMost, &f.VariableMost} {
		if *p == 0 {
			*p = 1
		}
	}
	return f
}

// Limit is what a standard allows.
//
// For Uplift and Tipping the limit itself is geometry: the engine makes it, and
// takes clause and Factors from here.
type Limit struct {
	Kind       Kind             // what was asked
	Name       string           // what is limited, in words
	LimitState string           // SLS, ULS, EQU or approval
	Sense      Sense            // on which side the demand must stay
	Line       formula.Line     // the limit and how it was got
	Source     formula.Source   // standard with edition, and clause
	Factors    Factors          // on the actions
	Scale      formula.Quantity // by which the margin is made a ratio where the limit is zero
	BarStress  formula.Quantity // for TensionSteel: the stress at which the bars carry the tension force, Pa
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
			return nil, fmt.Errorf("%w: standard %d of All is nil: allowed a standard", ErrLimits, i+1)
		}
		more, err := standard.Limits(q)
		if err != nil {
			return nil, err
		}
		limits = append(limits, more...)
	}
	return limits, nil
}
