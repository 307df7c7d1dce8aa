//go:build unix

package e2e_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

// asks runs a command in the same home, beside the terminal.
func asks(t *testing.T, home string, args ...string) string {
	t.Helper()
	c := exec.Command(bypeg, args...)
	c.Dir, c.Env = home, []string{"HOME=" + home, "XDG_DATA_HOME=" + filepath.Join(home, "data"), "XDG_CONFIG_HOME=" + filepath.Join(home, "config")}
	said, err := c.CombinedOutput()
	require.NoError(t, err, "%s", said)
	return string(said)
}

// A mat is bound off, finished, and put down as 12 x 9 cm and 9 g. By hand: 12 pegs over 12 cm
// are 10 stitches in 10 cm (common practice: what is counted, over what it measures, times
// 10). Then the next one is reckoned by it, where it is asked for.
func TestAFinishedMatIsTheNextOnesSwatch(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	l := start(t, home)
	l.WaitText(t, "Begin something new")
	l.Keys(t, term.Down)
	l.WaitText(t, "▸ Quay Mat")
	l.Keys(t, term.Enter)
	l.waitSays("cast on 2")
	l.toRow(15)
	l.Keys(t, term.Up)
	l.WaitText(t, "binding off")
	l.Keys(t, term.Up)
	l.WaitText(t, "m finish it")
	l.Keys(t, "m")
	l.waitSays("put size and grams down on the shelf")
	l.Keys(t, term.Esc)
	l.WaitText(t, "m finish it")
	l.Keys(t, "q")
	l.WaitText(t, "▸ Quay Mat")
	assert.Contains(t, l.Text(), "Off the loom")
	assert.NotContains(t, l.Text(), "On the loom")

	l.Keys(t, "i")
	l.WaitText(t, "size and weight:")
	l.Send(t, "12 x 9 stones, 9 g\r")
	l.waitSays(`"stones" is no unit of length: write mm, cm, m, in, ft or yd`)
	for range len("stones, 9 g") {
		l.Keys(t, term.Backspace)
	}
	l.Send(t, "cm, 9 g\r")
	l.waitSays("Quay Mat is 12 x 9 cm, 9 g")
	l.waitSays("measured: 12 x 9 cm, 9 g (")
	l.Keys(t, term.Down, term.Down)
	l.WaitText(t, "▸ Quay Mat")
	l.Keys(t, "f")
	l.WaitText(t, "11 cm wide, 8 cm high")
	l.waitSays("your own Quay Mat,")
	l.Keys(t, term.Right)
	l.WaitText(t, "12 cm wide, 9 cm high")
	l.waitSays("all of this is by Quay Mat,")
	l.Keys(t, "q")
	l.WaitText(t, "▸ Quay Mat")
	l.Keys(t, "q")
	l.Wait(t)

	l = start(t, home, "work", "quay-mat", "--finished")
	l.WaitText(t, "m finish it")
	l.Keys(t, "q")
	l.Wait(t)

	by := asks(t, home, "fit", "quay-mat")
	assert.Contains(t, by, "size      11 cm wide, 8 cm high")
	assert.Regexp(t, `(?m)^your own  Quay Mat, \d+ \w+: 10 stitches, .* in 10\s+cm`, by)
	own := asks(t, home, "fit", "quay-mat", "--own")
	assert.Regexp(t, `(?m)^size      12 cm wide, 9 cm high.*(\n .*)*\nyour own  all of this is by Quay Mat, `, own)
	assert.Contains(t, own, "size      12 cm wide, 9 cm high")
	assert.Regexp(t, `likely \d+ m \(9 g\),\s+by the piece that was weighed`, own)
	assert.Equal(t, own, asks(t, home, "fit", "quay-mat", "--own=quay mat"))
	var told struct {
		By  string `json:"by_own"`
		Own []struct {
			Title    string
			Width    float64 `json:"width_cm"`
			Height   float64 `json:"height_cm"`
			Grams    float64
			Stitches float64 `json:"stitches_in_10_cm"`
		}
		Width float64 `json:"width_cm"`
	}
	require.NoError(t, json.Unmarshal([]byte(asks(t, home, "fit", "quay-mat", "--own", "--json")), &told))
	require.Len(t, told.Own, 1)
	assert.Equal(t, "Quay Mat", told.By)
	assert.Equal(t, 12.0, told.Width)
	assert.Equal(t, 12.0, told.Own[0].Width)
	assert.Equal(t, 9.0, told.Own[0].Height)
	assert.Equal(t, 9.0, told.Own[0].Grams)
	assert.InDelta(t, 10, told.Own[0].Stitches, 0.01)

	said := asks(t, home, "fit", "quay-mat", "--own", "-o", "mine.toml")
	assert.Contains(t, said, "written: mine.toml, with your own figures: 12 cm wide, 9 cm high")
	assert.Contains(t, asks(t, home, "fit", "mine.toml"), "size      12 cm wide, 9 cm high")
	mine, err := os.ReadFile(filepath.Join(home, "mine.toml"))
	require.NoError(t, err)
	assert.Contains(t, string(mine), "[swatch]")
}
