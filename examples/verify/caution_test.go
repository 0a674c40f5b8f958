package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The doc of every package of the module says who must confirm the results.
func TestEveryPackageDocCarriesTheCaution(t *testing.T) {
	docs := map[string]string{} // by folder
	require.NoError(t, filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments|parser.PackageClauseOnly)
		if err == nil {
			docs[filepath.Dir(path)] += file.Doc.Text()
		}
		return err
	}))
	require.Greater(t, len(docs), 10)
	for folder, doc := range docs {
		require.Contains(t, strings.ToLower(strings.Join(strings.Fields(doc), " ")), "an aid: a licensed engineer must confirm every result", folder)
	}
}
