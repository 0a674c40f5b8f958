package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// tag is a label that stands over (or under) the mark that it names: its leader runs
// straight outwards from the mark, so that no two leaders cross.
type tag struct {
	x           vg.Length  // of the mark, where the leader begins
	reach       vg.Length  // how far outwards the mark ends
	left, right vg.Length  // breadth of the mark on the paper
	forms       [][]string // ways to write it in lines, the best first
	key         string     // stands for it where there is no room; its words are then in the key
	late        bool       // stands outside of the others if it can
	hollow      bool       // nothing is under the outer end of the mark: a label may stand there
	free        bool       // names no mark: it stands anywhere
}

// standing is a tag with its place; heights are outwards from the element.
type standing struct {
	tag
	lines                    []string
	from, to, bottom, height vg.Length
}

// hurdle is what is drawn outside of the element, over which labels stand.
type hurdle struct {
	from, to, reach vg.Length
	low             vg.Length // where it begins: a label may stand under it; 0 for one that stands on the element
}

// Sizes of tags.
const (
	tagLine  = 8.5 * vg.Length(1) // from line to line
	tagApart = 1.5 * vg.Length(1) // of one tag over another
	tagGap   = 4 * vg.Length(1)   // beside the leader of another
	tagGroup = 6 * vg.Length(1)   // marks nearer than this share a label
	tagCrowd = 14                 // more than these are labelled by keys: their leaders would be a fence
)

// tagging finds the places of tags: inwards first stands what has room between the marks
// of all that stand further out. So a leader passes no label but its own.
type tagging struct {
	width   vg.Length
	hurdles []hurdle
	left    []tag // not placed yet, from left to right
	placed  []standing
	keyed   []string // what the keys stand for
}

func placeTags(tags []tag, hurdles []hurdle, width vg.Length) *tagging {
	t := &tagging{width: width, hurdles: hurdles}
	var free []tag
	for _, one := range tags {
		if one.free {
			free = append(free, one)
		} else {
			t.left = append(t.left, one)
		}
	}
	slices.SortStableFunc(t.left, func(a, b tag) int { return cmp.Compare(a.x, b.x) })
	t.left = grouped(t.left)
	for crowd := len(t.left) > tagCrowd; len(t.left) > 0; {
		if crowd {
			t.byKey()
		} else {
			t.next()
		}
	}
	for _, one := range slices.Backward(free) {
		t.put(one, one.forms[0], 0, width)
	}
	return t
}

// grouped are tags in which marks that nearly touch share one label.
func grouped(tags []tag) []tag {
	var list []tag
	for _, one := range tags {
		if n := len(list); n > 0 && one.x-list[n-1].x < tagGroup && one.late == list[n-1].late {
			with := &list[n-1]
			lines := append(slices.Clone(with.forms[0]), one.forms[0]...)
			with.forms, with.key = [][]string{lines}, with.key+", "+one.key
			with.reach, with.left, with.right = max(with.reach, one.reach), min(with.left, one.left), max(with.right, one.right)
			with.hollow = with.hollow && one.hollow
			continue
		}
		list = append(list, one)
	}
	return list
}

// next places the tag that has room and stands furthest inwards.
func (t *tagging) next() {
	for _, late := range []bool{false, true} {
		for form := range 2 {
			for i, one := range t.left {
				if one.late != late || form >= len(one.forms) {
					continue
				}
				from, to := t.room(i)
				if wide(one.forms[form]) <= to-from && from <= one.x && one.x <= to {
					t.take(i, one.forms[form], from, to)
					return
				}
			}
		}
	}
	t.byKey()
}

// byKey places one tag by its key: that with the widest room for it.
func (t *tagging) byKey() {
	best, most := 0, math.Inf(-1)
	for i := range t.left {
		from, to := t.room(i)
		if room := float64(to - from - wide([]string{t.left[i].key})); room > most {
			best, most = i, room
		}
	}
	one := t.left[best]
	t.keyed = append(t.keyed, one.key+keySign+strings.Join(one.forms[0], ", "))
	from, to := t.room(best)
	if most < 0 {
		from, to = 0, t.width
	}
	t.take(best, []string{one.key}, from, to)
}

