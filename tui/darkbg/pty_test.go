//go:build unix

package darkbg

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/term"
)

func TestTheTerminalIsNotQuestioned(t *testing.T) {
	const programs = "bypeg/tui/darkbg/testdata/"
	for _, c := range []struct {
		name, program string
		silent, asks  bool
	}{
		{"without this package, it is", "asks", false, true},
		{"with it, a terminal that would answer is left alone", "asksnot", false, false},
		{"with it, a terminal that never answers costs no time", "asksnot", true, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			binary, remove, err := term.Build(programs+c.program, "-buildvcs=false")
			require.NoError(t, err)
			defer remove()
			start := time.Now()
			s := term.Start(t, binary, nil, term.Setup{Silent: c.silent})
			assert.Equal(t, term.Exit{}, s.Wait(t))
			assert.Less(t, time.Since(start), 2*time.Second)
			if c.asks {
				assert.Contains(t, string(s.Raw()), "\x1b]11;?")
				return
			}
			assert.Equal(t, "hello\r\n", string(s.Raw()))
		})
	}
}
