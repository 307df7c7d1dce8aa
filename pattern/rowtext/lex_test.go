package rowtext

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func kindsOf(text string) []tokenKind {
	var kinds []tokenKind
	for _, t := range lex(text, span{0, len(text)}) {
		kinds = append(kinds, t.kind)
	}
	return kinds
}

func TestLexCutsWhatIsWrittenTogether(t *testing.T) {
	tests := []struct {
		name, text string
		want       []tokenKind
	}{
		{"letters and their counts", "k3p2", []tokenKind{tokWord, tokNumber, tokWord, tokNumber, tokEnd}},
		{"a hyphen inside a word", "e-wrap", []tokenKind{tokWord, tokEnd}},
		{"a hyphen before a number", "k-2", []tokenKind{tokWord, tokMinus, tokNumber, tokEnd}},
		{"a decimal is one number", "k1.5", []tokenKind{tokWord, tokFraction, tokEnd}},
		{"a full stop between steps is none", "k1. p5", []tokenKind{tokWord, tokNumber, tokStop, tokWord, tokNumber, tokEnd}},
		{"dots", "k2 ....", []tokenKind{tokWord, tokNumber, tokDots, tokEnd}},
		{"a star that a converter marked", `\*k1\*`, []tokenKind{tokStar, tokWord, tokNumber, tokStar, tokEnd}},
		{"marks of repeats", "★†‡", []tokenKind{tokStar, tokStar, tokStar, tokEnd}},
		{"invisible characters are none", "k\u200b\ufeff3\u00ad", []tokenKind{tokWord, tokNumber, tokEnd}},
		{"nothing", " \n\u00a0", []tokenKind{tokEnd}},
		{"the Kelvin sign is no k", "\u212a3", []tokenKind{tokWord, tokNumber, tokEnd}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, tt.want, kindsOf(tt.text)) })
	}
	assert.NotEqual(t, "k", lex("\u212a3", span{0, 4})[0].word)
}

func TestADoubledMarkIsAnotherMark(t *testing.T) {
	marks := map[int]bool{}
	for _, text := range []string{"*", "**", `\*\*\*`, "†", "††"} {
		tokens := lex(text, span{0, len(text)})
		require.Len(t, tokens, 2, text)
		assert.False(t, marks[tokens[0].number], text)
		marks[tokens[0].number] = true
	}
	one, two := lex("**", span{0, 2}), lex(`\*\*`, span{0, 4})
	assert.Equal(t, one[0].number, two[0].number)
}

// FuzzLex: tokens stand in order inside the piece, each at whole characters, and what lies between
// them is blank.
func FuzzLex(f *testing.F) {
	for _, text := range append(absurd[:4:4], "Rows 1–4 (RS): *K2, P2; rep from ★ to “end”…", "\xff\xfe½ k\u200b1", `\*k1\* e–wrap 3½`) {
		f.Add(text, 0, len(text))
	}
	f.Fuzz(func(t *testing.T, text string, from, to int) {
		if from < 0 || to < from || to > len(text) {
			return
		}
		tokens := lex(text, span{from, to})
		require.Equal(t, tokEnd, tokens[len(tokens)-1].kind)
		require.LessOrEqual(t, len(tokens), to-from+1)
		at := from
		for _, tok := range tokens {
			require.True(t, at <= tok.start && tok.start <= tok.end && tok.end <= to, "%v behind %d, up to %d", tok, at, to)
			require.Equal(t, tok.kind == tokEnd, tok.start == tok.end)
			for _, r := range text[at:tok.start] {
				require.True(t, blank(r) || r == utf8.RuneError, "%q is left out", r)
			}
			at = tok.end
		}
	})
}
