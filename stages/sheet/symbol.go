package sheet

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// meaning is what a symbol stands for on a sheet. Two meanings of the same letters are
// told apart by strokes: s, s′.
type meaning struct {
	letters string
	unit    formula.Unit
	head    string   // what it is, without the place, tendon or age that differ from line to line
	names   []string // all that a record says of it
	says    string   // what the sheet itself says of a symbol of its tables
	strokes int
	used    bool     // on this sheet
	units   []string // in which this sheet prints it, where that depends on its size
}

// ofTables are the symbols of columns of tables, which have no name in a record.
var ofTables = []derive.Symbol{
	{Symbol: "n", Unit: formula.One, Name: "tendons in a row"}, {Symbol: "P", Unit: formula.Newton, Name: "force of a tendon; in a table of each of the tendons of a row"},
	{Symbol: "cos", Unit: formula.One, Name: "cosine of the angle between tendon and x"}, {Symbol: "cos_y", Unit: formula.One, Name: "cosine of the angle between tendon and y"}, {Symbol: "cos_z", Unit: formula.One, Name: "cosine of the angle between tendon and z"},
	{Symbol: "x", Unit: formula.Metre, Name: "place along the element"}, {Symbol: "y", Unit: formula.Metre, Name: "place across, + to the left"}, {Symbol: "z", Unit: formula.Metre, Name: "level"},
	{Symbol: "N", Unit: formula.Newton, Name: "normal force, tension +"}, {Symbol: "M_y", Unit: formula.NewtonMetre, Name: "moment about y, sagging +"}, {Symbol: "M_z", Unit: formula.NewtonMetre, Name: "moment about z, + for tension at −y"},
	{Symbol: "V_y", Unit: formula.Newton, Name: "shear across"}, {Symbol: "V_z", Unit: formula.Newton, Name: "vertical shear"}, {Symbol: "T", Unit: formula.NewtonMetre, Name: "torsional moment about the shear centre"},
	{Symbol: "A", Unit: formula.SquareMetre, Name: "area of the section properties"}, {Symbol: "y_c", Unit: formula.Metre, Name: "place of the centroid across"}, {Symbol: "z_c", Unit: formula.Metre, Name: "level of the centroid"},
	{Symbol: "I_y", Unit: formula.MetreToFourth, Name: "second moment of area about y"}, {Symbol: "I_z", Unit: formula.MetreToFourth, Name: "second moment of area about z"}, {Symbol: "I_yz", Unit: formula.MetreToFourth, Name: "product moment of area"},
	{Symbol: "τ_Vy", Unit: perArea, Name: "shear stress under V_y = 1"}, {Symbol: "τ_Vz", Unit: perArea, Name: "shear stress under V_z = 1"}, {Symbol: "τ_T", Unit: perVolume, Name: "shear stress under T = 1"},
	{Symbol: "σ", Unit: formula.Pascal, Name: "stress of a row, tension +"},
	{Symbol: "w", Unit: formula.Metre, Name: "draw-in of the anchor"}, {Symbol: "ΔP", Unit: formula.Newton, Name: "loss of force by draw-in at a place"},
	{Symbol: "P_f", Unit: formula.Newton, Name: "force of a tendon at x after friction and draw-in"}, {Symbol: "Δσ_el", Unit: formula.Pascal, Name: "elastic loss by the tendons stressed later"},
	{Symbol: "σ_x", Unit: formula.Pascal, Name: "stress of a tendon at x while it is jacked"}, {Symbol: "σ_datum", Unit: formula.Pascal, Name: "stress at the jack from which the extension is measured"},
	{Symbol: "χ", Unit: formula.One, Name: "ageing coefficient"}, {Symbol: "β", Unit: formula.One, Name: "angle at which the force of an anchor spreads"},
	{Symbol: "r_inf", Unit: formula.One, Name: "lower factor on the prestress"}, {Symbol: "r_sup", Unit: formula.One, Name: "upper factor on the prestress"},
	{Symbol: "V_X", Unit: formula.One, Name: "coefficient of variation"},
}

// headOf is a name without what differs from line to line: what stands behind a comma or
// a figure, or behind the words of, for and at.
func headOf(name string) string {
	for _, end := range []string{",", ";", ":", " of ", " for ", " at ", " required "} {
		if before, _, cut := strings.Cut(name, end); cut && before != "number" {
			name = before
		}
	}
	if i := strings.IndexFunc(name, unicode.IsDigit); i > 0 && strings.HasSuffix(name[:i], " ") {
		name = name[:i]
	}
	return strings.TrimSpace(name)
}

