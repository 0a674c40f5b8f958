package concrete

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// Specimen is the shape of the tested specimens.
type Specimen int

// The specimens of EN 12390-1. The zero value is an error: it must be stated.
const (
	Cylinder Specimen = iota + 1 // 150 mm × 300 mm
	Cube                         // 150 mm
)

// Statistic is the kind of value that the strength of a test is.
type Statistic int

// The zero value is an error: it must be stated.
const (
	Mean           Statistic = iota + 1 // mean of the specimens
	Characteristic                      // 5 % fractile, already derived from the sample
)

// Test is a compressive strength measured at an age. Specimen and Statistic must be
// stated: a cube strength is above a cylinder strength, a mean above a characteristic
// value.
type Test struct {
	Age       float64   // d, of the specimens when crushed
	Strength  float64   // Pa
	Specimen  Specimen  // Cylinder or Cube
	Specimens int       // number crushed, at least 1
	Statistic Statistic // Mean or Characteristic
	Report    string    // reference of the test report, printed on the sheet

	asked bool  // not a test but the strength that one would have to show
	below *Test // the earlier test that this one contradicts
}

func (t Test) check() error {
	err := within(bound{"Test.Age", t.Age, "d", 0.01, oldest, ""}, bound{"Test.Strength", t.Strength, "Pa", leastStrength, mostStrength, ""})
	switch {
	case err != nil:
		return err
	case t.Specimen != Cylinder && t.Specimen != Cube:
		return fmt.Errorf("%w: Test.Specimen at %g d is not stated: must be Cylinder or Cube", ErrConcrete, t.Age)
	case t.Statistic != Mean && t.Statistic != Characteristic:
		return fmt.Errorf("%w: Test.Statistic at %g d is not stated: must be Mean or Characteristic", ErrConcrete, t.Age)
	case t.Specimens < 1:
		return fmt.Errorf("%w: Test.Specimens = %d at %g d: must be at least 1", ErrConcrete, t.Specimens, t.Age)
	}
	return nil
}

// String is the test in words, for the sheet.
func (t Test) String() string {
	kind, what := "cylinder", "mean"
	if t.Specimen == Cube {
		kind = "cube"
	}
	if t.Statistic == Characteristic {
		what = "characteristic value"
	}
	if t.Specimens > 1 {
		kind += "s"
	}
	text := fmt.Sprintf("test at %g d: %d %s, %s %s", t.Age, t.Specimens, kind, what, megapascals(t.Strength))
	if strings.TrimSpace(t.Report) == "" {
		text += ", no reference given"
	} else {
		text += ", " + t.Report
	}
	if t.below != nil {
		text += ", less than the earlier " + t.below.String()
	}
	return text
}

// strengths are the mean and characteristic cylinder strength that the test
// shows, with their lines. fck = fcm − 8 MPa (EN 1992-1-1, 3.1.2(5)) is taken
// as 1.64 standard deviations of a known scatter; a mean of n specimens loses
// √(1 + 1/n) of them (EN 1990, D.7.2, the k_n of Table D1 for V_X known).
func (t Test) strengths() (mean, characteristic formula.Line, err error) {
	tested := formula.Q("f_test", t.Strength, formula.Pascal, t.String())
	cylinder := tested
	expression := "f_test"
	operands := []formula.Quantity{tested}
	if t.Specimen == Cube {
		ratio, err := cylinderOverCube(t.Strength)
		if err != nil {
			return mean, characteristic, err
		}
		cylinder.Value *= ratio
		expression = "f_test*η_cube"
		operands = append(operands, formula.Q("η_cube", ratio, formula.One, "cylinder over cube strength, Table 3.1"))
	}
	fcm := formula.Q("f_cm_t", 0, formula.Pascal, "mean cylinder strength at the age")
	fck := formula.Q("f_ck_t", 0, formula.Pascal, "characteristic cylinder strength at the age")
	if t.Statistic == Characteristic {
		characteristic, err = formula.Derive(fck, expression, strengthClasses, operands...)
		if err != nil {
			return mean, characteristic, err
		}
		mean, err = formula.Derive(fcm, "f_ck_t + 8e6", clause("3.1.2(5)"), characteristic.Result)
		return mean, characteristic, err
	}
	mean, err = formula.Derive(fcm, expression, strengthClasses, operands...)
	if err != nil {
		return mean, characteristic, err
	}
	characteristic, err = formula.Derive(fck, "f_cm_t - 8e6*sqrt(1 + 1/n)",
		formula.Source{Document: "EN 1992-1-1:2004", Place: "3.1.2(5) with EN 1990 D.7.2, Table D1, V_X known", Confirm: true},
		mean.Result, formula.Q("n", float64(t.Specimens), formula.One, "number of specimens"))
	if err == nil {
		err = t.positive(characteristic.Result.Value)
	}
	return mean, characteristic, err
}

