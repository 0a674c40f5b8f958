package main

import (
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
	script, _, found := strings.Cut(rest, "```")
	require.True(t, found)
	file := filepath.Join(t.TempDir(), "main.go")
	require.NoError(t, os.WriteFile(file, []byte(script), 0o600))
	command := exec.Command("go", "run", file)
	command.Dir = "../.."
	out, err := command.CombinedOutput()
	require.NoError(t, err, string(out))
	require.Contains(t, string(out), "# Temporary stages of element S-1")
}
