package file

import (
	"encoding/binary"
	"unicode/utf8"

	"bypeg/pattern/safetext"
)

// The guard. The TOML decoder is sound for what people write and can be brought down
// by what nobody writes: a name of many thousand dots takes gigabytes, brackets
// nested without end exhaust the stack, which no program survives. So every file is
// walked before the decoder sees it, and one that passes these limits is refused.
// The walk reads the whole grammar that gives TOML its shape and refuses what it
// does not understand, so nothing can be hidden from it in a place where the decoder
// would read on.

// MaxBytes is how large a pattern file may be.
const MaxBytes = 4 << 20

// What a pattern file may hold. No pattern comes near any of these.
const (
	maxDepth    = 4       // brackets within brackets
	maxDots     = 2       // dots in one name
	maxKeys     = 4_096   // keys and headers
	maxElements = 120_000 // elements of all lists
)

// Limits of foreign text.
const (
	maxName  = 500      // characters of a title, a name, a key
	maxAbout = 10_000   // characters of what a pattern says about itself
	maxRow   = 64 << 10 // bytes of one written row
)

// fault is one reason not to read a file on.
type fault struct {
	at        span
	msg, hint string
}

// checkText refuses what is not text: bytes that are not UTF-8, and control
// characters, which no editor shows.
func checkText(text string, kind Kind) *fault {
	if len(text) > kind.Bytes {
		return &fault{span{}, "the file is larger than " + kind.most(), kind.check()}
	}
	for i := 0; i < len(text); {
		for i+8 <= len(text) && isPlain(text[i:i+8]) {
			i += 8
		}
		if i == len(text) {
			break
		}
		c := text[i]
		if c >= 0x20 && c < 0x7f || c == '\t' || c == '\n' {
			i++
			continue
		}
		if c < utf8.RuneSelf {
			if c == '\r' && i+1 < len(text) && text[i+1] == '\n' {
				i += 2
				continue
			}
			return &fault{span{i, i + 1}, "a control character stands here", "delete it; editors show it as a blank or not at all"}
		}
		r, size := utf8.DecodeRuneInString(text[i:])
		if r == utf8.RuneError && size == 1 {
			return &fault{span{i, i + 1}, "the text is not UTF-8 from here on", "save the file as UTF-8 in your editor"}
		}
		i += size
	}
	return nil
}

// isPlain tells whether eight bytes are all printable ASCII. It looks at them as one
// number, since large charts have millions: a byte's top bit is set in t where the
// byte is a blank or above, and in d where it is no DEL.
func isPlain(eight string) bool {
	const top = 0x8080808080808080
	x := binary.LittleEndian.Uint64([]byte(eight))
	t := x + 0x6060606060606060
	d := x + 0x0101010101010101
	return x&top == 0 && t&top == top && d&top == 0
}

// shown is foreign text as messages quote it: cleaned, in quotes, not too long.
func shown(s string) string {
	const width = 40
	if s = safetext.Clean(s[:min(len(s), 8*width)]); safetext.Width(s) > width {
		s = safetext.Cut(s, width-3) + "..."
	}
	return `"` + s + `"`
}
