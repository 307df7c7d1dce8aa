package save

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"bypeg/pattern"
)

// version is the version of the journal that this program writes.
const version = 1

// journalLimit is the size at which a journal file is refused: about two hundred
// times the longest life of a piece.
const journalLimit = 1 << 30

// header is the first line of each segment, newline included.
func header(seed string) string {
	text := fmt.Sprintf("# place journal, version %d, of %s: one line a step; lines that do not check are skipped, never deleted", version, seed)
	return string(appendSum([]byte(text), 0, seed))
}

// parseHeader reads the version from a header that checks.
func parseHeader(line, seed string) (int, bool) {
	text, _, ok := splitSum(line, seed)
	if !ok {
		return 0, false
	}
	_, rest, ok := strings.Cut(text, "# place journal, version ")
	if !ok {
		return 0, false
	}
	digits, _, _ := strings.Cut(rest, ",")
	v, err := strconv.Atoi(digits)
	return v, err == nil
}

// headerSeed is the id that a header names, which is how a folder that was given
// another name can still be read.
func headerSeed(data []byte) (string, bool) {
	line, _, _ := strings.Cut(string(data[:min(len(data), 400)]), "\n")
	_, rest, _ := strings.Cut(line, ", of ")
	seed, _, ok := strings.Cut(rest, ":")
	return seed, ok && validID(seed)
}

// segmentName is the name of the n-th journal file.
func segmentName(n int) string { return fmt.Sprintf("journal-%04d.txt", n) }

// segmentNumber is the n of a name that this program gave; ok is false for copies
// under other names.
func segmentNumber(name string) (n int, ok bool) {
	digits := strings.TrimSuffix(strings.TrimPrefix(name, "journal-"), ".txt")
	n, err := strconv.Atoi(digits)
	return n, err == nil && n > 0 && segmentName(n) == name
}

// journalNames picks the journal files, in the order in which they are read: copies
// under other names first (a tool that syncs folders makes them), then the segments.
func journalNames(names []string) []string {
	var picked []string
	for _, name := range names {
		if strings.HasPrefix(name, "journal-") && strings.HasSuffix(name, ".txt") {
			picked = append(picked, name)
		}
	}
	slices.SortStableFunc(picked, func(a, b string) int {
		m, _ := segmentNumber(a)
		n, _ := segmentNumber(b)
		return m - n
	})
	return picked
}

// scan is what was found in the journal files of a piece. Files are read in order
// and lines from top to bottom, so that "after" has a meaning among them.
type scan struct {
	*ledger          // the records that check, each once
	version int      // the highest that a header names
	highest uint64   // the highest number among the records
	foreign bool     // a line is whole but cannot be understood
	torn    bool     // the last file ends within a line
	tail    int      // how many bytes of lines that are not whole there are in all
	lines   int      // records, and lines that do not check
	mangled int      // lines that do not check and yet told all they had to tell
	atEnd   []string // full lines after the last record that do not check
	added   *added   // the last line written by hand after the last record
	target  target   // the last segment: where the next line goes

	headed bool  // the file being read has a header that checks
	found  bool  // and a record that does
	late   []int // the records that come after one with a higher number
}

// added is a place that a person wrote into the journal.
type added struct {
	line string
	at   pattern.Place
	of   int
}

// target is a segment to go on with.
type target struct {
	number  int   // 0 where there is no segment
	size    int64 // as read
	newline bool  // it ends with one
	headed  bool  // it has a header that checks, and a record: then both are on disk
}

// scanJournal reads every journal file of a piece. That one of them cannot be read
// is an error, never an empty journal.
func scanJournal(fsys FS, dir, id string, names []string) (*scan, error) {
	names = journalNames(names)
	files := make([][]byte, len(names))
	for i, name := range names {
		var err error
		if files[i], err = readFile(fsys, filepath.Join(dir, name), journalLimit); err != nil {
			return nil, err
		}
	}
	var best *scan
	for _, seed := range seedsOf(id, files) {
		found := scanFiles(seed, names, files)
		if len(found.links) > 0 {
			return found, nil
		}
		// A header alone may have strayed in; where nothing checks, the folder's name counts.
		if best == nil || !best.anything() && (found.anything() || seed == id) {
			best = found
		}
	}
	return best, nil
}

// maxSeeds is how many ids of other pieces are tried.
const maxSeeds = 4

