package main

import (
	"go/parser"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The script in the README compiles, runs and passes its checks.
func TestScriptOfTheReadme(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, rest, found := strings.Cut(string(readme), "```go\n")
	require.True(t, found)
	script, rest, found := strings.Cut(rest, "```")
	require.True(t, found)
	for fragments := strings.Split(rest, "```go\n"); len(fragments) > 1; fragments = fragments[1:] {
		fragment, _, _ := strings.Cut(fragments[1], "```")
		_, err := parser.ParseExpr(fragment)
		require.NoError(t, err, fragment)
	}
	file := filepath.Join(t.TempDir(), "main.go")
	require.NoError(t, os.WriteFile(file, []byte(script), 0o600))
	command := exec.Command("go", "run", file)
	command.Dir = "../.."
	out, err := command.CombinedOutput()
	require.NoError(t, err, string(out))
	require.Contains(t, string(out), "# Temporary stages of element S-1")
}
