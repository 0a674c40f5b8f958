package sheet

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strings"
)

// symbolHTML is a symbol with its indices set low: "σ_c_max" is σ with the
// indices c,max.
func symbolHTML(symbol string) string {
	letter, index, found := strings.Cut(symbol, "_")
	if !found || letter == "" || index == "" {
		return escapeHTML(symbol)
	}
	return escapeHTML(letter) + "<sub>" + escapeHTML(strings.ReplaceAll(index, "_", ",")) + "</sub>"
}

// expressionHTML is an expression of a formula.Line as it is written by hand:
// powers set high, roots with their sign. One that cannot be read stays as it is.
func expressionHTML(expression string) string {
	tree, err := parser.ParseExpr(expression)
	if err != nil {
		return escapeHTML(expression)
	}
	return nodeHTML(tree)
}

func nodeHTML(node ast.Expr) string {
	switch n := node.(type) {
	case *ast.ParenExpr:
		return "(" + nodeHTML(n.X) + ")"
	case *ast.BasicLit:
		return literalHTML(n.Value)
	case *ast.Ident:
		if n.Name == "pi" {
			return "π"
		}
		return symbolHTML(n.Name)
	case *ast.UnaryExpr:
		return strings.TrimSpace(sign(n.Op)) + nodeHTML(n.X)
	case *ast.BinaryExpr:
		return nodeHTML(n.X) + sign(n.Op) + nodeHTML(n.Y)
	case *ast.CallExpr:
		return callHTML(n)
	}
	return "?" // formula.Line.Recompute refuses what is not arithmetic
}

// sign is an operator; those of sums stand free.
func sign(op token.Token) string {
	switch op {
	case token.MUL:
		return "·"
	case token.SUB:
		return " − "
	case token.ADD:
		return " + "
	}
	return escapeHTML(op.String())
}

func callHTML(n *ast.CallExpr) string {
	name, ok := n.Fun.(*ast.Ident)
	if !ok {
		return "?"
	}
	arguments := make([]string, len(n.Args))
	for i, a := range n.Args {
		arguments[i] = nodeHTML(a)
	}
	if name.Name == "pow" && len(n.Args) == 2 {
		if _, plain := n.Args[0].(*ast.Ident); !plain {
			arguments[0] = "(" + arguments[0] + ")"
		}
		return arguments[0] + "<sup>" + arguments[1] + "</sup>"
	}
	if name.Name == "sqrt" {
		return "√(" + strings.Join(arguments, ", ") + ")"
	}
	return escapeHTML(name.Name) + "(" + strings.Join(arguments, ", ") + ")"
}

// literalHTML is a number: 8e6 is 8·10 to the 6.
func literalHTML(number string) string {
	mantissa, exponent, found := strings.Cut(strings.ToLower(number), "e")
	if !found {
		return escapeHTML(number)
	}
	ten := "10<sup>" + escapeHTML(strings.Replace(strings.TrimPrefix(exponent, "+"), "-", "−", 1)) + "</sup>"
	if mantissa == "1" {
		return ten
	}
	return escapeHTML(mantissa) + "·" + ten
}
