package sheet

import "fmt"

// repeated is what was printed last of one kind, and in which situation.
type repeated struct{ content, situation string }

// repeats is true when a figure or a table is the same as the one of its kind in
// the situation printed before it; what is new is remembered.
func (a *author) repeats(kind, content, situation string) bool {
	before, ok := a.printed[kind]
	if ok && before.content == content {
		a.same = append(a.same, kind+" as in "+before.situation)
		return true
	}
	a.printed[kind] = repeated{content, situation}
	return false
}

// unless are the blocks, or none where they are the same as those of their kind
// in the situation before.
func (a *author) unless(kind, situation string, blocks []block) []block {
	if len(blocks) > 0 && a.repeats(kind, fmt.Sprint(blocks), situation) {
		return nil
	}
	return blocks
}

// samePoints say what was left out since the last call because it is the same as
// before.
func (a *author) samePoints() []block {
	if len(a.same) == 0 {
		return nil
	}
	line := words("Unchanged: ")
	for i, same := range a.same {
		if i > 0 {
			line = line.and(plain, "; ")
		}
		line = line.and(plain, same)
	}
	a.same = nil
	return []block{paragraph{line.and(plain, ".")}}
}
