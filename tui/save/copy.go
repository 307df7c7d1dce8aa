package save

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"bypeg/pattern"
)

const (
	copyName  = "place.toml"
	copyTemp  = "place.new"
	copyLimit = 256 << 10
)

// copyVersion is the version of place.toml that this program writes.
const copyVersion = 1

// secondCopy is what place.toml tells: the place and the facts of the piece, flat
// keys with strings and numbers, and a sum over all that stands before it.
type secondCopy struct {
	version int
	number  uint64
	time    time.Time
	at      pattern.Place
	of      int
	facts   facts

	// adrift is the number of the first record whose line may not be on disk although
	// the journal has it; 0 mostly: the copy then vouches for all lines up to its number.
	adrift uint64
}

// vouched is up to which number the lines of the journal are on disk.
func (c *secondCopy) vouched() uint64 {
	switch {
	case c == nil:
		return 0
	case c.adrift > 0:
		return min(c.number, c.adrift-1)
	}
	return c.number
}

// errCopyDamaged says that place.toml is there and does not check.
var errCopyDamaged = errors.New("the second copy of the place does not check")

// bytes is the file, for the piece with that seed.
func (c *secondCopy) bytes(seed string) []byte {
	var b []byte
	b = fmt.Appendf(b, "# The place of a piece, for people and as a second copy. The journal beside it is the truth.\n")
	b = fmt.Appendf(b, "version = %d\nnumber = %d\ntime = %s\n", copyVersion, c.number, stamp(c.time))
	b = fmt.Appendf(b, "phase = %s\nrow = %d\ndone = %d\nof = %d\n", tomlString(c.at.Phase.String()), c.at.Row, c.at.Done, c.of)
	f := c.facts
	b = fmt.Appendf(b, "title = %s\nsource = %s\n", tomlString(f.title), tomlString(f.source))
	b = fmt.Appendf(b, "hand = %s\npeg_1 = %s\n", tomlString(f.hand.String()), tomlString(f.way.Peg1.String()))
	b = fmt.Appendf(b, "row_1 = %s\npattern = %s\n", tomlString(f.way.Row1.String()), tomlString(f.pattern))
	if f.base != "" {
		b = fmt.Appendf(b, "base = %s\n", tomlString(f.base))
	}
	if f.pegs > 0 {
		b = fmt.Appendf(b, "pegs = %d\n", f.pegs)
	}
	if f.shelf != OnLoom {
		b = fmt.Appendf(b, "shelf = %s\n", tomlString(f.shelf.String()))
	}
	if f.made != "" {
		b = fmt.Appendf(b, "made = %s\n", tomlString(f.made))
	}
	if c.adrift > 0 {
		b = fmt.Appendf(b, "adrift = %d\n", c.adrift)
	}
	return fmt.Appendf(b, "%s%08x\"\n", copySum, checksum(seed, string(b)))
}

const copySum = `sum = "`

// tomlString is s as a basic string of TOML, whose escapes are fewer than Go's.
func tomlString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s { // bytes that are not UTF-8 become U+FFFD
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// parseCopy reads what bytes writes.
func parseCopy(data []byte, seed string) (*secondCopy, error) {
	text := string(bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n")))
	cut := strings.LastIndex(text, copySum)
	if cut < 0 || text[cut:] != fmt.Sprintf("%s%08x\"\n", copySum, checksum(seed, text[:cut])) {
		return nil, errCopyDamaged
	}
	c := &secondCopy{}
	var at place
	for line := range strings.Lines(text[:cut]) {
		line = strings.TrimSuffix(line, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		key, value, ok := strings.Cut(line, " = ")
		if ok && strings.HasPrefix(value, `"`) {
			var err error
			value, err = strconv.Unquote(value)
			ok = err == nil
		}
		if !ok || !at.set(key, value) || !c.set(key, value) {
			return nil, errCopyDamaged
		}
	}
	c.at, c.of = at.Place, at.of
	if !at.complete() || c.version == 0 {
		return nil, errCopyDamaged
	}
	return c, nil
}

func (c *secondCopy) set(key, value string) bool {
	var err error
	switch key {
	case "version":
		c.version, err = strconv.Atoi(value)
	case "number":
		c.number, err = strconv.ParseUint(value, 10, 63)
	case "adrift":
		c.adrift, err = strconv.ParseUint(value, 10, 63)
	case "time":
		c.time, err = time.Parse(time.RFC3339, value)
	default:
		return c.facts.set(key, value)
	}
	return err == nil
}

// readCopy reads place.toml. It is nil where there is none; a copy that is there and
// does not check is errCopyDamaged, any other error says that it could not be read.
func readCopy(fsys FS, dir, seed string) (*secondCopy, error) {
	data, err := readFile(fsys, filepath.Join(dir, copyName), copyLimit)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return parseCopy(data, seed)
}

// writeCopy replaces place.toml, unless the one on disk is newer.
func writeCopy(fsys FS, dir, seed string, c *secondCopy) error {
	old, err := readCopy(fsys, dir, seed)
	switch {
	case err != nil && !errors.Is(err, errCopyDamaged):
		return fmt.Errorf("%w: %w", ErrCopyBehind, err)
	case old != nil && (old.number > c.number || old.version > copyVersion):
		return fmt.Errorf("%w: the one on disk is newer", ErrCopyBehind)
	}
	if err := replaceFile(fsys, dir, copyName, copyTemp, c.bytes(seed)); err != nil {
		return fmt.Errorf("%w: %w", ErrCopyBehind, err)
	}
	return nil
}

// copyNotice tells a person that place.toml is behind, and why.
func copyNotice(err error) string {
	why := reason(err)
	if strings.HasPrefix(why, ErrCopyBehind.Error()) {
		return why
	}
	return ErrCopyBehind.Error() + ": " + why
}