// seedsOf are the ids that the lines of a piece's files may be made for, the likeliest
// first. That is the folder's name, unless every file says the same other one: the
// folder was then given another name. A single file that says another one may have
// strayed in.
func seedsOf(id string, files [][]byte) []string {
	var named []string
	all := true
	for _, data := range slices.Backward(files) { // the segments, and then what lies beside them
		seed, ok := headerSeed(data)
		all = all && (ok || len(data) == 0)
		if ok && seed != id && !slices.Contains(named, seed) && len(named) < maxSeeds {
			named = append(named, seed)
		}
		all = all && seed != id
	}
	if all && len(named) == 1 {
		return []string{named[0], id}
	}
	return append([]string{id}, named...)
}

// anything tells whether one line at least was made for this piece, though no record.
func (s *scan) anything() bool { return s.version > 0 || s.foreign }

// shortest is less than any record has bytes.
const shortest = 64

func newScan(seed string) *scan { return &scan{ledger: newLedger(seed)} }

func scanFiles(seed string, names []string, files [][]byte) *scan {
	most := 0 // records, and not of lines that are too short to be one
	for _, data := range files {
		most += min(bytes.Count(data, []byte{'\n'}), len(data)/shortest)
	}
	s := newScan(seed)
	s.links = make([]link, 0, most)
	for i, data := range files {
		headed := s.file(data)
		if n, ok := segmentNumber(names[i]); ok {
			s.target = target{
				number:  n,
				size:    int64(len(data)),
				newline: len(data) == 0 || data[len(data)-1] == '\n',
				headed:  headed,
			}
		}
	}
	s.dropRepeats(s.late)
	return s
}

// file reads one file and tells whether it has a header and a record that check.
func (s *scan) file(data []byte) (headed bool) {
	s.torn, s.headed, s.found = false, false, false
	number := int32(len(s.files))
	s.files = append(s.files, data)
	p := &s.reader
	for at := 0; at < len(data); {
		if n := p.read(data[at:]); n > 0 {
			s.lines++
			s.keep(link{p.number, p.prev, number, int32(at)})
			at += n
			continue
		}
		line, _, full := bytes.Cut(data[at:], []byte{'\n'})
		at += len(line) + 1
		if full { // an editor of another system may have been at it
			line = bytes.TrimSuffix(line, []byte{'\r'})
		}
		s.line(string(line), full)
	}
	if !s.headed && s.found {
		s.mangled++
	}
	return s.headed && s.found
}

// line reads one line. A comment that ends in a sum is a header, or else a line that
// damage has made into a comment.
func (s *scan) line(line string, full bool) {
	switch {
	case strings.TrimSpace(line) == "":
		return
	case strings.HasPrefix(line, "#"):
		if v, ok := parseHeader(line, s.seed); ok {
			s.version = max(s.version, v)
			s.headed = true
			return
		}
		if cut := len(line) - sumLen; cut < 0 || !strings.HasPrefix(line[cut:], sumField) {
			return
		}
	case strings.HasPrefix(line, "here "):
		if at, of, ok := guessPlace(strings.TrimPrefix(line, "here ")); ok {
			s.added = &added{line: line, at: at, of: of}
			return
		}
	}
	r, verdict := parseRecord(line, s.seed)
	switch verdict {
	case sound:
		s.lines++
		s.keep(s.addWhole(r))
	case foreign:
		s.lines++
		s.foreign = true
	case damaged:
		s.damagedLine(line, full)
	}
}

func (s *scan) keep(k link) {
	s.atEnd, s.added, s.found = nil, nil, true
	if k.number <= s.highest {
		s.late = append(s.late, len(s.links))
	}
	s.links = append(s.links, k)
	s.highest = max(s.highest, k.number)
}

// mostTorn is more than a write that was cut off leaves behind the last newline: a batch
// of steps, of which no byte need be right. What is longer has lost more than that, and
// is damage. So is a long note whose write was cut off, which errs on the safe side.
const mostTorn = MaxBatch * 112

// damagedLine keeps the whole records that lie within a line which does not check:
// one lost newline must not cost two steps.
func (s *scan) damagedLine(line string, full bool) {
	within := salvage(line, s.seed)
	for _, r := range within {
		s.lines++
		s.keep(s.addWhole(r))
	}
	rest := line // behind the last of them
	if n := len(within); n > 0 {
		last := within[n-1].line
		rest = line[strings.LastIndex(line, last)+len(last):]
	}
	if !full {
		s.tail += len(line)
	}
	switch {
	case !full && len(rest) <= mostTorn:
		s.torn = true
	case len(within) > 0 && len(rest) <= mostTorn:
		s.mangled++
	default:
		s.lines++
		s.atEnd = append(s.atEnd, rest)
	}
}
