package config

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"

	"bypeg/pattern/safetext"
)

// The blank as bubbletea calls it, and as people do.
const (
	blank     = " "
	blankWord = "space"
	ctrlBlank = "ctrl+@" // what a terminal sends for the blank with ctrl
)

// altNames are other words for keys.
var altNames = map[string]string{
	blankWord: blank, "ctrl+space": ctrlBlank, "escape": "esc", "return": "enter", "del": "delete", "ins": "insert",
	"page up": "pgup", "pageup": "pgup", "page down": "pgdown", "pagedown": "pgdown",
}

// twins are keys that a terminal sends as another one.
var twins = map[string]string{
	"ctrl+i": "tab", "ctrl+m": "enter", "ctrl+[": "esc", "ctrl+?": "backspace", "shift+space": blankWord, "shift+enter": "enter",
	"ctrl+enter": "enter", "ctrl+tab": "tab", "shift+backspace": "backspace",
}

// namedKeys are the keys that have a name rather than a letter, as bubbletea names them.
var namedKeys = sync.OnceValue(func() []string {
	var names []string
	for t := tea.KeyF20; t <= tea.KeyCtrlQuestionMark; t++ {
		if name := t.String(); name != "" && t != tea.KeyRunes && t != tea.KeySpace {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
})

// altKeys are the named keys that terminals send with alt too.
var altKeys = []string{"up", "down", "left", "right", "home", "end", "pgup", "pgdown", "delete", "enter", "backspace"}

// parseKey finds the key that a person's word means, as bubbletea names it. Where there is
// none, why says so, and instead what may have been meant.
func parseKey(word string) (name, why, instead string) {
	if r, size := utf8.DecodeRuneInString(word); size == len(word) && size > 0 {
		if r == ' ' {
			return blank, "", ""
		}
		if unicode.IsGraphic(r) && safetext.Width(word) > 0 && safetext.Clean(word) == word {
			return word, "", ""
		}
		return "", "this is no key that can be seen", "write " + exampleKeys
	}
	small := strings.ToLower(strings.TrimSpace(word))
	if name := cmp.Or(altNames[small], small); name == blank || slices.Contains(namedKeys(), name) {
		return name, "", ""
	}
	if twin, ok := twins[small]; ok {
		return "", fmt.Sprintf("%s is the same as %s to a terminal", small, twin), "write " + strconv.Quote(twin)
	}
	if rest, ok := cutFold(word, "shift+"); ok && utf8.RuneCountInString(rest) == 1 {
		return "", quote(word) + " is written as the letter alone", "write " + strconv.Quote(strings.ToUpper(rest))
	}
	if rest, ok := cutFold(word, "alt+"); ok && isAlt(rest) {
		return "alt+" + rest, "", ""
	}
	if near := safetext.Nearest(small, keyWords()); near != "" && !strings.Contains(small, "+") {
		return "", "there is no key " + quote(word), fmt.Sprintf("did you mean %q?", near)
	}
	if strings.Contains(small, "+") {
		return "", "no terminal sends " + quote(word), "write " + exampleKeys
	}
	return "", "there is no key " + quote(word), "write " + exampleKeys
}

const exampleKeys = `a letter, or a name such as "space", "enter", "up", "pgdown", "ctrl+n", "f5"`

// isAlt tells whether a terminal sends a key with alt. An O or a bracket would begin what
// it sends for other keys.
func isAlt(rest string) bool {
	if len(rest) == 1 {
		c := rest[0]
		return c != 'O' && (c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9')
	}
	return slices.Contains(altKeys, rest)
}

// cutFold cuts a prefix in small letters off a word, in whatever letters it has it.
func cutFold(word, prefix string) (rest string, ok bool) {
	if len(word) <= len(prefix) || !strings.EqualFold(word[:len(prefix)], prefix) {
		return "", false
	}
	return word[len(prefix):], true
}

// keyWord is a key as people write it.
func keyWord(name string) string {
	switch name {
	case blank:
		return blankWord
	case ctrlBlank:
		return "ctrl+space"
	}
	return name
}

// keyWords are the words for all keys that have a name.
func keyWords() []string {
	return append(slices.Clone(namedKeys()), blankWord)
}

// quote is foreign text in quotes, cleaned and not too long.
func quote(s string) string {
	const width = 40
	if s = safetext.Clean(s[:min(len(s), 8*width)]); safetext.Width(s) > width {
		s = safetext.Cut(s, width-3) + "..."
	}
	return `"` + s + `"`
}
