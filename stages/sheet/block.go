package sheet

// document is a sheet before it is rendered: blocks in order.
type document struct {
	title  string
	foot   string // stands at the foot of each page
	site   bool   // for use on site: larger type, room to write
	blocks []block
}

// block is a part of a document: one of the types below.
type block any

// prose is running text: spans in order.
type prose []span

// span is a stretch of text of one kind.
type span struct {
	kind spanKind
	text string
}

type spanKind int

const (
	plain    spanKind = iota
	strong            // bold
	symbol            // of a quantity, e.g. "σ_c"
	raisedUp          // set high: a power
	faint             // less than the rest: what a line is, its source
	cited             // the key of a table, a figure or a chapter: its number is written later
)

func words(s string) prose { return prose{{plain, s}} }
func bold(s string) prose  { return prose{{strong, s}} }

// and is the text with more behind it.
func (t prose) and(kind spanKind, s string) prose {
	if s == "" {
		return t
	}
	return append(t, span{kind, s})
}

// heading opens a part of the document; its level is 1 to 4.
type heading struct {
	level int
	words prose
	fresh bool // begins on a new page
}

// paragraph is running text.
type paragraph struct{ words prose }

// list is a list of points in so many columns.
type list struct {
	points   []prose
	columns  int
	numbered bool // in order, from 1
}

// calculation is lines of calculation in small type.
type calculation struct {
	lines   []prose
	running bool // short lines stand beside each other on one row; one that begins in bold opens a new one
}

// grid is a table with its head repeated on each page.
type grid struct {
	caption prose
	columns []column
	rows    [][]prose
	dense   bool     // many short rows: set in parts beside each other
	open    bool     // with room to write in its rows
	small   bool     // a table of a derivation
	ledger  bool     // lines of calculation: formula, numbers, result
	checks  bool     // checks of a situation
	strong  int      // number of the row that stands out, the first is 1; 0 for none
	number  int      // in its part; 0: the next, negative: none
	key     string   // by which text refers to it
	keys    []string // more of them
}

// column is the head of a column of a grid.
type column struct {
	title prose
	right bool // numbers, aligned to the right
}

// form is a table of names with values, or with room to write where there is no
// value.
type form struct {
	pairs   [][2]string
	columns int // pairs in a row
}

// alarm is a line in a box that nobody overlooks.
type alarm struct{ words prose }

// drawings are figures side by side.
type drawings struct{ figures []figure }

// figure is a drawing as SVG with its caption.
type figure struct {
	name      string // part of its file name, and the key by which text refers to it
	caption   string
	svg       string
	wide      bool   // takes the width of the page
	equipment string // drawn in an elevation, for who cannot see it
	titled    bool   // its title stands in the drawing: the caption is for who cannot see it
}

// beside are blocks in columns beside one another.
type beside struct {
	columns [][]block
	long    bool // may run over the end of a page
}

// part is a part of a document on pages of its own, with its own foot.
type part struct {
	name   string // of its pages: letters, digits and '-'
	foot   string
	blocks []block
}

// columnsOf are the columns of a grid: a title that begins with ">" is aligned
// to the right.
func columnsOf(titles ...string) []column {
	columns := make([]column, len(titles))
	for i, t := range titles {
		columns[i] = column{title: words(t)}
		if len(t) > 0 && t[0] == '>' {
			columns[i] = column{title: words(t[1:]), right: true}
		}
	}
	return columns
}

// row is a row of a grid of plain words.
func row(cells ...string) []prose {
	texts := make([]prose, len(cells))
	for i, c := range cells {
		texts[i] = words(c)
	}
	return texts
}

// pointsOf are plain words as points of a list.
func pointsOf(items []string) []prose {
	points := make([]prose, len(items))
	for i, item := range items {
		points[i] = words(item)
	}
	return points
}
