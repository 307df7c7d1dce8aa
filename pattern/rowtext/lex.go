package rowtext

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// tokenKind is the kind of a token.
type tokenKind uint8

const (
	tokEnd      tokenKind = iota // behind the last token
	tokWord                      // letters, and letters joined by a hyphen or an apostrophe
	tokNumber                    // digits
	tokFraction                  // digits, a full stop, digits; or a sign such as ½
	tokBreak                     // a comma or semicolon
	tokStop                      // a single full stop
	tokDots                      // two full stops or more, or an ellipsis
	tokStar                      // the mark of a repeat; number tells its kinds apart
	tokOpen                      // an opening bracket
	tokClose                     // a closing bracket
	tokTimes                     // the multiplication sign
	tokMinus                     // a hyphen that joins no letters, or a minus sign
	tokDash                      // an en or em dash
	tokColon                     //
	tokAnd                       // &
	tokSlash                     //
	tokHash                      // #
	tokEquals                    //
	tokPlus                      //
	tokQuote                     // a quotation mark: inches, where a number stands before it
	tokBullet                    // what layout puts before a line
	tokLine                      // a line break
	tokStray                     // a character no row has
)

// token is a piece of the text. Word is in lower case; number is capped at tooWide.
type token struct {
	span
	kind   tokenKind
	word   string
	number int
}

// lexer cuts a text into tokens. It reports nothing itself: what cannot be read
// becomes a token of a kind that the parser refuses.
type lexer struct {
	text string // up to where the tokens end
	pos  int
}

// lex is all tokens of a piece of a text, ended by a tokEnd. Their places are those in
// the whole text. Blanks and line breaks around the piece are left out.
func lex(text string, at span) []token {
	body := strings.TrimRightFunc(text[at.start:at.end], blank)
	lead := len(body) - len(strings.TrimLeftFunc(body, blank))
	l := lexer{text: text[:at.start+len(body)], pos: at.start + lead}
	tokens := make([]token, 0, 8+len(body)/3)
	for {
		t := l.next()
		tokens = append(tokens, t)
		if t.kind == tokEnd {
			return tokens
		}
	}
}

// blank tells the characters that stand for nothing: those of layout, and the
// invisible ones that pasted text has.
func blank(r rune) bool {
	switch r {
	case '\u00ad', '\u200b', '\u200c', '\u200d', '\u2060', '\ufeff', '\ufe0f', '\u200e', '\u200f':
		return true
	}
	return unicode.IsSpace(r)
}

// next is the token at the position, blanks skipped.
func (l *lexer) next() token {
	r, size := l.rune()
	for r != '\n' && r != '\r' && blank(r) && size > 0 {
		l.pos += size
		r, size = l.rune()
	}
	start := l.pos
	if size == 0 {
		return token{span: span{start, start}, kind: tokEnd}
	}
	l.pos += size
	t := token{}
	switch {
	case unicode.IsLetter(r):
		l.letters()
		t.kind, t.word = tokWord, lower(l.text[start:l.pos])
	case digit(r):
		l.pos = start
		t.kind, t.number = l.digits()
	default:
		t.kind, t.number = l.sign(r)
	}
	t.span = span{start, l.pos}
	return t
}

// rune is the character at the position and its size, 0 at the end.
func (l *lexer) rune() (rune, int) { return utf8.DecodeRuneInString(l.text[l.pos:]) }

// letters moves behind a word. A hyphen or an apostrophe belongs to it where a letter
// follows: "e-wrap", but not "k-2".
func (l *lexer) letters() {
	for {
		r, size := l.rune()
		if hyphen(r) || r == '\'' || r == '\u2019' {
			after, _ := utf8.DecodeRuneInString(l.text[l.pos+size:])
			if !unicode.IsLetter(after) {
				return
			}
		} else if !unicode.IsLetter(r) {
			return
		}
		l.pos += size
	}
}