// means is true for a quantity of this meaning: of the same unit, and one name says what
// the other says or more.
func (m *meaning) means(unit formula.Unit, head string) bool {
	return m.unit == unit && (head == "" || m.head == "" || oneSaysMore(m.head, head) || oneSaysMore(head, m.head))
}

func oneSaysMore(short, long string) bool {
	return short == long || strings.HasPrefix(long, short+" ") || strings.HasSuffix(long, " "+short)
}

// meanings are those of symbols, in their order.
type meanings []*meaning

func meaningsOf(symbols []derive.Symbol) *meanings {
	list := &meanings{}
	for _, s := range ofTables {
		*list = append(*list, &meaning{letters: s.Symbol, unit: s.Unit, head: headOf(s.Name), says: s.Name})
	}
	for _, s := range symbols {
		list.of(s)
	}
	return list
}

// of is the meaning of a symbol: one that is known, or a new one.
func (list *meanings) of(s derive.Symbol) *meaning {
	same := 0
	var found *meaning
	for _, m := range *list {
		if m.letters != s.Symbol {
			continue
		}
		same++
		if m.unit == s.Unit && slices.Contains(m.names, s.Name) {
			return m
		}
		if found == nil && m.means(s.Unit, headOf(s.Name)) {
			found = m
		}
	}
	if found == nil {
		found = &meaning{letters: s.Symbol, unit: s.Unit, strokes: same}
		*list = append(*list, found)
	}
	if s.Name != "" {
		found.names = append(found.names, s.Name)
	}
	if found.head == "" {
		found.head = headOf(s.Name)
	}
	return found
}

// use marks the first meaning of letters as used; it says no where there is none.
func (list *meanings) use(letters string) bool {
	if list == nil {
		return false
	}
	i := slices.IndexFunc(*list, func(m *meaning) bool { return m.letters == letters })
	if i >= 0 {
		(*list)[i].used = true
	}
	return i >= 0
}

// text is the symbol as it is printed: strokes stand before the first index.
func (m *meaning) text() string {
	letter, index, found := strings.Cut(m.letters, "_")
	text := letter + strings.Repeat("′", m.strokes)
	if found {
		text += "_" + index
	}
	return text
}

// list are the meanings of the symbols of this sheet.
func (a *author) list() *meanings {
	if a.meanings == nil {
		a.meanings = meaningsOf(a.record.Symbols)
	}
	return a.meanings
}

// meaningOf is the meaning of a quantity that is printed.
func (a *author) meaningOf(q formula.Quantity) *meaning {
	m := a.list().of(derive.Symbol{Symbol: q.Symbol, Unit: q.Unit, Name: q.Name})
	m.used = true
	if p := a.units.of(q.Value, q.Unit).unit; q.Value != 0 && !slices.Contains(m.units, p) {
		m.units = append(m.units, p)
	}
	return m
}

// symbolOf is the symbol of a quantity as this sheet prints it.
func (a *author) symbolOf(q formula.Quantity) string { return a.meaningOf(q).text() }

// detail is the name of a quantity whose symbol stands for several of a kind: of another
// tendon, another zone. It is empty where the list of symbols says all.
func (a *author) detail(q formula.Quantity) string {
	if m := a.meaningOf(q); len(m.names) < 2 {
		return ""
	}
	return q.Name
}

// mentioned is a symbol in running text: one with an index, or a letter that is no word.
var mentioned = regexp.MustCompile(`[ΔΣ]?\p{L}(_[\p{L}\d]+)+|ΔP|[χβ]|\bw\b`)

// noted is text in which symbols of the list are set as such.
func (a *author) noted(text string) prose {
	var t prose
	last := 0
	for _, at := range mentioned.FindAllStringIndex(text, -1) {
		if before, _ := utf8.DecodeLastRuneInString(text[:at[0]]); inWord(before) || strings.HasPrefix(text[at[1]:], "_") || !a.list().use(text[at[0]:at[1]]) {
			continue
		}
		t = t.and(plain, text[last:at[0]]).and(symbol, text[at[0]:at[1]])
		last = at[1]
	}
	return t.and(plain, text[last:])
}
