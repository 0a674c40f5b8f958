//go:build !race

package sheet

// underRace is true with the race detector.
const underRace = false
