package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/concrete"
)

// Waits are moves from one day of the project to another in which nothing is done, at days
// that grow geometrically: creep is put to the system of supports at each, so that
// redistribution comes to superposition in time. Number is 1 to 200.
// The error wraps [ErrSegmental].
func Waits(from, until float64, number int) ([]Move, error) {
	if number < 1 || number > 200 {
		return nil, fmt.Errorf("%w: number of waits = %d: must be 1 to 200", ErrSegmental, number)
	}
	days, err := concrete.StepDays(from, until, number)
	if err != nil {
		return nil, fmt.Errorf("%w: waits: %w", ErrSegmental, err)
	}
	var moves []Move
	for _, day := range days[1:] {
		moves = append(moves, Move{Do: Wait, Name: fmt.Sprintf("creep until day %.4g", day), Day: day})
	}
	return moves, nil
}
