package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// references number the sources of a sheet: those of the record keep their numbers,
// others follow as they are met.
type references struct{ sources []formula.Source }

// noReference stands where a source, a document or a report should be named and is not.
const noReference = "no reference given"

// given is a reference as it was given.
func given(reference string) string {
	if strings.TrimSpace(legible(reference)) == "" {
		return noReference
	}
	return reference
}

// numberedDocuments are documents that only their number, the place of the source, tells
// from others.
var numberedDocuments = []string{"technical approval of the post-tensioning system"}

// sourceWords are document and place of a source, with what is missing.
func sourceWords(s formula.Source) string {
	document, place := given(s.Document), strings.TrimSpace(s.Place)
	switch {
	case place != "" && document == noReference:
		return document + ": " + place
	case place == "" && slices.Contains(numberedDocuments, document):
		return document + ", " + noReference
	}
	return strings.TrimSpace(document + " " + place)
}

// behind is the number of a source behind a line or a check.
func (r *references) behind(s formula.Source) string {
	if source := r.source(s); source != noReference {
		return " " + source
	}
	return "; " + noReference
}

// source is the number of a source in brackets. A dagger marks one that is to be
// confirmed.
func (r *references) source(s formula.Source) string {
	if given(s.Document) == noReference && given(s.Place) == noReference {
		return noReference
	}
	at := slices.Index(r.sources, s)
	if at < 0 {
		at = len(r.sources)
		r.sources = append(r.sources, s)
	}
	return fmt.Sprintf("[%d%s]", at+1, dagger(s))
}

func dagger(s formula.Source) string {
	if s.Confirm {
		return "†"
	}
	return ""
}

// sources are the numbered sources.
func (a *author) sources() []block {
	if len(a.references.sources) == 0 {
		return nil
	}
	points := make([]prose, len(a.references.sources))
	for i, s := range a.references.sources {
		points[i] = a.noted(fmt.Sprintf("[%d%s] %s", i+1, dagger(s), sourceWords(s)))
	}
	return []block{list{points: points, columns: 2}}
}
