//go:build race

package main

// tested is how many pairs are built with the race detector, under which all take minutes.
const tested = 2
