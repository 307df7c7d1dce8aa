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
	tokWord                      // letters, and letters joined by a hyphen
	tokNumber                    // digits
	tokFraction                  // digits, a full stop, digits
	tokBreak                     // a comma, semicolon or single full stop
	tokDots                      // two full stops or more, or an ellipsis
	tokStar                      // the mark of a repeat
	tokOpen                      // an opening bracket
	tokClose                     // a closing bracket
	tokTimes                     // the multiplication sign
	tokMinus                     // a hyphen that joins no letters, or a minus sign
	tokLine                      // a line break inside the row
	tokStray                     // a character no row has
)

// token is a piece of the row. Word is in lower case; number is capped at tooWide.
type token struct {
	span
	kind   tokenKind
	word   string
	number int
}

// lexer cuts a row into tokens. It reports nothing itself: what cannot be read
// becomes a token of a kind that the parser refuses.
type lexer struct {
	text string
	pos  int
}

// lex is all tokens of a row, ended by a tokEnd at the end of the text. Blanks and
// line breaks around the row are left out.
func lex(text string) []token {
	body := strings.TrimRightFunc(text, unicode.IsSpace)
	l := lexer{text: body, pos: len(body) - len(strings.TrimLeftFunc(body, unicode.IsSpace))}
	tokens := make([]token, 0, 16+len(body)/3)
	for {
		t := l.next()
		tokens = append(tokens, t)
		if t.kind == tokEnd {
			return tokens
		}
	}
}

// next is the token at the position, blanks skipped.
func (l *lexer) next() token {
	r, size := l.rune()
	for r != '\n' && r != '\r' && unicode.IsSpace(r) {
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
		t.kind = l.sign(r)
	}
	t.span = span{start, l.pos}
	return t
}

// rune is the character at the position and its size, 0 at the end.
func (l *lexer) rune() (rune, int) { return utf8.DecodeRuneInString(l.text[l.pos:]) }

// letters moves behind a word. A hyphen belongs to it where a letter follows:
// "e-wrap", but not "k-2".
func (l *lexer) letters() {
	for {
		r, size := l.rune()
		if hyphen(r) {
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

// sign is the kind of a character that is neither letter nor digit. The position is
// behind it already.
func (l *lexer) sign(r rune) tokenKind {
	switch r {
	case ',', ';':
		return tokBreak
	case '.':
		return l.stops()
	case '…':
		return tokDots
	case '*', '★':
		return tokStar
	case '\\':
		// Converters leave a backslash before a star.
		if strings.HasPrefix(l.text[l.pos:], "*") {
			l.pos++
			return tokStar
		}
	case '(', '[', '{':
		return tokOpen
	case ')', ']', '}':
		return tokClose
	case '×':
		return tokTimes
	case '\n', '\r':
		return tokLine
	case '−':
		return tokMinus
	}
	if hyphen(r) {
		return tokMinus
	}
	return tokStray
}

// stops tells a single full stop from a row of them.
func (l *lexer) stops() tokenKind {
	kind := tokBreak
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
		}
		return r
	}, word)
}
