package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// bundle is tendons of one step that have the same force at the same level: a
// left and a right one. The first stands for all in symbols.
type bundle struct {
	members       []int
	step          int
	force         formula.Quantity // of one, after friction and draw-in
	count, cosine formula.Quantity
	sine, level   formula.Quantity
	losses        []formula.Quantity // of one, by later steps
	lossSteps     []int              // which those are
	later         formula.Quantity   // loss of one by creep, shrinkage and relaxation; none without a symbol
}

// prestressLines is the prestress at x written out.
type prestressLines struct {
	bundles   []*bundle
	order     []int // section indices in the order in which they first act
	bySection map[int]*sectionPrestress
}

// sectionPrestress is what acts on one section state.
type sectionPrestress struct {
	section        sectionLines
	normal, moment sum
	forces         section.Forces
}

// prestress writes the tendon forces at x, step by step, with the loss that each
// step gives to the tendons stressed before it.
func (d *derivation) prestress() *prestressLines {
	p := &prestressLines{bySection: map[int]*sectionPrestress{}}
	for k := range d.s.steps {
		step := &d.r.steps[k]
		if step.release {
			d.release(k, p)
			continue
		}
		fresh := d.bundles(k)
		if len(fresh) == 0 {
			continue
		}
		s := d.section(step.section)
		on := p.on(step.section, s)
		var normal, moment sum
		for _, b := range fresh {
			b.acts(&normal, &moment, "-", " + ", b.force, s)
			b.acts(&on.normal, &on.moment, "-", " + ", b.force, s)
			on.forces = on.forces.Plus(d.forces(b, b.force.Value, s))
		}
		d.losses(k, p, s, on, &normal, &moment)
		p.bundles = append(p.bundles, fresh...)
	}
	d.later(p)
	return p
}

// release takes the force that is left in tendons off the concrete.
func (d *derivation) release(k int, p *prestressLines) {
	step := &d.r.steps[k]
	var normal, moment sum
	var kept []*bundle
	gone := false
	for _, b := range p.bundles {
		stay := slices.DeleteFunc(slices.Clone(b.members), func(i int) bool { return slices.Contains(step.tendons, i) })
		out := len(b.members) - len(stay)
		if out == 0 {
			kept = append(kept, b)
			continue
		}
		gone = true
		mark := d.r.element.Tendons[b.members[0]].Mark
		left := "P_" + mark
		operands := []formula.Quantity{b.force}
		for _, loss := range b.losses {
			left += " - " + loss.Symbol
			operands = append(operands, loss)
		}
		off := *b
		off.count = formula.Q(fmt.Sprintf("n_off_%d_%s", k+1, mark), float64(out), formula.One, "of these tendons let down")
		off.members = slices.DeleteFunc(slices.Clone(b.members), func(i int) bool { return slices.Contains(stay, i) })
		force := d.line(formula.Q(fmt.Sprintf("P_off_%d_%s", k+1, mark), 0, formula.Newton, fmt.Sprintf("force let down in step %d, one tendon", k+1)), left, formula.Mechanics, operands...)
		s := d.section(step.section)
		on := p.on(step.section, s)
		off.acts(&normal, &moment, "+", " - ", force, s)
		off.acts(&on.normal, &on.moment, "+", " - ", force, s)
		on.forces = on.forces.Plus(d.forces(&off, -force.Value, s))
		if len(stay) > 0 {
			b.members, b.count = stay, formula.Q(fmt.Sprintf("n_%d_%s", k+1, mark), float64(len(stay)), formula.One, "tendons "+d.marks(stay))
			kept = append(kept, b)
		}
	}
	p.bundles = kept
	if gone {
		s := d.section(step.section)
		d.losses(k, p, s, p.on(step.section, s), &normal, &moment)
	}
}

// marks are the marks of tendons in words.
func (d *derivation) marks(tendons []int) string {
	marks := make([]string, len(tendons))
	for k, i := range tendons {
		marks[k] = d.r.element.Tendons[i].Mark
	}
	return strings.Join(marks, ", ")
}

func (p *prestressLines) on(state *sectionState, s sectionLines) *sectionPrestress {
	f, ok := p.bySection[state.index]
	if !ok {
		f = &sectionPrestress{section: s}
		p.bySection[state.index] = f
		p.order = append(p.order, state.index)
	}
	return f
}

// forces are the forces of a bundle on the concrete.
func (d *derivation) forces(b *bundle, force float64, s sectionLines) section.Forces {
	var f section.Forces
	for _, i := range b.members {
		f = f.Plus(d.at.tendons[i].onConcrete(force, s.properties.Centroid))
	}
	return f
}

// acts adds ∓n·P·cosα and ±n·P·cosα·(z − z_s) to the sums.
func (b *bundle) acts(normal, moment *sum, signNormal, signMoment string, force formula.Quantity, s sectionLines) {
	term := fmt.Sprintf("%s*%s*%s", b.count.Symbol, force.Symbol, b.cosine.Symbol)
	normal.add(" "+signNormal+" ", term, b.count, force, b.cosine)
	moment.add(signMoment, fmt.Sprintf("%s*(%s - z%s)", term, b.level.Symbol, s.suffix), b.count, force, b.cosine, b.level, s.level)
}

