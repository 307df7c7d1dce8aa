package save

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"time"

	"bypeg/pattern"
	"bypeg/pattern/safetext"
)

// Summary is a piece as a list shows it. Its texts are safe to show. Of a piece that
// cannot be read, the title, the source and the time are those of place.toml, where
// that can be read.
type Summary struct {
	ID     string
	Title  string
	Source string
	Place  pattern.Place
	Of     int
	Time   time.Time // when it was last worked
	Shelf  Shelf
	Pegs   int    // the count that the maker chose in place of the pattern's; 0 for none
	Made   string // the size and the weight of a finished piece, as its maker told them; "" for none
	Err    string // why nothing more can be told; "" for a sound piece

	pattern string // the mark of its pattern's copy
}

// Pattern is the text that a listed piece is made with.
func (s Summary) Pattern(env Env, root string) ([]byte, error) {
	text, _, err := readPattern(env.FS, filepath.Join(root, s.ID), s.pattern)
	return text, err
}

// tailSize is how much of a journal's end is read for a list.
const tailSize = 8 << 10

// List tells of all pieces under root, the one last worked first, without locking
// any. A piece last worked at a time that is still to come, by a clock that was wrong,
// comes after those. A piece that cannot be read is listed with the reason, after all
// others; one whose making was cut short is left out. A root that is missing has no
// pieces.
func List(env Env, root string) ([]Summary, error) {
	names, err := env.FS.ReadDir(root)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("list the pieces: %w", err)
	}
	var all []Summary
	for _, name := range names {
		info, err := env.FS.Stat(filepath.Join(root, name))
		if err == nil && !info.IsDir() {
			continue
		}
		s, err := summarise(env.FS, root, name)
		switch {
		case errors.Is(err, ErrNeverBegun):
			continue
		case err != nil:
			s = unreadable(env.FS, root, name, err)
		}
		all = append(all, s)
	}
	now := env.Now()
	slices.SortStableFunc(all, func(a, b Summary) int {
		return cmp.Or(cmp.Compare(a.rank(now), b.rank(now)), b.Time.Compare(a.Time))
	})
	return all, nil
}

// rank parts a list: what can be read, what was worked in the future, what cannot be
// read.
func (s Summary) rank(now time.Time) int {
	switch {
	case s.Err != "":
		return 2
	case s.Time.After(now):
		return 1
	}
	return 0
}

// unreadable is what can be told of a piece all the same.
func unreadable(fsys FS, root, name string, why error) Summary {
	s := Summary{ID: safetext.Clean(name), Err: safetext.Clean(why.Error())}
	if second, err := readCopy(fsys, filepath.Join(root, name), name); err == nil && second != nil {
		s.Title = safetext.Clean(second.facts.title)
		s.Source = safetext.Clean(second.facts.source)
		s.Time = second.time
	}
	return s
}

func summarise(fsys FS, root, id string) (Summary, error) {
	if !validID(id) {
		return Summary{}, fmt.Errorf("the folder's name is no id: use letters, digits, '-' and '_'")
	}
	dir := filepath.Join(root, id)
	names, err := fsys.ReadDir(dir)
	if err != nil {
		return Summary{}, err
	}
	if s, ok := glance(fsys, dir, id, names); ok {
		return s, nil
	}
	a, err := readAccount(fsys, dir, id)
	if err != nil {
		return Summary{}, err
	}
	top := a.chain.top
	if len(a.scan.links) == 0 {
		top = Record{Place: a.copy.at, Of: a.copy.of, Time: a.copy.time}
	}
	return summary(id, a.facts, top), nil
}

func summary(id string, f facts, top Record) Summary {
	return Summary{
		ID:     id,
		Title:  safetext.Clean(f.title),
		Source: safetext.Clean(f.source),
		Place:  top.Place,
		Of:     top.Of,
		Time:   top.Time,
		Shelf:  f.shelf,
		Pegs:   f.pegs,
		Made:   safetext.Clean(f.made),

		pattern: f.pattern,
	}
}

// glance finds the place from the end of the last segment and the rest from
// place.toml. It gives up at anything out of the ordinary.
func glance(fsys FS, dir, id string, names []string) (Summary, bool) {
	files := journalNames(names)
	second, err := readCopy(fsys, dir, id)
	if err != nil || second == nil || len(files) == 0 {
		return Summary{}, false
	}
	tail, err := readTail(fsys, filepath.Join(dir, files[len(files)-1]))
	if err != nil {
		return Summary{}, false
	}
	s := newScan(id)
	s.file(tail)
	s.dropRepeats(s.late)
	c := follow(s.ledger)
	if len(c.kept) == 0 || c.kept[0].number > second.number+1 || c.top.Number < second.number {
		return Summary{}, false
	}
	for _, k := range c.told {
		r := s.record(k)
		if r.Number <= second.number {
			continue
		}
		second.facts.amend(r)
		if r.Kind == PatternChanged {
			second.facts.turnTo(r)
		}
	}
	return summary(id, second.facts, c.top), true
}

// readTail reads the last whole lines of a file.
func readTail(fsys FS, path string) ([]byte, error) {
	if _, err := mustBeRegular(fsys, path); err != nil {
		return nil, err
	}
	f, err := fsys.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	from := max(0, info.Size()-tailSize)
	tail, err := io.ReadAll(io.NewSectionReader(f, from, tailSize))
	if err != nil || from == 0 {
		return tail, err
	}
	_, whole, _ := bytes.Cut(tail, []byte{'\n'})
	return whole, nil
}
