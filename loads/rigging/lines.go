package rigging

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// practice is the source of figures that practice uses without a document.
var practice = formula.Source{Document: "common practice, no source"}

// stated is the source of what the engineer states.
var stated = formula.Source{Document: "as stated"}

func metres(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.Metre, name)
}

func newtons(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.Newton, name)
}

func number(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.One, name)
}

func radians(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.Radian, name)
}

// of is a symbol with the number of a crane, leg or support behind it.
func of(symbol string, n int) string { return fmt.Sprint(symbol, "_", n) }