// bundles are the tendons of a step at x, equal ones together.
func (d *derivation) bundles(k int) []*bundle {
	var list []*bundle
	lateral := !d.symmetric()
	for _, i := range d.r.steps[k].tendons {
		here := d.at.tendons[i]
		if !here.here {
			continue
		}
		force := d.r.forces[i].At(d.at.x)
		same := func(b *bundle) bool {
			first := d.at.tendons[b.members[0]]
			return math.Abs(b.force.Value-force) < 1e-9*force && math.Abs(first.at.Z-here.at.Z) < 1e-9 &&
				math.Abs(first.direction[2]-here.direction[2]) < 1e-12 && (!lateral || first.at.Y == here.at.Y)
		}
		if at := slices.IndexFunc(list, same); at >= 0 {
			list[at].members = append(list[at].members, i)
			continue
		}
		mark := d.r.element.Tendons[i].Mark
		lines, err := d.r.forces[i].Derivation(d.at.x, "_"+mark)
		if err != nil && d.err == nil {
			d.err = err
			return nil
		}
		b := &bundle{members: []int{i}, step: k}
		for _, line := range lines {
			if q, ok := d.known[line.Result.Symbol]; ok {
				b.force = q
				continue
			}
			b.force = d.keep(line)
		}
		b.cosine = formula.Q("c_"+mark, here.direction[0], formula.One, "cosine of its inclination at x")
		b.sine = formula.Q("s_"+mark, here.direction[2], formula.One, "sine of its inclination at x, rising +")
		b.level = formula.Q("z_"+mark, here.at.Z, formula.Metre, "its level at x")
		list = append(list, b)
	}
	for _, b := range list {
		b.count = formula.Q("n_"+d.r.element.Tendons[b.members[0]].Mark, float64(len(b.members)), formula.One, "tendons "+d.marks(b.members))
	}
	return list
}

// symmetric is true where the prestress gives no lateral bending at x.
func (d *derivation) symmetric() bool {
	_, f := d.at.prestressIn(d.s)
	return math.Abs(f.Mz) <= 1e-9*math.Abs(f.My)
}

// losses writes the elastic loss that step k gives to each earlier bundle.
func (d *derivation) losses(k int, p *prestressLines, s sectionLines, on *sectionPrestress, normal, moment *sum) {
	if len(p.bundles) == 0 {
		return
	}
	step := &d.r.steps[k]
	n := fmt.Sprint("_", k+1)
	dn := d.line(formula.Q("ΔN"+n, 0, formula.Newton, fmt.Sprintf("normal force added by stressing step %d", k+1)), normal.expression(), formula.Mechanics, normal.operands...)
	dm := d.line(formula.Q("ΔM"+n, 0, formula.NewtonMetre, fmt.Sprintf("moment added by stressing step %d", k+1)), moment.expression(), formula.Mechanics, moment.operands...)
	modulus := formula.Q("E_cm"+n, step.concrete, formula.Pascal, fmt.Sprintf("modulus of the concrete at step %d, age %g d", k+1, step.age))
	source := formula.Source{Document: "EN 1992-1-1:2004", Place: "5.10.5.1(2), (5.44) with j = 1 for each later tendon", Confirm: true}
	for _, b := range p.bundles {
		t := d.r.element.Tendons[b.members[0]]
		stress, extra := d.lossStress(k, b, s)
		expression := fmt.Sprintf("A_p*E_p/E_cm%s*(ΔM%s*(%s - z%s)/I%s - ΔN%s/A%s)", n, n, b.level.Symbol, s.suffix, s.suffix, n, s.suffix)
		operands := []formula.Quantity{dn, dm, b.level, s.level, s.inertia, s.area}
		if extra {
			expression = fmt.Sprintf("A_p*E_p/E_cm%s*Δσ%s_%s", n, n, t.Mark)
			operands = []formula.Quantity{d.given(formula.Q(fmt.Sprintf("Δσ%s_%s", n, t.Mark), stress, formula.Pascal, "compression added beside the tendon, with lateral bending"), formula.Mechanics)}
		}
		loss := d.line(formula.Q(fmt.Sprintf("ΔP%s_%s", n, t.Mark), 0, formula.Newton, fmt.Sprintf("elastic loss of one of tendons %s by step %d", b.count.Name[len("tendons "):], k+1)),
			expression, source, append(operands, modulus,
				formula.Q("A_p", t.Area(), formula.SquareMetre, "area of the strands"), formula.Q("E_p", t.Strand.Modulus, formula.Pascal, "modulus of the strand"))...)
		b.losses, b.lossSteps = append(b.losses, loss), append(b.lossSteps, k)
		if !slices.Contains(step.bonded, t.Mark) {
			b.acts(&on.normal, &on.moment, "+", " - ", loss, s)
			on.forces = on.forces.Plus(d.forces(b, -loss.Value, s))
		}
	}
}

// lossStress is the compression beside a bundle added by a step, and whether
// lateral bending has a part in it.
func (d *derivation) lossStress(k int, b *bundle, s sectionLines) (stress float64, lateral bool) {
	before, after := d.at.steps[k], d.at.steps[k+1]
	i := b.members[0]
	t := d.r.element.Tendons[i]
	loss := before.force[i] - after.force[i]
	stress = loss / t.Area() / d.r.steps[k].ratios[i]
	added := section.Forces{}
	for _, j := range d.r.steps[k].tendons {
		if d.at.tendons[j].here {
			added = added.Plus(d.at.tendons[j].onConcrete(after.force[j]-before.force[j], s.properties.Centroid))
		}
	}
	p := s.properties
	lateral = math.Abs(added.Mz) > 1e-9*math.Abs(added.My) || math.Abs(p.ProductMoment) > 1e-12*p.SecondMomentY
	return stress, lateral
}
