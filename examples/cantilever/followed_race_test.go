//go:build race

package main

// followed is whether the test goes on to the end of the deck: with the race detector it takes minutes.
const followed = false
