package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// Document is a document from elsewhere that answers a question which this calculation
// does not evaluate: a design of an anchorage zone, a check of friction, a crane chart.
type Document struct {
	Covers   limits.Kind // the question that it answers
	Number   string      // of the document
	Revision string      // of the document
	Status   string      // e.g. "approved for construction"
}

// Covered is a stage with documents that answer questions which are not evaluated. Their
// checks become conditional and are printed as hold points. A check that is evaluated
// and fails is not covered.
func Covered(stage Stage, documents ...Document) Stage { return covered{stage, documents} }

type covered struct {
	stage     Stage
	documents []Document
}

func (c covered) Situations(h History) ([]Situation, error) {
	if isNil(c.stage) {
		return nil, fmt.Errorf("documents without a stage: must be a stage")
	}
	for i, d := range c.documents {
		if d.Covers == "" || d.Number == "" || d.Revision == "" || d.Status == "" {
			return nil, fmt.Errorf("document %d %q covers %q, revision %q, status %q: must have a kind, a number, a revision and a status", i+1, d.Number, d.Covers, d.Revision, d.Status)
		}
	}
	situations, err := c.stage.Situations(h)
	list := slices.Clone(situations)
	for i := range list {
		list[i].Covered = append(slices.Clone(list[i].Covered), c.documents...)
	}
	return list, err
}

// unanswered is a question without an answer, and why.
type unanswered struct {
	kind  limits.Kind
	words string
}

// discharge makes a check that is not evaluated conditional where a document covers it.
func (of *situationChecks) discharge(documents []Document) {
	for _, d := range documents {
		condition := fmt.Sprintf("covered by document %s, revision %s, status %s", d.Number, d.Revision, d.Status)
		hit := false
		for i := range of.checks {
			if c := &of.checks[i]; c.Kind == d.Covers && c.State == NotEvaluated {
				c.State, c.Condition, hit = Conditional, condition, true
			}
		}
		of.unanswered = slices.DeleteFunc(of.unanswered, func(u unanswered) bool {
			if u.kind != d.Covers {
				return false
			}
			of.checks = append(of.checks, checked{Check: Check{Kind: u.kind, Name: string(u.kind), State: Conditional, Sense: limits.AtMost, Note: u.words, Condition: condition}})
			hit = true
			return true
		})
		if hit {
			of.documents = append(of.documents, derive.HoldPoint{Kind: string(d.Covers), Document: &derive.Document{Number: d.Number, Revision: d.Revision, Status: d.Status}})
		}
	}
}

// words are the unanswered questions, in words.
func (of *situationChecks) words() []string {
	var list []string
	for _, u := range of.unanswered {
		list = append(list, u.words)
	}
	return list
}
