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
	l := launch(t, bypeg, term.Setup{Home: home, W: 80, H: 40})
	l.WaitText(t, "Begin something new")
	l.Keys(t, term.Down)
	l.WaitText(t, "▸ Quay Mat")
	l.Keys(t, "f")
	l.WaitText(t, "Quay Mat: panel, 12 pegs, 15 rows")
	screen := strings.Join(strings.Fields(l.Text()), " ")
	fit := exec.Command(bypeg, "fit", "quay-mat")
	fit.Env = []string{"HOME=" + home}
	said, err := fit.Output()
	require.NoError(t, err)
	assert.Contains(t, screen, strings.Join(strings.Fields(string(said)), " "), "the very same words")
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
