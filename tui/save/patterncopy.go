package save

import (
	"cmp"
	"crypto/sha256"
	"fmt"
	"path/filepath"
	"strings"
)

// patternLimit is how large the text of a pattern may be.
const patternLimit = 4 << 20

const patternTemp = "pattern.new"

// patternMark is the mark by which records name a pattern text: the first eight
// digits of its SHA-256.
func patternMark(text []byte) string {
	sum := sha256.Sum256(text)
	return fmt.Sprintf("%x", sum[:4])
}

// isMark keeps what a file says from becoming a path of any other shape.
func isMark(s string) bool {
	return len(s) == 8 && strings.Trim(s, "0123456789abcdef") == ""
}

func patternName(mark string) string { return "pattern-" + mark + ".toml" }

// FromSource tells whether a text is what the piece's source had when the pattern of the
// piece was last taken from it.
func (p *Piece) FromSource(text []byte) bool {
	f := p.fact()
	return patternMark(text) == cmp.Or(f.base, f.pattern)
}

// readPattern reads a kept pattern and tells whether it is the one that was kept.
func readPattern(fsys FS, dir, mark string) (text []byte, same bool, err error) {
	text, err = readFile(fsys, filepath.Join(dir, patternName(mark)), patternLimit)
	return text, patternMark(text) == mark, err
}

// RestorePattern puts the text that a piece is made with back where it was kept and is
// gone or damaged. It tells whether it did: it does not where the text is another one, or
// where the piece is open elsewhere, which is an error.
func RestorePattern(env Env, root, id string, text []byte) (restored bool, err error) {
	dir := filepath.Join(root, id)
	p := &Piece{env: env, id: id, dir: dir}
	if err := p.takeLock(); err != nil {
		return false, err
	}
	defer p.letGo()
	a, err := readAccount(env.FS, dir, id)
	if err != nil {
		return false, err
	}
	if _, same, err := readPattern(env.FS, dir, a.facts.pattern); err == nil && same || patternMark(text) != a.facts.pattern {
		return false, nil
	}
	_, err = keepPattern(env.FS, dir, text)
	return err == nil, err
}

// keepPattern puts a pattern text on disk. The copies of former texts stay.
func keepPattern(fsys FS, dir string, text []byte) (mark string, err error) {
	if len(text) > patternLimit {
		return "", fmt.Errorf("the pattern has more than %d bytes: make it smaller", patternLimit)
	}
	mark = patternMark(text)
	return mark, replaceFile(fsys, dir, patternName(mark), patternTemp, text)
}
