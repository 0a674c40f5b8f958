package sheet

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strings"
)

// symbolHTML is a symbol with its indices set low: "σ_c_max" is σ with the
// indices c,max; the index p01k, which a formula writes without its point, has it.
func symbolHTML(symbol string) string {
	letter, index, found := strings.Cut(symbol, "_")
	if !found || letter == "" || index == "" {
		return escapeHTML(symbol)
	}
	return escapeHTML(letter) + "<sub>" + escapeHTML(strings.ReplaceAll(strings.ReplaceAll(index, "_", ","), "p01k", "p0.1k")) + "</sub>"
}

// typesetting writes an expression of a formula.Line as it is written by hand, with
// its operands as symbols or as numbers.
type typesetting struct {
	operand func(symbol string) prose
	bare    bool                      // an operand needs no brackets under a power
	number  func(*ast.BasicLit) prose // none: as it stands
}

// symbolic is an expression in symbols; one that cannot be read stays as it is.
func symbolic(expression string) prose {
	return typesetting{operand: func(symbol_ string) prose { return prose{{symbol, symbol_}} }, bare: true}.of(expression)
}

func (t typesetting) of(expression string) prose {
	tree, err := parser.ParseExpr(expression)
	if err != nil {
		return words(expression)
	}
	return t.node(tree)
}

func (t typesetting) node(node ast.Expr) prose {
	switch n := node.(type) {
	case *ast.ParenExpr:
		return t.bracketed("(", n.X)
	case *ast.BasicLit:
		if t.number != nil {
			return t.number(n)
		}
		return literal(n.Value)
	case *ast.Ident:
		if n.Name == "pi" {
			return words("π")
		}
		return t.operand(n.Name)
	case *ast.UnaryExpr:
		return append(words(strings.TrimSpace(sign(n.Op))), t.node(n.X)...)
	case *ast.BinaryExpr:
		return append(t.node(n.X).and(plain, sign(n.Op)), t.node(n.Y)...)
	case *ast.CallExpr:
		return t.call(n)
	}
	return words("?") // formula.Line.Recompute refuses what is not arithmetic
}

// bracketed are expressions in brackets behind an opening.
func (t typesetting) bracketed(opening string, list ...ast.Expr) prose {
	out := words(opening)
	for i, n := range list {
		if i > 0 {
			out = out.and(plain, ", ")
		}
		out = append(out, t.node(n)...)
	}
	return out.and(plain, ")")
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
	return op.String()
}

func (t typesetting) call(n *ast.CallExpr) prose {
	name, ok := n.Fun.(*ast.Ident)
	switch {
	case !ok:
		return words("?")
	case name.Name == "pow" && len(n.Args) == 2:
		base := t.bracketed("(", n.Args[0])
		if _, plain := n.Args[0].(*ast.Ident); plain && t.bare {
			base = t.node(n.Args[0])
		}
		return base.and(raisedUp, t.node(n.Args[1]).raw())
	case name.Name == "sqrt":
		return t.bracketed("√(", n.Args...)
	}
	return t.bracketed(name.Name+"(", n.Args...)
}

// literal is a number: 8e6 is 8·10 to the 6.
func literal(number string) prose {
	mantissa, exponent, found := strings.Cut(strings.ToLower(number), "e")
	if !found {
		return words(number)
	}
	ten := "10"
	if mantissa != "1" {
		ten = mantissa + "·10"
	}
	return words(ten).and(raisedUp, strings.Replace(strings.TrimPrefix(exponent, "+"), "-", "−", 1))
}
