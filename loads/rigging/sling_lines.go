package rigging

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section/formula"
)

// slingDerivation writes the lines of a sling.
type slingDerivation struct {
	formula.Chain
	weight  formula.Quantity
	places  map[string]formula.Quantity // coordinates by symbol
	lengths []formula.Quantity
	sines   []formula.Quantity
	cosines map[[2]int]formula.Quantity // between two legs
}

// Lines derive what [Sling.Solve] gives: of each leg its length, its angle, and its
// least and greatest force with the legs that carry then. The forces of two or three
// legs follow from the angles between them. The error is that of Solve.
func (s Sling) Lines() ([]formula.Line, error) {
	r, ways, err := s.solve()
	if err != nil {
		return nil, err
	}
	d := &slingDerivation{weight: newtons("W", s.Weight, "weight below the hook, at rest"), places: map[string]formula.Quantity{}, cosines: map[[2]int]formula.Quantity{}}
	d.place("H", s.Hook, "hook")
	d.place("G", s.CoG, "centre of gravity")
	lever := d.Derive(metres("l_G", 0, "distance from the centre of gravity to the hook"), product("H", "G", "H", "G", "sqrt(", ")"), formula.Mechanics, d.at("H", "G")...)
	d.Derive(radians("τ", 0, "tilt of the load, until its centre of gravity is below the hook"), "atan(sqrt(pow(x_H - x_G, 2) + pow(y_H - y_G, 2))/(z_H - z_G))", formula.Mechanics, d.at("H", "G")...)
	for i, p := range s.Legs {
		d.leg(i, p, lever)
	}
	if s.Sharing == Equalised {
		d.equalised()
		return d.Lines()
	}
	for i := range s.Legs {
		d.force(i, r.Legs[i].Force, ways)
	}
	return d.Lines()
}

// place keeps the coordinates of a point.
func (d *slingDerivation) place(point string, p r3.Vec, name string) {
	for axis, value := range map[string]float64{"x": p.X, "y": p.Y, "z": p.Z} {
		d.places[axis+"_"+point] = metres(axis+"_"+point, value, axis+" of the "+name)
	}
}

// at are the coordinates of points.
func (d *slingDerivation) at(points ...string) (coordinates []formula.Quantity) {
	for _, p := range points {
		coordinates = append(coordinates, d.places["x_"+p], d.places["y_"+p], d.places["z_"+p])
	}
	return coordinates
}

// product is the expression of the scalar product of a − b and c − d.
func product(a, b, c, d, before, behind string) string {
	var terms []string
	for _, axis := range []string{"x", "y", "z"} {
		first, second := fmt.Sprintf("%s_%s - %s_%s", axis, a, axis, b), fmt.Sprintf("%s_%s - %s_%s", axis, c, axis, d)
		if first == second {
			terms = append(terms, "pow("+first+", 2)")
		} else {
			terms = append(terms, "("+first+")*("+second+")")
		}
	}
	return before + strings.Join(terms, " + ") + behind
}

// leg appends the lines of the length and the angle of a leg.
func (d *slingDerivation) leg(i int, p r3.Vec, lever formula.Quantity) {
	n := fmt.Sprint(i + 1)
	d.place(n, p, "lower end of leg "+n)
	length := d.Derive(metres("l_"+n, 0, "length of leg "+n), product("H", n, "H", n, "sqrt(", ")"), formula.Mechanics, d.at("H", n)...)
	sine := d.Derive(number("s_"+n, 0, "sine of the angle to the horizontal of leg "+n), product("H", n, "H", "G", "(", ")")+"/("+length.Symbol+"*l_G)", formula.Mechanics, append(d.at("H", n, "G"), length, lever)...)
	d.Derive(radians("β_"+n, 0, "angle to the horizontal of leg "+n), fmt.Sprintf("2*atan(%[1]s/(1 + sqrt(max(0, 1 - %[1]s)*(1 + %[1]s))))", sine.Symbol), formula.Mechanics, sine)
	d.Note("the angle whose sine is s_" + n)
	d.lengths, d.sines = append(d.lengths, length), append(d.sines, sine)
}

