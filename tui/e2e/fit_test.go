//go:build unix

package e2e_test

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// A new user opens the shelf, asks of an example whether it will fit, reads what bypeg fit
// says too, begins it from there, and finds it on the shelf.
func TestWhetherItWillFitIsAskedOnTheShelf(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := start(t, home)
	l.WaitText(t, "Begin something new")
	l.Keys(t, term.Down)
	l.WaitText(t, "▸ Quay Mat")
	l.Keys(t, "f")
	l.WaitText(t, "Quay Mat: panel, 12 pegs, 15 rows")
	assert.Regexp(t, `(?m)^size +11 cm wide, 8 cm high`, l.Text())
	assert.Regexp(t, `(?m)^yarn +7 to 8 m, likely 8 m \(6 g\); buy 1 ball of 50 g`, l.Text())
	fit := exec.Command(bypeg, "fit", "quay-mat")
	fit.Env = []string{"HOME=" + home}
	said, err := fit.Output()
	require.NoError(t, err)
	require.Contains(t, string(said), "at 20 a minute (--pace)\n")
	same := strings.ReplaceAll(string(said), " (--pace)", "") // a screen names no flags
	assert.Equal(t, strings.TrimSpace(same), strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(l.Text()), "enter begin  q back")), "the very same lines")
	l.Keys(t, term.Enter)
	l.waitSays("cast on 2")
	l.Keys(t, term.Up)
	l.waitAt(1, 0)
	l.Keys(t, "q")
	l.WaitText(t, "▸ Quay Mat")
	l.Keys(t, "f")
	l.WaitText(t, "enter go on  q back")
	l.Keys(t, term.Enter)
	l.waitAt(1, 0)
}
