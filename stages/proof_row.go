package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// joined is the label of two tendons of a row: W2L and W2R are W2L, W2R.
func joined(a, b string) string { return a + ", " + b }

// label names an action in a table.
func (r *run) label(v *variant, item *ledger.Item) string {
	if item.Tendon >= 0 {
		return r.tendons[item.Tendon].Mark
	}
	if item.Entry >= len(v.entries) {
		return r.contactWords(v.ledger.Entries[item.Entry].Field)
	}
	e := v.entries[item.Entry]
	if e.coefficient < 0 {
		return e.name + ", reactions removed: " + e.of.words()
	}
	return e.name + ", reactions applied: " + e.of.words()
}

// rests is on which supports of which situation the action of a row rests, and how they are
// tilted.
func (r *run) rests(v *variant, item *ledger.Item) (on derive.Rests) {
	if item.Tendon >= 0 || item.Entry >= len(v.entries) {
		return on
	}
	of := v.entries[item.Entry].of
	on.Of = 1 + slices.IndexFunc(r.situations, func(s *situation) bool { return slices.Contains(s.acts, of) })
	if w := v.ways[of]; w != nil {
		on.Roll, on.Gradient = derive.Round(math.Atan2(w.up.Y, w.up.Z), -6), derive.Round(math.Asin(w.up.X), -6)
	}
	return on
}

// words are the supports of an arrangement in short.
func (a *arrangement) words() string {
	var texts []string
	for _, s := range a.supports {
		text := fmt.Sprintf("%.4g", s.X)
		if len(texts) == 0 || texts[len(texts)-1] != text {
			texts = append(texts, text)
		}
	}
	word := "supports"
	if a.suspended {
		word = "lift points"
	}
	return word + " at x = " + strings.Join(texts, ", ") + " m"
}

// stateName is a section state in words, written once.
func (r *run) stateName(s *ledger.State) string {
	name, ok := r.names[s]
	if !ok {
		if r.names == nil {
			r.names = map[*ledger.State]string{}
		}
		name = r.nameState(s)
		r.names[s] = name
	}
	return name
}

func (r *run) nameState(s *ledger.State) string {
	var bonded []string
	for i, b := range s.Bonded {
		if b {
			bonded = append(bonded, r.tendons[i].Mark)
		}
	}
	name := "net, all ducts out"
	switch {
	case len(r.tendons) == 0:
		name = "gross"
	case len(bonded) > 0 && s.SteelOut:
		name = "concrete beside the bonded steel"
	case len(bonded) > 0:
		name = "transformed, bonded: " + strings.Join(bonded, ", ")
	}
	if len(r.girder.Pieces) > 1 && !r.inLine() {
		var marks []string
		for _, k := range s.Pieces {
			marks = append(marks, r.girder.Pieces[k].Element.Mark)
		}
		name += "; " + strings.Join(marks, " + ")
	}
	return name
}

// inLine is true for a girder of segments end to end: whatever acts with it, the section at x
// is that of the segment there, which needs no name.
func (r *run) inLine() bool {
	for k, p := range r.girder.Pieces {
		if k > 0 && math.Abs(p.At-r.girder.Pieces[k-1].To()) > r.girder.near() {
			return false
		}
	}
	return r.jointed()
}

// rowFactors are the factors of a row under their symbols.
func (r *run) rowFactors(item *ledger.Item) []derive.Factor {
	list := make([]derive.Factor, 0, len(item.Causes))
	for k, i := range item.Causes {
		if i < 0 && item.Factor[k] == 1 {
			continue // a part that counts in full
		}
		f := derive.Factor{Symbol: "ζ", Value: item.Factor[k], Name: "part that has spread from the anchor, EN 1992-1-1:2004 8.10.3(5)"}
		if item.Tendon >= 0 && r.pretensioned(item.Tendon) {
			f.Name = "force by the governing transmission length over that by its basic value, EN 1992-1-1:2004 8.10.2.2(3)"
		}
		if i >= 0 {
			switch c := &r.causes[i]; c.kind {
			case causePrestress:
				f.Symbol, f.Name = "r", "on the prestress"
			case causeDynamic:
				f.Symbol, f.Name = "δ", "dynamic factor"
			case causeWeight:
				f.Symbol, f.Name = "γ_w", "on the weight: tolerance and partial factor"
			case causeBed:
				f.Symbol, f.Name = "β_bed", "part of the weight that the bed does not carry: 0 to 1"
			case causeLevel:
				f.Symbol, f.Name = "λ", "support out of level, one way or the other"
			case causeAction:
				f.Symbol, f.Name = "γ_a", "on an action, "+c.key
			}
		}
		list = append(list, f)
	}
	return list
}

func (r *run) rowTendons(item *ledger.Item) *derive.Tendons {
	if item.Tendon < 0 {
		return nil
	}
	d := item.At.Direction
	return &derive.Tendons{Count: 1, Force: item.Force, Cos: d[0], CosY: d[1], CosZ: d[2], At: item.At.At}
}
