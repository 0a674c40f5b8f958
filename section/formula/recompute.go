package formula

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"sync"
	"sync/atomic"
)

// ErrExpression is wrapped by every error about an expression that cannot be read or
// whose value is not finite.
var ErrExpression = errors.New("expression")

// unary are the functions of one argument that an expression may call.
var unary = map[string]func(float64) float64{
	"sqrt": math.Sqrt, "exp": math.Exp, "ln": math.Log, "abs": math.Abs,
	"sin": math.Sin, "cos": math.Cos, "tan": math.Tan, "atan": math.Atan,
}

// Recompute evaluates the expression from the operands and returns the value in SI. It
// evaluates + - * /, parentheses, numbers, the operands' symbols, pi, and the functions
// sqrt, exp, ln, abs, sin, cos, tan, atan, pow(a, b), min(a, …) and max(a, …). For a
// line without an expression it returns Result.Value. The error wraps [ErrExpression]
// and names the part that cannot be read, the symbol without an operand, or a result
// that is not finite.
func (l Line) Recompute() (float64, error) {
	if l.Expression == "" {
		return l.Result.Value, nil
	}
	tree, err := parsed(l.Expression)
	if err != nil {
		return 0, fmt.Errorf("%w %q of %s: %v", ErrExpression, l.Expression, l.Result.Symbol, err)
	}
	value, err := l.evaluate(tree)
	if err == nil && (math.IsNaN(value) || math.IsInf(value, 0)) {
		err = fmt.Errorf("gives %g", value)
	}
	if err != nil {
		return 0, fmt.Errorf("%w %q of %s: %w", ErrExpression, l.Expression, l.Result.Symbol, err)
	}
	return value, nil
}

// trees keeps what has been parsed: the same few hundred expressions are derived
// again and again, and parsing costs ten times what evaluating does. Symbols may
// carry marks of the caller, so the store stops growing at mostTrees.
var (
	trees     sync.Map // string -> ast.Expr, never changed once stored
	treeCount atomic.Int64
)

const mostTrees = 4096

// parsed is the tree of an expression.
func parsed(expression string) (ast.Expr, error) {
	if tree, ok := trees.Load(expression); ok {
		return tree.(ast.Expr), nil
	}
	tree, err := parser.ParseExpr(expression)
	if err != nil {
		return nil, err
	}
	if treeCount.Load() < mostTrees {
		if _, had := trees.LoadOrStore(expression, tree); !had {
			treeCount.Add(1)
		}
	}
	return tree, nil
}

func (l Line) evaluate(node ast.Expr) (float64, error) {
	switch n := node.(type) {
	case *ast.ParenExpr:
		return l.evaluate(n.X)
	case *ast.BasicLit:
		return strconv.ParseFloat(n.Value, 64)
	case *ast.Ident:
		return l.operand(n.Name)
	case *ast.UnaryExpr:
		value, err := l.evaluate(n.X)
		if n.Op == token.SUB {
			value = -value
		} else if n.Op != token.ADD {
			return 0, fmt.Errorf("sign %q is not known", n.Op)
		}
		return value, err
	case *ast.BinaryExpr:
		return l.binary(n)
	case *ast.CallExpr:
		return l.call(n)
	}
	return 0, fmt.Errorf("part at column %d is not arithmetic", node.Pos())
}

func (l Line) operand(symbol string) (float64, error) {
	for _, q := range l.Operands {
		if q.Symbol == symbol {
			return q.Value, nil
		}
	}
	if symbol == "pi" {
		return math.Pi, nil
	}
	return 0, fmt.Errorf("symbol %q has no operand", symbol)
}

func (l Line) binary(n *ast.BinaryExpr) (float64, error) {
	a, err := l.evaluate(n.X)
	if err != nil {
		return 0, err
	}
	b, err := l.evaluate(n.Y)
	switch n.Op {
	case token.ADD:
		return a + b, err
	case token.SUB:
		return a - b, err
	case token.MUL:
		return a * b, err
	case token.QUO:
		return a / b, err
	}
	return 0, fmt.Errorf("operator %q is not known", n.Op)
}

func (l Line) call(n *ast.CallExpr) (float64, error) {
	name, ok := n.Fun.(*ast.Ident)
	if !ok {
		return 0, errors.New("a function must be called by its name")
	}
	values := make([]float64, len(n.Args))
	for i, arg := range n.Args {
		value, err := l.evaluate(arg)
		if err != nil {
			return 0, err
		}
		values[i] = value
	}
	switch f := unary[name.Name]; {
	case f != nil && len(values) == 1:
		return f(values[0]), nil
	case name.Name == "pow" && len(values) == 2:
		return math.Pow(values[0], values[1]), nil
	case name.Name == "min" && len(values) > 0:
		return fold(math.Min, values), nil
	case name.Name == "max" && len(values) > 0:
		return fold(math.Max, values), nil
	}
	return 0, fmt.Errorf("function %q with %d arguments is not known", name.Name, len(values))
}

func fold(f func(a, b float64) float64, values []float64) float64 {
	result := values[0]
	for _, v := range values[1:] {
		result = f(result, v)
	}
	return result
}
