package answers_test

import (
	"fmt"

	"github.com/tempstage/tempstage/stages/answers"
)

// What strength before the lift, and when does the mix have it?
func ExampleLeastStrength() {
	s, err := answers.LeastStrength(handled(nil)) // a block of 12 m, stored, lifted, stored
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.Sentence())
	fmt.Printf("cube %.1f MPa, from %.1f d on\n", s.Cube/1e6, s.Least)
	// Output:
	// characteristic cylinder strength before lift: f_ck_t at least 29.5 MPa; below, principal tension in the web (not evaluated)
	// cube 36.2 MPa, from 5.6 d on
}

// How far may the lift points be from the ends, each 20 mm off?
func ExampleLiftWindow() {
	a, err := answers.LiftWindow(handled(nil), answers.Moved{Tolerance: 0.02})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(a.Sentence())
	// Output: lift points from both ends: a from 2.40 to 2.72 m; below, principal tension in the web (not evaluated); above, principal tension in the web (not evaluated)
}

// How much heavier may it be?
func ExampleWeightReserve() {
	a, err := answers.WeightReserve(handled(nil))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(a.Sentence())
	// Output: weight above nominal: ΔW/W at most 4.9 %; above, principal tension in the web (not evaluated)
}
