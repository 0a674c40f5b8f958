//go:build race

package stages_test

// underRace is true with the race detector, which makes tests ten times as long: random
// ones try fewer values then, the run without it tries all.
const underRace = true
