package sheet

// shortTable is how many rows a table has at most that is not parted between pages;
// shortChecks the same of checks, whose rows may have two lines.
const (
	shortTable  = 12
	shortChecks = 14
)

func (p *htmlPage) grid(b grid) {
	if b.dense {
		p.dense(b)
		return
	}
	if short := len(b.rows) <= shortTable || b.checks && len(b.rows) <= shortChecks; short && len(b.caption) > 0 { // with its caption
		p.add(`<div class="kept">` + "\n")
		defer p.add("</div>\n")
	}
	switch {
	case b.open:
		p.add(`<table class="open">` + "\n")
	case b.small:
		p.add(`<table class="small">` + "\n")
	case b.checks:
		p.add(`<table class="checks">` + "\n")
	case b.ledger && len(b.columns) == 4:
		p.add(`<table class="ledger plain">` + "\n")
	case b.ledger:
		p.add(`<table class="ledger">` + "\n")
	case len(b.rows) <= shortTable:
		p.add(`<table class="short">` + "\n")
	default:
		p.add("<table>\n")
	}
	if len(b.caption) > 0 {
		p.add("<caption>" + htmlText(b.caption) + "</caption>\n")
	}
	p.add("<thead><tr>")
	for _, c := range b.columns {
		p.add("<th" + right(c) + ">" + htmlText(c.title) + "</th>")
	}
	p.add("</tr></thead>\n<tbody>\n")
	for i, row := range b.rows {
		class := ""
		if i+1 == b.strong {
			class = ` class="worst"`
		}
		p.add("<tr" + class + ">")
		for k, cell := range row {
			p.add("<td" + right(b.columns[k]) + ">" + htmlText(cell) + "</td>")
		}
		p.add("</tr>\n")
	}
	p.add("</tbody></table>\n")
}

// dense is a table in parts beside each other: three, or two where it has many
// columns.
func (p *htmlPage) dense(b grid) {
	parts := 3
	if len(b.columns) > 6 {
		parts = 2
	}
	caption := b.caption
	b.dense, b.caption = false, nil
	if len(caption) > 0 {
		p.add("<h4>" + htmlText(caption) + "</h4>\n")
	}
	each := (len(b.rows) + parts - 1) / parts
	all := b.rows
	p.add(`<div class="beside long dense">` + "\n")
	for len(all) > 0 {
		b.rows = all[:min(each, len(all))]
		all = all[len(b.rows):]
		p.add(`<div class="column">` + "\n")
		p.grid(b)
		p.add("</div>\n")
	}
	p.add("</div>\n")
}

func right(c column) string {
	if c.right {
		return ` class="right"`
	}
	return ""
}
