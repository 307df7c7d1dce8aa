package main

import (
	"testing"

	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
)

func TestATerminalHasTheColoursItSaysItHas(t *testing.T) {
	cases := []struct {
		name, system, term, colorterm string
		want                          termenv.Profile
	}{
		{"full colours", "linux", "xterm-256color", "truecolor", termenv.TrueColor},
		{"full colours, in other words", "linux", "xterm", "24bit", termenv.TrueColor},
		{"256", "darwin", "xterm-256color", "", termenv.ANSI256},
		{"GNU screen mangles full colours", "linux", "screen-256color", "truecolor", termenv.ANSI256},
		{"and has sixteen without more", "linux", "screen", "truecolor", termenv.ANSI},
		{"tmux does not", "linux", "tmux-256color", "truecolor", termenv.TrueColor},
		{"the console", "linux", "linux", "", termenv.ANSI},
		{"an old one", "linux", "xterm", "", termenv.ANSI},
		{"unknown", "linux", "", "", termenv.ANSI},
		{"Windows", "windows", "", "", termenv.TrueColor},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, profile(c.system, c.term, c.colorterm)) })
	}
}