// mean is the mean cylinder strength that the test shows (Pa), without lines.
func (t Test) mean() (float64, error) {
	characteristic, err := t.characteristic()
	if t.Statistic == Characteristic {
		return characteristic + 8e6, err
	}
	return characteristic + 8e6*math.Sqrt(1+1/float64(t.Specimens)), err
}

// characteristic is the characteristic cylinder strength that the test shows (Pa),
// without lines.
func (t Test) characteristic() (float64, error) {
	strength := t.Strength
	if t.Specimen == Cube {
		ratio, err := cylinderOverCube(strength)
		if err != nil {
			return 0, err
		}
		strength *= ratio
	}
	if t.Statistic == Characteristic {
		return strength, nil
	}
	strength -= 8e6 * math.Sqrt(1+1/float64(t.Specimens))
	return strength, t.positive(strength)
}

// positive refuses a test that shows no characteristic strength (Pa).
func (t Test) positive(characteristic float64) error {
	if characteristic > 0 {
		return nil
	}
	return fmt.Errorf("%w: %s: characteristic cylinder strength would be %.3g MPa: must be positive", ErrConcrete, t, characteristic/1e6)
}

// MeanFor is the mean strength (Pa) of so many specimens that shows a characteristic
// strength (Pa) of the same kind: 8 MPa above it, EN 1992-1-1:2004 3.1.2(5) and Table
// 3.1, times √(1 + 1/n) for their number, see [Test]. Fewer than one specimen counts as
// one.
func MeanFor(characteristic float64, specimens int) float64 {
	return characteristic + 8e6*math.Sqrt(1+1/float64(max(1, specimens)))
}

// CubeFor is the cube strength (Pa) that goes with a cylinder strength (Pa), as for a
// [Test] on cubes: the strength classes of EN 1992-1-1:2004 Table 3.1, linear between
// them, cylinder over 0.8 below the lowest. The error wraps [ErrConcrete]: a strength
// below 0.1 MPa, or above the highest class.
func CubeFor(cylinder float64) (float64, error) {
	mega, first, last := cylinder/1e6, classes[0], classes[len(classes)-1]
	if err := within(bound{"cylinder strength", cylinder, "Pa", leastStrength, last[0] * 1e6, " (the last class of Table 3.1)"}); err != nil {
		return 0, err
	}
	if mega <= first[0] {
		return cylinder * first[1] / first[0], nil
	}
	i := 1
	for classes[i][0] < mega {
		i++
	}
	a, b := classes[i-1], classes[i]
	return (a[1] + (mega-a[0])/(b[0]-a[0])*(b[1]-a[1])) * 1e6, nil
}

var strengthClasses = formula.Source{Document: "EN 1992-1-1:2004", Place: "Table 3.1", Confirm: true}

// classes are the cylinder and cube strengths of the strength classes in MPa,
// EN 1992-1-1:2004 Table 3.1.
var classes = [][2]float64{
	{12, 15}, {16, 20}, {20, 25}, {25, 30}, {30, 37}, {35, 45}, {40, 50},
	{45, 55}, {50, 60}, {55, 67}, {60, 75}, {70, 85}, {80, 95}, {90, 105},
}

// cylinderOverCube is the ratio of cylinder to cube strength at a cube strength
// (Pa): the strength classes, linear between them, 0.8 below the lowest; above
// the highest it refuses.
func cylinderOverCube(cube float64) (float64, error) {
	mega := cube / 1e6
	last := classes[len(classes)-1]
	if mega > last[1] {
		return 0, fmt.Errorf("%w: cube strength %.4g MPa: must be up to %g MPa, the last class of Table 3.1", ErrConcrete, mega, last[1])
	}
	if first := classes[0]; mega <= first[1] {
		return first[0] / first[1], nil
	}
	i := 1
	for classes[i][1] < mega {
		i++
	}
	a, b := classes[i-1], classes[i]
	cylinder := a[0] + (mega-a[1])/(b[1]-a[1])*(b[0]-a[0])
	return cylinder / mega, nil
}
