package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/flow"
)

// The guide shows the machines as they are.
func TestDiagramsInTheGuide(t *testing.T) {
	const open, end = "<!-- diagrams -->\n", "<!-- /diagrams -->"
	name := filepath.Join("..", "..", "DEVELOPERS.md")
	raw, err := os.ReadFile(name)
	require.NoError(t, err)
	before, rest, ok := strings.Cut(string(raw), open)
	require.True(t, ok, "no place for the diagrams in DEVELOPERS.md")
	_, after, ok := strings.Cut(rest, end)
	require.True(t, ok)
	var b strings.Builder
	for _, d := range flow.Diagrams() {
		b.WriteString("\n### " + d.Name + "\n\n```mermaid\n" + d.Mermaid + "\n```\n")
	}
	want := before + open + b.String() + "\n" + end + after
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(want), 0o644))
		return
	}
	require.Equal(t, want, string(raw), "run with -update")
}
