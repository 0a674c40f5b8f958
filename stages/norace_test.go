//go:build !race

package stages_test

// underRace is true with the race detector.
const underRace = false