// digits moves behind a number. A full stop belongs to it where a digit follows.
func (l *lexer) digits() (kind tokenKind, number int) {
	kind = tokNumber
	for l.pos < len(l.text) {
		c := rune(l.text[l.pos])
		switch {
		case digit(c):
			number = min(number*10+int(c-'0'), tooWide)
		case c == '.' && l.pos+1 < len(l.text) && digit(rune(l.text[l.pos+1])):
			kind = tokFraction
		default:
			return kind, number
		}
		l.pos++
	}
	return kind, number
}

// signs are the characters that are a token each.
var signs = map[rune]tokenKind{
	',': tokBreak, ';': tokBreak, '\u3001': tokBreak, '\u2026': tokDots,
	'(': tokOpen, '[': tokOpen, '{': tokOpen, ')': tokClose, ']': tokClose, '}': tokClose,
	'\u00d7': tokTimes, '\u2715': tokTimes, '\n': tokLine, '\r': tokLine, '\u2028': tokLine,
	'\u2212': tokMinus, '\u2013': tokDash, '\u2014': tokDash, '\u2015': tokDash,
	':': tokColon, '&': tokAnd, '/': tokSlash, '#': tokHash, '=': tokEquals, '+': tokPlus,
	'"': tokQuote, '\u201c': tokQuote, '\u201d': tokQuote, '\u2033': tokQuote, '\'': tokQuote, '\u2018': tokQuote, '\u2019': tokQuote,
	'\u2022': tokBullet, '\u25e6': tokBullet, '\u2023': tokBullet, '\u25aa': tokBullet, '\u25cf': tokBullet, '\u25a0': tokBullet,
	'\u00b7': tokBullet, '\u2043': tokBullet, '>': tokBullet, '\u2610': tokBullet, '\u2611': tokBullet,
	'\u00bd': tokFraction, '\u00bc': tokFraction, '\u00be': tokFraction,
}

// marks are the characters that mark a repeat, each a kind of its own.
var marks = map[rune]int{
	'*': 1, '\u2605': 2, '\u2606': 3, '\u2020': 4, '\u2021': 5, '\u2731': 6, '\u2217': 7, '\u204e': 8, '\uff0a': 9, '\u274b': 10, '\u00a7': 11, '^': 12,
}

// sign is the kind of a character that is neither letter nor digit, and for the mark of
// a repeat which mark it is: doubled ones are others than single ones. The position is
// behind it already.
func (l *lexer) sign(r rune) (kind tokenKind, mark int) {
	switch {
	case r == '.':
		return l.stops(), 0
	case r == '\\' && strings.HasPrefix(l.text[l.pos:], "*"):
		// Converters leave a backslash before a star.
		l.pos++
		return tokStar, l.doubled('*')
	case marks[r] > 0:
		return tokStar, l.doubled(r)
	case hyphen(r):
		return tokMinus, 0
	}
	if kind, ok := signs[r]; ok {
		return kind, 0
	}
	return tokStray, 0
}

// doubled is which mark of a repeat it is, moved behind its doubles.
func (l *lexer) doubled(r rune) int {
	mark := marks[r]
	for {
		rest := l.text[l.pos:]
		rest, escaped := strings.CutPrefix(rest, "\\")
		next, size := utf8.DecodeRuneInString(rest)
		if next != r || size == 0 {
			return mark
		}
		if escaped {
			size++
		}
		l.pos += size
		mark += 100
	}
}

// stops tells a single full stop from a row of them.
func (l *lexer) stops() tokenKind {
	kind := tokStop
	for strings.HasPrefix(l.text[l.pos:], ".") {
		kind = tokDots
		l.pos++
	}
	return kind
}

func digit(r rune) bool { return '0' <= r && r <= '9' }

// hyphen tells the hyphens that pasted words have.
func hyphen(r rune) bool { return r == '-' || r == '\u2010' || r == '\u2011' }

// lower folds a word's ASCII letters and makes its hyphens plain. Other letters
// stay: the Kelvin sign is no k.
func lower(word string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case 'A' <= r && r <= 'Z':
			return r + 'a' - 'A'
		case hyphen(r):
			return '-'
		case r == '\u2019':
			return '\''
		}
		return r
	}, word)
}
