package stages

import "math"

// hairlines are deviations that cannot be seen in a figure of each column: 0.5 % of
// its range.
func hairlines(rows [][]float64) []float64 {
	near := make([]float64, len(rows[0]))
	for j := range near {
		least, most := rows[0][j], rows[0][j]
		for _, row := range rows {
			least, most = math.Min(least, row[j]), math.Max(most, row[j])
		}
		near[j] = 5e-3*(most-least) + trifling
	}
	return near
}

// thinned are the rows between which a straight line over the first column gives each
// other column to what is near in it; both sides of a jump stay, and the smallest
// and the largest number of every column.
func thinned(rows [][]float64, near []float64) [][]float64 {
	if len(rows) < 3 {
		return rows
	}
	keep := make([]bool, len(rows))
	keep[0], keep[len(rows)-1] = true, true
	for j := 1; j < len(near); j++ {
		least, most := 0, 0
		for i, row := range rows {
			if row[j] < rows[least][j]-near[j]/100 {
				least = i
			}
			if row[j] > rows[most][j]+near[j]/100 {
				most = i
			}
		}
		keep[least], keep[most] = true, true
	}
	apart := func(a, b []float64) bool {
		for j := 1; j < len(near); j++ {
			if math.Abs(a[j]-b[j]) > near[j] {
				return true
			}
		}
		return false
	}
	for i := 1; i < len(rows); i++ {
		if rows[i][0] == rows[i-1][0] && apart(rows[i], rows[i-1]) {
			keep[i-1], keep[i] = true, true
		}
	}
	last := 0
	for i := 1; i < len(rows); i++ {
		if keep[i] {
			bend(rows, near, keep, last, i)
			last = i
		}
	}
	var list [][]float64
	for i, row := range rows {
		if keep[i] {
			list = append(list, row)
		}
	}
	return list
}

// bend keeps the row between two kept ones that is farthest off their chord, and so on,
// until none is farther off it than near.
func bend(rows [][]float64, near []float64, keep []bool, from, to int) {
	a, b := rows[from], rows[to]
	farthest, off := -1, 1.0
	for i := from + 1; i < to; i++ {
		t := 0.0
		if b[0] > a[0] {
			t = (rows[i][0] - a[0]) / (b[0] - a[0])
		}
		for j := 1; j < len(near); j++ {
			if d := math.Abs(rows[i][j]-a[j]-t*(b[j]-a[j])) / near[j]; d > off {
				farthest, off = i, d
			}
		}
	}
	if farthest < 0 {
		return
	}
	keep[farthest] = true
	bend(rows, near, keep, from, farthest)
	bend(rows, near, keep, farthest, to)
}
