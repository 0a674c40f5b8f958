package rigging

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// supportNames are the supports in the order of [Legs.Forces], and the signs of their
// places ahead and to the left.
var supportNames = [4]struct {
	name          string
	ahead, toLeft string
}{{"front left", " + ", " + "}, {"front right", " + ", " - "}, {"rear right", " - ", " - "}, {"rear left", " - ", " + "}}

// Lines derive what [Outriggers.At] gives at a slew angle (rad): each result is that of
// [Legs.Forces]. Where one support lifts, the other three follow from statics. The error
// is that of At.
func (o Outriggers) Lines(slew float64) ([]formula.Line, error) {
	r, err := o.At(slew)
	if err != nil {
		return nil, err
	}
	c := &formula.Chain{}
	total, along, across := o.slewing().lines(c, slew)
	operands := []formula.Quantity{total, along, metres("a_x", o.Along, "distance of the supports along"), across, metres("a_y", o.Across, "distance of the supports across")}
	force := func(i int) formula.Quantity {
		return newtons(of("R", i+1), 0, fmt.Sprintf("force of support %d, %s", i+1, supportNames[i].name))
	}
	if r.Lifts == 0 {
		for i, s := range supportNames {
			c.Derive(force(i), "Q/4"+s.ahead+"M_x/(2*a_x)"+s.toLeft+"M_y/(2*a_y)", formula.Mechanics, operands...)
		}
		return c.Lines()
	}
	up := 0
	for r.Forces[up] != 0 {
		up++
	}
	c.Given(force(up), formula.Mechanics, "lifts off: the support pushes only")
	s := supportNames[up]
	beside := c.Derive(force(up^1), "Q/2"+s.ahead+"M_x/a_x", formula.Mechanics, total, along, operands[2])
	behind := c.Derive(force(3-up), "Q/2"+s.toLeft+"M_y/a_y", formula.Mechanics, total, across, operands[4])
	c.Derive(force((up+2)%4), "Q - "+beside.Symbol+" - "+behind.Symbol, formula.Mechanics, total, beside, behind)
	return c.Lines()
}
