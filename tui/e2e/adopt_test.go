//go:build unix

package e2e_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// Rows for needles that do not say which side row 1 is are asked about, once.
func TestAdoptAsksWhichSideRow1Is(t *testing.T) {
	t.Parallel()
	rows := filepath.Join(t.TempDir(), "rows.txt")
	require.NoError(t, os.WriteFile(rows, []byte("Row 1: p8\nRow 2: k8\n"), 0o600))
	for answer, want := range map[string]string{"wrong": `rows   = ["k"]`, "right side": `rows   = ["p"]`} {
		s := start(t, t.TempDir(), "adopt", rows, "--from", "needles")
		s.WaitText(t, "Which side of the fabric faces you on row 1, right or wrong?")
		s.Send(t, answer+"\n")
		s.WaitText(t, want)
		assert.Equal(t, term.Exit{}, s.Wait(t))
	}
	s := start(t, t.TempDir(), "adopt", rows, "--from", "needles")
	s.WaitText(t, "right or wrong?")
	s.Send(t, "left\n")
	s.WaitText(t, "write --row-1 right-side")
	assert.Equal(t, term.Exit{Code: 2}, s.Wait(t))
}
