package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// numberedMark is a mark with a number in it: what stands before, the number, what stands behind.
var numberedMark = regexp.MustCompile(`^(.*?)(0|[1-9]\d{0,8})(\D*)$`)

// markRun are marks that differ by a number that runs from one to the other; a mark without a
// number is its own.
type markRun struct {
	before, behind string
	from, to       int
}

func (r markRun) words() string {
	name := func(n int) string { return fmt.Sprintf("%s%d%s", r.before, n, r.behind) }
	switch {
	case r.from < 0:
		return r.before
	case r.from == r.to:
		return name(r.from)
	case r.from+1 == r.to:
		return name(r.from) + ", " + name(r.to)
	}
	return name(r.from) + " to " + name(r.to)
}

// inRuns are marks, those of a kind by their numbers where the first of them stands.
func inRuns(marks []string) (runs []markRun) {
	type kind struct{ before, behind string }
	var order []kind
	numbers := map[kind][]int{}
	for _, mark := range marks {
		k, n := kind{before: mark}, -1
		if parts := numberedMark.FindStringSubmatch(mark); parts != nil {
			k = kind{parts[1], parts[3]}
			n, _ = strconv.Atoi(parts[2]) // digits only, at most nine
		}
		if _, known := numbers[k]; !known {
			order = append(order, k)
		}
		numbers[k] = append(numbers[k], n)
	}
	for _, k := range order {
		list := slices.Compact(slices.Sorted(slices.Values(numbers[k])))
		for i := 0; i < len(list); {
			j := i
			for j+1 < len(list) && list[i] >= 0 && list[j+1] == list[j]+1 {
				j++
			}
			runs = append(runs, markRun{k.before, k.behind, list[i], list[j]})
			i = j + 1
		}
	}
	return runs
}

// inFamily is a run of marks of one family: of B_L5_1 to B_L5_8 the family is B_L5 and each runs
// from _1 to _8; false where the marks have no family.
func (r markRun) inFamily() (family, first, last string, ok bool) {
	family = strings.TrimRight(r.before, "_-.")
	if r.from == r.to || len(family) == len(r.before) || !numberedMark.MatchString(family) {
		return "", "", "", false
	}
	name := func(n int) string { return fmt.Sprintf("%s%d%s", r.before[len(family):], n, r.behind) }
	return family, name(r.from), name(r.to), true
}

// alikeMarks are marks as a crew reads them: "B_L5_1 to B_L5_8" for eight of them, and for
// those of several segments "B_L1 to B_L4, each _1 to _8".
func alikeMarks(marks []string) string {
	runs := inRuns(marks)
	families := map[string][]string{} // by the ends of their runs
	for _, r := range runs {
		if family, first, last, ok := r.inFamily(); ok {
			families[first+" to "+last] = append(families[first+" to "+last], family)
		}
	}
	var singles, list []string
	for _, r := range runs {
		family, first, last, ok := r.inFamily()
		each := first + " to " + last
		switch of := families[each]; {
		case !ok:
			singles = append(singles, r.words())
		case len(of) == 1:
			singles = append(singles, family+first+" to "+family+last)
		case family == of[0]:
			list = append(list, joinedRuns(of)+", each "+each)
		}
	}
	if len(singles) > 0 {
		list = append([]string{strings.Join(singles, ", ")}, list...)
	}
	return strings.Join(list, "; ")
}

// joinedRuns are names, those that run on from the first to the last.
func joinedRuns(names []string) string {
	var list []string
	for _, r := range inRuns(names) {
		list = append(list, r.words())
	}
	return strings.Join(list, ", ")
}
