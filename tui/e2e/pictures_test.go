//go:build unix

package e2e_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

var updatePictures = flag.Bool("update-pictures", false, "draw the README's pictures anew, from the program's screens")

// pictures is where they lie.
var pictures = filepath.Join("..", "..", ".pictures")

// scene is a screen of the program as the README shows it.
type scene struct {
	name  string
	light bool
	args  []string
	keys  []string // sent one after the other
	until string   // what is on the screen then
}

var scenes = []scene{
	{"shelf", false, nil, []string{string(term.End)}, "a ladder of lace"},
	{"cast-on", false, []string{"work", "sluice-cloth"}, []string{"       "}, "7 of 30 loops"},
	{"work", false, []string{"work", "sluice-cloth", "--on-loom", "17"}, []string{strings.Repeat(" ", 9)}, "9 of 30 worked"},
	{"border", true, []string{"work", "sluice-cloth", "--on-loom", "17"}, []string{strings.Repeat(" ", 25)}, "border in 2 pegs"},
	{"turn", false, []string{"work", "sluice-cloth", "--on-loom", "41"}, []string{"n", "longer than the bottom one: measure\r"}, "note:"},
	{"large", false, []string{"work", "sluice-cloth", "--on-loom", "17"}, []string{strings.Repeat(" ", 9), "l"}, "peg ["},
	{"keys", false, []string{"work", "sluice-cloth", "--on-loom", "17"}, []string{"?"}, "any key"},
	{"chart", false, []string{"work", "skiff-cloth", "--on-loom", "20"}, []string{"c"}, "o cloth"},
	{"cloth", false, []string{"work", "skiff-cloth", "--on-loom", "20"}, []string{"c", "o"}, "o chart"},
	{"where", false, []string{"work", "sluice-cloth", "--on-loom", "17"}, []string{"w", "right\r", "8\r"}, "go there"},
	{"mend", false, []string{"work", "sluice-cloth", "--on-loom", "24"}, []string{"m", "2\r", "17\r", "\r", "\r\r\r"}, "step 4 of"},
	{"ways", false, []string{"work", "sluice-cloth", "--on-loom", "17"}, []string{"f", "w22.5 cm\r", "y14 g\r"}, "as far as the yarn"},
	{"bind-off", false, []string{"work", "quay-mat", "--on-loom", "15"}, []string{"    "}, "4 of 12 loops"},
}

// roundAnyway are the scenes whose words have round brackets: nothing is on its way there.
var roundAnyway = map[string]bool{"keys": true, "shelf": true, "chart": true, "cloth": true, "ways": true, "mend": true}

// TestThePicturesShowTheProgramAsItIs draws every picture of the README from the built
// program on a pseudo-terminal and compares.
func TestThePicturesShowTheProgramAsItIs(t *testing.T) {
	if *updatePictures {
		require.NoError(t, os.MkdirAll(pictures, 0o755))
	}
	for _, s := range scenes {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			theme, ground, text := "dark", "#18181b", "#dcdcd6"
			if s.light {
				theme, ground, text = "light", "#fafaf7", "#1e1e1e"
			}
			l := launch(t, bypeg, term.Setup{Home: t.TempDir(), Env: []string{"COLORTERM=truecolor"}}, append(s.args, "--theme", theme)...)
			l.WaitFor(t, "the first screen", func(c *term.Screen) bool { return c.Text() != "" })
			for _, k := range s.keys {
				before := l.Text()
				for _, one := range keysOf(k) {
					l.Keys(t, term.Key(one))
				}
				l.WaitFor(t, "what the keys do", func(c *term.Screen) bool { return c.Text() != before })
			}
			l.waitSays(s.until)
			l.WaitFor(t, "all to be saved", func(c *term.Screen) bool {
				return !strings.Contains(c.Text(), "(") || roundAnyway[s.name]
			})
			drawn := l.Picture(ground, text)
			path := filepath.Join(pictures, s.name+".svg")
			if *updatePictures {
				require.NoError(t, os.WriteFile(path, []byte(drawn), 0o644))
				return
			}
			had, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.True(t, string(had) == drawn, "the picture %s is old: run go test ./tui/e2e -run Pictures -update-pictures and look at it", s.name)
		})
	}
}

// keysOf parts blanks and text that is typed into single keys, and leaves what a terminal
// sends for a named key whole.
func keysOf(text string) []string {
	if strings.HasPrefix(text, "\x1b") {
		return []string{text}
	}
	return strings.Split(text, "")
}
