//go:build !race

package main

// followed is whether the test goes on to the end of the deck.
const followed = true
