package stages

// causeKind is the kind of a cause.
type causeKind string

const (
	causePrestress causeKind = "prestress"
	causeDynamic   causeKind = "dynamic"
	causeWeight    causeKind = "weight"
	causeAction    causeKind = "action"
	causeLevel     causeKind = "level"
	causeBed       causeKind = "part of the weight that the bed does not carry"
)

// cause is a factor with a range that all entries of one origin share.
type cause struct {
	kind   causeKind
	key    string // weight group, mark of an action, support
	action *Action
}

// cause is the index of a cause, new if it is the first of its kind and key.
func (r *run) cause(kind causeKind, key string) int {
	for i, c := range r.causes {
		if c.kind == kind && c.key == key {
			return i
		}
	}
	r.causes = append(r.causes, cause{kind: kind, key: key})
	return len(r.causes) - 1
}

// newAction is the cause of an action that is put on. Each is a cause of its own: the
// wind of one stage is not that of another, though both are called wind.
func (r *run) newAction(of *Action) int {
	r.causes = append(r.causes, cause{kind: causeAction, key: of.Mark, action: of})
	return len(r.causes) - 1
}

// actionOf is the cause of the action of a mark that was put on last.
func (r *run) actionOf(mark string) int {
	for i := len(r.causes) - 1; i >= 0; i-- {
		if r.causes[i].kind == causeAction && r.causes[i].key == mark {
			return i
		}
	}
	return -1
}