func (t *tagging) take(i int, lines []string, from, to vg.Length) {
	one := t.left[i]
	t.left = slices.Delete(t.left, i, i+1)
	t.put(one, lines, from, to)
}

// room is the breadth between the marks on both sides whose tags are not placed yet.
func (t *tagging) room(i int) (from, to vg.Length) {
	from, to = 1, t.width-1
	for k, other := range t.left {
		switch {
		case k < i:
			from = max(from, other.right+tagGap)
		case k > i:
			to = min(to, other.left-tagGap)
		}
	}
	return from, to
}

// put places a tag between two ends, over all that is there already.
func (t *tagging) put(one tag, lines []string, from, to vg.Length) {
	half := wide(lines) / 2
	middle := within(one.x, from+half, max(from+half, to-half))
	s := standing{tag: one, lines: lines, from: middle - half, to: middle + half, bottom: one.reach + 1, height: tagLine * vg.Length(len(lines))}
	for changed := true; changed; {
		changed = false
		for _, h := range t.hurdles {
			if h.from < s.to && s.from < h.to && h.low < s.bottom+s.height+1 && s.bottom < h.reach+1 {
				s.bottom, changed = h.reach+1, true
			}
		}
		for _, p := range t.placed {
			// also where it could stand under p: there are the leader and the mark of p
			if p.from < s.to+1 && s.from < p.to+1 && s.bottom < p.bottom+p.height+tagApart && !(p.hollow && s.bottom+s.height < p.reach) {
				s.bottom, changed = p.bottom+p.height+tagApart, true
			}
		}
	}
	t.placed = append(t.placed, s)
}

// height is how far outwards the tags reach, with the rows of the key.
func (t *tagging) height() vg.Length {
	top := vg.Length(0)
	for _, p := range t.placed {
		top = max(top, p.bottom+p.height)
	}
	return top + tagLine*vg.Length(len(t.keyRows()))
}

// keyRows are the words of the keys in rows of the width of the figure.
func (t *tagging) keyRows() []string {
	style := lettering(text.XLeft, text.YCenter)
	slices.SortFunc(t.keyed, func(a, b string) int { // z before a2
		return cmp.Or(cmp.Compare(strings.Index(a, keySign), strings.Index(b, keySign)), cmp.Compare(a, b))
	})
	var rows []string
	for _, words := range t.keyed {
		if n := len(rows); n > 0 && style.Width(rows[n-1]+";  "+words) < t.width-8 {
			rows[n-1] += ";  " + words
			continue
		}
		if len(rows) == 0 {
			words = "key to the figure: " + words
		}
		rows = append(rows, words)
	}
	return rows
}

// keySign stands between a key and the words for which it stands.
const keySign = " = "

// draw writes the tags outwards from a level: up, or down.
func (t *tagging) draw(k *sketch, level vg.Length, down bool) {
	on := func(x, height vg.Length) vg.Point {
		if down {
			height = -height
		}
		return at(x, level+height)
	}
	for _, p := range t.placed {
		if p.bottom-p.reach > 1.5 && !p.free {
			k.leader(on(p.x, p.reach), on(p.x, p.bottom))
		}
	}
	for _, p := range t.placed {
		for i, words := range p.lines {
			line := vg.Length(len(p.lines)-i) - 0.5
			if down {
				line = vg.Length(i) + 0.5
			}
			k.write(on((p.from+p.to)/2, p.bottom+line*tagLine), words, text.XCenter, text.YCenter)
		}
	}
	rows := t.keyRows()
	for i, words := range rows {
		line := vg.Length(i) + 0.5
		if down {
			line = vg.Length(len(rows)-i) - 0.5
		}
		k.write(on(4, t.height()-line*tagLine), words, text.XLeft, text.YCenter)
	}
}

// wide is the breadth of lines.
func wide(lines []string) vg.Length {
	style, width := lettering(text.XCenter, text.YCenter), vg.Length(0)
	for _, words := range lines {
		width = max(width, style.Width(legible(words)))
	}
	return width
}

// letterOf is the key of the n-th load: a, b, … z, a2, …
func letterOf(n int) string {
	letter := string(rune('a' + n%26))
	if n >= 26 {
		letter += fmt.Sprint(n/26 + 1)
	}
	return letter
}
