package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// rectangle is b wide about y = at and h deep from z = low up.
func rectangle(t testing.TB, b, h, at, low float64) section.Shape {
	t.Helper()
	s, err := section.New([]section.Outline{{{Y: at - b/2, Z: low}, {Y: at + b/2, Z: low}, {Y: at + b/2, Z: low + h}, {Y: at - b/2, Z: low + h}}}, nil)
	require.NoError(t, err)
	return s
}

// cell is a box with walls of one thickness, soffit at z = 0, axis at y = 0.
func cell(t testing.TB, b, h, wall float64) section.Shape {
	t.Helper()
	s, err := section.New([]section.Outline{{{Y: -b / 2}, {Y: b / 2}, {Y: b / 2, Z: h}, {Y: -b / 2, Z: h}}},
		[]section.Outline{{{Y: -b/2 + wall, Z: wall}, {Y: b/2 - wall, Z: wall}, {Y: b/2 - wall, Z: h - wall}, {Y: -b/2 + wall, Z: h - wall}}})
	require.NoError(t, err)
	return s
}

// lopsided has no axis of symmetry: an L with a thick foot, as wide as it is told.
func lopsided(t testing.TB, wide float64) section.Shape {
	t.Helper()
	s, err := section.New([]section.Outline{{{Y: -0.5 * wide}, {Y: 0.9 * wide}, {Y: 0.9 * wide, Z: 0.3}, {Y: 0.1, Z: 0.4}, {Y: 0.1, Z: 1.5}, {Y: -0.5 * wide, Z: 1.7}}}, nil)
	require.NoError(t, err)
	return s
}

// law is internal forces along x.
type law struct {
	at func(x float64) section.Forces
}

func (l *law) At(x float64) section.Forces { return l.at(x) }

// level is the same forces everywhere.
func level(f section.Forces) ledger.Field {
	return &law{func(float64) section.Forces { return f }}
}

// point is a place in space, m.
type point struct{ x, y, z float64 }

// straight is a tendon on a straight line.
func straight(t testing.TB, from, to point, area, duct float64) ledger.Tendon {
	t.Helper()
	return harped(t, area, duct, from, to)
}

// harped is a tendon on straight lines from point to point.
func harped(t testing.TB, area, duct float64, through ...point) ledger.Tendon {
	t.Helper()
	var up, aside tendon.Curve
	for i := 1; i < len(through); i++ {
		a, b := through[i-1], through[i]
		up = append(up, tendon.Straight(tendon.Point{X: a.x, Ordinate: a.z}, tendon.Point{X: b.x, Ordinate: b.z}))
		aside = append(aside, tendon.Straight(tendon.Point{X: a.x, Ordinate: a.y}, tendon.Point{X: b.x, Ordinate: b.y}))
	}
	return along(t, up, aside, area, duct)
}

// along is a tendon on given curves.
func along(t testing.TB, up, aside tendon.Curve, area, duct float64) ledger.Tendon {
	t.Helper()
	path, err := tendon.Tendon{Mark: "T", Strand: tendon.Y1860S7x157, Strands: 7, Duct: 0.06, Elevation: up, Plan: aside, Harped: true, Friction: 0.2, Wobble: 0.005,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}}.Path()
	require.NoError(t, err)
	return ledger.Tendon{Path: path, Area: area, Modulus: 195e9, Duct: duct, Piece: -1}
}

// one is a girder of one piece.
func one(length float64, along section.Along, tendons ...ledger.Tendon) *ledger.Ledger {
	return &ledger.Ledger{Girder: ledger.Girder{Length: length, Pieces: []ledger.Piece{{To: length, Section: along}}, Tendons: tendons}}
}

// state adds the section of some pieces, all of one concrete and without bonded steel.
func state(l *ledger.Ledger, pieces ...int) *ledger.State {
	s := &ledger.State{Index: len(l.States), Pieces: pieces, Bonded: make([]bool, len(l.Girder.Tendons)), Modulus: ecm}
	for range pieces {
		s.Ratios = append(s.Ratios, 1)
	}
	l.States = append(l.States, s)
	return s
}

const ecm = 30e9 // Pa

// jack adds a step that brings a tendon to a force that is the same all along.
func jack(l *ledger.Ledger, on *ledger.State, force float64, tendons ...int) {
	step := ledger.Step{Tendons: tendons, States: []*ledger.State{on}, Day: float64(len(l.Steps)), Bonded: on.Bonded, Modulus: func(int) float64 { return ecm }}
	for range tendons {
		step.Force = append(step.Force, func(float64) float64 { return force })
	}
	l.Steps = append(l.Steps, step)
}

// release adds a step that lets tendons down.
func release(l *ledger.Ledger, on *ledger.State, tendons ...int) {
	l.Steps = append(l.Steps, ledger.Step{Release: true, Tendons: tendons, Force: make([]func(float64) float64, len(tendons)), States: []*ledger.State{on},
		Bonded: on.Bonded, Modulus: func(int) float64 { return ecm }})
}

// prestress is the cause with number 0 of every situation here.
const prestress = 0

// situation is entries behind all steps of stressing.
func situation(l *ledger.Ledger, entries ...ledger.Entry) *ledger.Situation {
	s := &ledger.Situation{Entries: entries, Steps: len(l.Steps), Prestress: prestress}
	s.Lay()
	return s
}

// plain is an entry without a cause.
func plain(on *ledger.State, f ledger.Field) ledger.Entry {
	return ledger.Entry{State: on, Field: f, Coefficient: 1, Inner: -1}
}

// fixed is a cause that is always 1, as prestress of a range of its own is outer.
var fixed = ledger.Cause{Least: 1, Most: 1, Outer: true}

func anywhere(*ledger.Stretch, ledger.Corner) bool { return true }

// extreme is the largest (+1) or smallest stress of the first piece.
func extreme(t testing.TB, l *ledger.Ledger, s *ledger.Situation, sign float64, causes ...ledger.Cause) ledger.Worst {
	t.Helper()
	d, err := l.Demand(s, append([]ledger.Cause{fixed}, causes...))
	require.NoError(t, err)
	w, err := d.Extreme(sign, 0, anywhere)
	require.NoError(t, err)
	require.True(t, w.Found)
	return w
}

// wall is the worst wall with ducts that are not grouted.
func wall(t testing.TB, l *ledger.Ledger, s *ledger.Situation, principal bool, causes ...ledger.Cause) ledger.Wall {
	t.Helper()
	d, err := l.Demand(s, append([]ledger.Cause{fixed}, causes...))
	require.NoError(t, err)
	w, cracked, err := d.WorstWall(ledger.WallQuery{Principal: principal, Filling: func(int) section.Filling { return section.NotGrouted }, Cracked: math.Inf(1)})
	require.NoError(t, err)
	require.Empty(t, cracked)
	require.True(t, w.Found)
	return w
}

// stretchOf is the stretch in whose inside x lies, with its number.
func stretchOf(t testing.TB, l *ledger.Ledger, x float64) (int, *ledger.Stretch) {
	t.Helper()
	grid := l.Grid()
	for k := range grid {
		if x > grid[k].From && x < grid[k].To {
			return k, &grid[k]
		}
	}
	t.Fatalf("no stretch at %g", x)
	return 0, nil
}
