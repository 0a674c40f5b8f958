package sheet

import (
	"go/ast"
	"go/token"
	"math"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// dimension is the powers of force, length and time in a unit.
type dimension [3]float64

// dimensions are those of the units that a formula may mix; others count as none.
var dimensions = map[formula.Unit]dimension{
	formula.Pascal: {1, -2}, formula.Newton: {1}, formula.Metre: {0, 1}, formula.SquareMetre: {0, 2}, formula.CubicMetre: {0, 3}, formula.MetreToFourth: {0, 4}, formula.MetreToSixth: {0, 6},
	formula.NewtonMetre: {1, 1}, formula.NewtonMetrePerRadian: {1, 1}, formula.NewtonPerSquareMetre: {1, -2}, formula.NewtonPerMetre: {1, -1}, formula.NewtonPerCubic: {1, -3}, formula.NewtonSquareMetre: {1, 2},
	formula.PerMetre: {0, -1}, formula.RadianPerMetre: {0, -1}, perArea: {0, -2}, perVolume: {0, -3}, formula.Day: {0, 0, 1},
}

func (d dimension) plus(other dimension, times float64) dimension {
	for i := range d {
		d[i] += times * other[i]
	}
	return d
}

// literalUnits are the units that the numbers in a formula have by the quantities that
// they stand beside: in f_ck + 8e6 the number is a stress. A pure number has none.
type literalUnits struct {
	symbols map[string]dimension
	of      map[*ast.BasicLit]formula.Unit
	open    bool // a number has a power of force or length that no unit has
}

// unitsIn are the units of the numbers in the expression of a line.
func unitsIn(tree ast.Expr, l formula.Line) literalUnits {
	u := literalUnits{map[string]dimension{}, map[*ast.BasicLit]formula.Unit{}, false}
	for _, o := range l.Operands {
		u.symbols[o.Symbol] = dimensions[o.Unit]
	}
	u.give(tree, dimensions[l.Result.Unit])
	return u
}

// find is the dimension of a part of a formula; it is not known where a number in it may
// have one.
func (u literalUnits) find(node ast.Expr) (d dimension, known bool) {
	switch n := node.(type) {
	case *ast.ParenExpr:
		return u.find(n.X)
	case *ast.Ident:
		return u.symbols[n.Name], true
	case *ast.UnaryExpr:
		return u.find(n.X)
	case *ast.BinaryExpr:
		return u.findBinary(n)
	case *ast.CallExpr:
		return u.findCall(n)
	}
	return d, false
}

func (u literalUnits) findBinary(n *ast.BinaryExpr) (dimension, bool) {
	x, first := u.find(n.X)
	y, second := u.find(n.Y)
	switch n.Op {
	case token.MUL:
		return x.plus(y, 1), first && second
	case token.QUO:
		return x.plus(y, -1), first && second
	}
	if first {
		return x, true
	}
	return y, second
}

// findCall is the dimension of a function: of max and min that of a known argument, of
// a root or a power that of its base, which is none where a number in it may have it.
func (u literalUnits) findCall(n *ast.CallExpr) (dimension, bool) {
	switch name(n) {
	case "max", "min", "abs":
		for _, arg := range n.Args {
			if d, known := u.find(arg); known {
				return d, true
			}
		}
		return dimension{}, false
	case "sqrt", "pow":
		power := 0.5
		if len(n.Args) == 2 {
			power = constantOf(n.Args[1])
		}
		if d, known := u.find(n.Args[0]); known {
			return dimension{}.plus(d, power), true
		}
	}
	return dimension{}, true
}

func name(n *ast.CallExpr) string {
	if ident, ok := n.Fun.(*ast.Ident); ok {
		return ident.Name
	}
	return ""
}

// constantOf is a number or a quotient of numbers; 1 for anything else.
func constantOf(node ast.Expr) float64 {
	switch n := node.(type) {
	case *ast.BasicLit:
		if v, err := strconv.ParseFloat(n.Value, 64); err == nil {
			return v
		}
	case *ast.BinaryExpr:
		if n.Op == token.QUO {
			return constantOf(n.X) / constantOf(n.Y)
		}
	}
	return 1
}

// give puts on the numbers of a part of a formula what makes its dimension that wanted.
func (u *literalUnits) give(node ast.Expr, want dimension) {
	switch n := node.(type) {
	case *ast.BasicLit:
		u.put(n, want)
	case *ast.ParenExpr:
		u.give(n.X, want)
	case *ast.UnaryExpr:
		u.give(n.X, want)
	case *ast.BinaryExpr:
		if n.Op == token.MUL || n.Op == token.QUO {
			u.giveProduct(n, want)
			return
		}
		u.give(n.X, want)
		u.give(n.Y, want)
	case *ast.CallExpr:
		u.giveCall(n, want)
	}
}

func (u *literalUnits) giveCall(n *ast.CallExpr, want dimension) {
	switch name(n) {
	case "max", "min", "abs":
		for _, arg := range n.Args {
			u.give(arg, want)
		}
	case "sqrt", "pow":
		d, known := u.find(n.Args[0])
		if !known {
			d = dimension{}
		}
		u.give(n.Args[0], d)
	default:
		for _, arg := range n.Args {
			u.give(arg, dimension{})
		}
	}
}

// factorOf is a factor of a product with its power, 1 or −1.
type factorOf struct {
	node  ast.Expr
	power float64
}

func factorsOf(node ast.Expr, power float64) []factorOf {
	if n, ok := node.(*ast.BinaryExpr); ok && (n.Op == token.MUL || n.Op == token.QUO) {
		second := power
		if n.Op == token.QUO {
			second = -power
		}
		return append(factorsOf(n.X, power), factorsOf(n.Y, second)...)
	}
	return []factorOf{{node, power}}
}

// giveProduct gives what a product lacks to the factor that can take it: a lone one, or
// the number written with a power of ten.
func (u *literalUnits) giveProduct(n *ast.BinaryExpr, want dimension) {
	var open []factorOf
	missing := want
	for _, f := range factorsOf(n, 1) {
		d, known := u.find(f.node)
		if !known {
			open = append(open, f)
			continue
		}
		missing = missing.plus(d, -f.power)
		u.give(f.node, d)
	}
	taker := 0
	for i, f := range open {
		if lit, ok := f.node.(*ast.BasicLit); ok && strings.ContainsAny(lit.Value, "eE") {
			taker = i
		}
	}
	for i, f := range open {
		if i == taker {
			u.give(f.node, dimension{}.plus(missing, f.power))
		} else {
			u.give(f.node, dimension{})
		}
	}
}

// put notes the unit of a number.
func (u *literalUnits) put(n *ast.BasicLit, d dimension) {
	const tiny = 1e-9
	none := true
	for i := range d {
		none = none && math.Abs(d[i]) < tiny
	}
	if none {
		return
	}
	for _, unit := range []formula.Unit{formula.Pascal, formula.Newton, formula.NewtonMetre, formula.Metre, formula.SquareMetre, formula.PerMetre, formula.Day} {
		if same := dimensions[unit].plus(d, -1); math.Abs(same[0])+math.Abs(same[1])+math.Abs(same[2]) < tiny {
			u.of[n] = unit
			return
		}
	}
	u.open = u.open || math.Abs(d[0]) > tiny || math.Abs(d[1]) > tiny
}