// equalised appends the line of the force that all legs have.
func (d *slingDerivation) equalised() {
	sum := make([]string, len(d.sines))
	for i, s := range d.sines {
		sum[i] = s.Symbol
	}
	d.Derive(newtons("F", 0, "force in each leg"), "W/("+strings.Join(sum, " + ")+")", formula.Mechanics, append([]formula.Quantity{d.weight}, d.sines...)...)
	d.Note("the legs are equalised")
}

// force appends the lines of the least and the greatest force of a leg.
func (d *slingDerivation) force(i int, of Range, ways []way) {
	find := func(force float64) way {
		for _, w := range ways {
			if w.forces[i] == force {
				return w
			}
		}
		return way{}
	}
	n := i + 1
	if of.Least == of.Most {
		d.carried(i, fmt.Sprint("F_", n), "force", find(of.Most), len(ways))
		return
	}
	if of.Least == 0 {
		d.Given(newtons(fmt.Sprintf("F_%d_min", n), 0, fmt.Sprint("minimum force in leg ", n)), formula.Mechanics, find(0).words()+" can carry without it")
	} else {
		d.carried(i, fmt.Sprintf("F_%d_min", n), "minimum force", find(of.Least), len(ways))
	}
	d.carried(i, fmt.Sprintf("F_%d_max", n), "maximum force", find(of.Most), len(ways))
}

// legs are the numbers of the legs of a set, the first in front.
func (w way) legs(first int) (legs []int) {
	if w.set>>first&1 == 1 {
		legs = append(legs, first)
	}
	for i := range w.forces {
		if i != first && w.set>>i&1 == 1 {
			legs = append(legs, i)
		}
	}
	return legs
}

func (w way) words() string {
	var numbers []string
	for i := range w.forces {
		if w.set>>i&1 == 1 {
			numbers = append(numbers, fmt.Sprint(i+1))
		}
	}
	return "legs " + strings.Join(numbers, ", ")
}

// carried appends the line of the force of a leg in a set of at most three.
func (d *slingDerivation) carried(i int, symbol, name string, w way, ways int) {
	result := newtons(symbol, 0, fmt.Sprintf("%s in leg %d", name, i+1))
	legs := w.legs(i)
	sines := []formula.Quantity{d.weight}
	for _, l := range legs {
		sines = append(sines, d.sines[l])
	}
	var expression string
	switch len(legs) {
	case 1:
		expression = "W*" + sines[1].Symbol
	case 2:
		c := d.cosine(legs[0], legs[1])
		expression, sines = fmt.Sprintf("W*(%[1]s - %[3]s*%[2]s)/(1 - %[3]s*%[3]s)", sines[1].Symbol, sines[2].Symbol, c.Symbol), append(sines, c)
	default:
		a, b, c := d.cosine(legs[0], legs[1]), d.cosine(legs[0], legs[2]), d.cosine(legs[1], legs[2])
		expression = fmt.Sprintf("W*(%[1]s*(1 - %[6]s*%[6]s) + %[2]s*(%[5]s*%[6]s - %[4]s) + %[3]s*(%[4]s*%[6]s - %[5]s))/(1 + 2*%[4]s*%[5]s*%[6]s - %[4]s*%[4]s - %[5]s*%[5]s - %[6]s*%[6]s)",
			sines[1].Symbol, sines[2].Symbol, sines[3].Symbol, a.Symbol, b.Symbol, c.Symbol)
		sines = append(sines, a, b, c)
	}
	d.Derive(result, expression, formula.Mechanics, sines...)
	if ways == 1 {
		d.Note("by statics")
	} else {
		d.Note(fmt.Sprintf("%s carry, of %d statically determinate sets", w.words(), ways))
	}
}

// cosine is the cosine of the angle between two legs; its line is written once.
func (d *slingDerivation) cosine(i, j int) formula.Quantity {
	if i > j {
		i, j = j, i
	}
	if c, ok := d.cosines[[2]int{i, j}]; ok {
		return c
	}
	a, b := fmt.Sprint(i+1), fmt.Sprint(j+1)
	c := d.Derive(number("c_"+a+b, 0, "cosine of the angle between legs "+a+" and "+b), product("H", a, "H", b, "(", ")")+"/("+d.lengths[i].Symbol+"*"+d.lengths[j].Symbol+")", formula.Mechanics,
		append(d.at("H", a, b), d.lengths[i], d.lengths[j])...)
	d.cosines[[2]int{i, j}] = c
	return c
}
