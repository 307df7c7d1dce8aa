package save

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
)

const agreeID = "k7q2"

// segments parts a journal at form feeds into the files of a piece, the first of which
// may be a copy under another name.
func segments(data []byte) (names []string, files [][]byte) {
	for i, part := range bytes.Split(data, []byte{'\f'}) {
		name := segmentName(i)
		if i == 0 {
			name = "journal-0001-copy.txt"
		}
		names, files = append(names, name), append(files, part)
	}
	if len(names) == 1 {
		names[0] = segmentName(1)
	}
	return names, files
}

// sealed gives every line a sum that agrees with what stands before it, whatever that is.
func sealed(data []byte) []byte {
	var b []byte
	for line := range strings.Lines(string(data)) {
		text, _, _ := strings.Cut(strings.TrimSuffix(line, "\n"), sumField)
		b = appendSum(append(b, text...), len(b), agreeID)
	}
	return b
}

// genLine draws the text of a line as a step has it, or as some other program might.
func genLine(number, prev uint64) *rapid.Generator[string] {
	part := func(t *rapid.T, label string, usual string, odd ...string) string {
		if rapid.IntRange(0, 15).Draw(t, label+" is odd") > 0 {
			return usual
		}
		return rapid.SampledFrom(odd).Draw(t, label)
	}
	return rapid.Custom(func(t *rapid.T) string {
		count := func(label string, most int) string {
			return part(t, label, fmt.Sprint(rapid.IntRange(0, most).Draw(t, label+" is")),
				"", "-1", "+2", "007", "1 0", "999999999", "1234567890", "9999999999999999999", "99999999999999999999", "x", "٣", " ", `"3"`, `"3`, "3=")
		}
		clock := fmt.Sprintf("%02d:%02d:%02d", rapid.IntRange(0, 23).Draw(t, "hour"), rapid.IntRange(0, 59).Draw(t, "minute"), rapid.IntRange(0, 59).Draw(t, "second"))
		fields := []string{
			part(t, "number", fmt.Sprint(number), "0", "", "01", "+1", "999999999999999999", "9223372036854775807", "9223372036854775808", "1e3"),
			part(t, "prev", fmt.Sprint(prev), "0", "", "00", "-1", "999999999999999999", "18446744073709551617"),
			part(t, "day", rapid.SampledFrom([]string{"2026-03-28", "2026-03-29"}).Draw(t, "day is"), "2026-02-29", "2026-13-01", "0000-01-01", "26-01-01", "2026/01/01") +
				part(t, "T", "T", "t", " ", "_") +
				part(t, "clock", clock, "24:00:00", "19:60:00", "19:00:60", "9:00:00", "19.00.00", "19:00:0:", "1/:00:00", "19:00:00.5", "19:00:00,5", "\xb09:00:00", "19:00") +
				part(t, "zone", rapid.SampledFrom([]string{"Z", "+01:00", "+02:00"}).Draw(t, "zone is"), "", "z", "+00:00", "-00:00", "+24:00", "+25:00", "+01:60", "+0100", "-07:30", "+01:000step x=", "+01:00x", "Zstep x="),
			part(t, "kind", "step", "back", "jump", "undo", "redo", "note", "begin", "pattern", "here", "leap", "", "Step"),
			"phase=" + part(t, "phase", "rows", "cast-on", "bind-off", "finish", "steaming", "", "row", `"rows"`),
			"row=" + count("row", 12),
			"done=" + count("done", 30),
			"of=" + count("of", 30),
		}
		if rapid.IntRange(0, 15).Draw(t, "more") == 0 {
			fields = append(fields, rapid.SampledFrom([]string{
				`text="a b"`, `text="\x1b[2J"`, "pattern=0a1b2c3d", "pattern=x", "follows=00000000", "mood=fair", "row=3", "phase=finish", "", "x", "sum=12345678",
			}).Draw(t, "and"))
		}
		if rapid.IntRange(0, 31).Draw(t, "order") == 0 {
			i, j := rapid.IntRange(0, len(fields)-1).Draw(t, "this"), rapid.IntRange(0, len(fields)-1).Draw(t, "and that")
			fields[i], fields[j] = fields[j], fields[i]
		}
		return strings.Join(fields, part(t, "blank", " ", "  ", "\t"))
	})
}

// life is a journal while it is being drawn.
type life struct {
	lines   [][]byte
	records []Record // made so far; the last one is gone on from
}

// genJournal draws a journal that has lived: gaps, rivals, tries made again, answers,
// lines that are there twice, lines of other programs and pieces, and damage.
func genJournal() *rapid.Generator[[]byte] {
	return rapid.Custom(func(t *rapid.T) []byte {
		l := &life{lines: [][]byte{[]byte(header(agreeID))}}
		l.make(Record{Number: 1, Time: begin, Kind: Begun, Of: 26, facts: facts{pattern: "0a1b2c3d"}})
		for range rapid.IntRange(0, 40).Draw(t, "lines") {
			if rapid.IntRange(0, 2).Draw(t, "out of the ordinary") == 0 {
				l.event(t)
			} else {
				l.make(l.record(t))
			}
		}
		return damagedBy(t, bytes.Join(l.lines, nil))
	})
}

// make writes a record.
func (l *life) make(r Record) {
	r.sum = sumOf(r)
	l.records = append(l.records, r)
	l.lines = append(l.lines, r.appendLine(nil, agreeID))
}

// record draws one that this program may write next.
func (l *life) record(t *rapid.T) Record {
	top := l.records[len(l.records)-1]
	switch r := next(t, top); rapid.IntRange(0, 12).Draw(t, "record") {
	case 0, 1:
		before := top
		if rapid.Bool().Draw(t, "another place") {
			before = rapid.SampledFrom(l.records).Draw(t, "answer")
		}
		r.Kind, r.Prev, r.follows = Here, before.Number, before.sum
		r.Number = max(r.Number, r.Prev+1)
		r.facts.pattern = rapid.SampledFrom([]string{"", "0a1b2c3d", "4e5f6a7b"}).Draw(t, "pattern")
		return r
	case 2:
		r.Kind, r.facts.pattern = PatternChanged, "4e5f6a7b"
		return r
	case 3:
		r.Kind, r.Text = Noted, rapid.SampledFrom([]string{"", "blue", "\x1b[2J\n"}).Draw(t, "text")
		return r
	case 4: // a step that failed is made again
		top.Number += uint64(rapid.IntRange(1, 2).Draw(t, "burnt"))
		return top
	default:
		r.Kind = rapid.SampledFrom([]Kind{Forward, Forward, Forward, Back, Jump, Undo, Redo}).Draw(t, "kind")
		return r
	}
}

// event is what else may happen to a journal.
func (l *life) event(t *rapid.T) {
	top := l.records[len(l.records)-1]
	line := ""
	switch rapid.IntRange(0, 9).Draw(t, "event") {
	case 0: // numbers are lost
		top.Number += uint64(rapid.IntRange(1, 20).Draw(t, "gap"))
		l.records = append(l.records, top)
	case 1: // somebody goes on from an earlier one
		l.records = append(l.records, rapid.SampledFrom(l.records).Draw(t, "from"))
	case 2: // a line is there twice
		line = string(rapid.SampledFrom(l.lines).Draw(t, "again"))
	case 3: // a person or a tool has been at it
		line = rapid.SampledFrom([]string{"\n", "# my own words\n", "here row=3 done=1\n", "milk\n", "\f", "\f" + header(agreeID), header("k7q3")}).Draw(t, "by hand")
	case 4: // a line strays in from another piece
		line = string(next(t, top).appendLine(nil, "k7q3"))
	case 5, 6:
		l.makeAgain(t)
	default: // another program writes
		line = string(sealed([]byte(genLine(top.Number+1, top.Number).Draw(t, "line"))))
	}
	l.lines = append(l.lines, []byte(line))
}

// makeAgain makes the last records again, or fewer of them, as after a write that failed.
func (l *life) makeAgain(t *rapid.T) {
	tried := slices.Clone(l.records[max(0, len(l.records)-rapid.IntRange(1, 5).Draw(t, "tried")):])
	number, prev := l.records[len(l.records)-1].Number, tried[0].Prev
	for _, r := range tried[:rapid.IntRange(1, len(tried)).Draw(t, "made again")] {
		number++
		r.Number, r.Prev, prev = number, prev, number
		l.make(r)
	}
}

// next is a step that follows a record.
func next(t *rapid.T, top Record) Record {
	at := pattern.Place{Phase: pattern.Working, Row: rapid.IntRange(1, 3).Draw(t, "row"), Done: rapid.IntRange(0, 12).Draw(t, "done")}
	if rapid.IntRange(0, 3).Draw(t, "bound off") == 0 {
		at.Phase, at.Row = pattern.BindingOff, 0
	}
	return Record{Number: top.Number + 1, Prev: top.Number, Time: top.Time.Add(7 * time.Second), Kind: Forward, Place: at, Of: 26}
}

func sumOf(r Record) uint32 {
	_, sum, _ := splitSum(strings.TrimSuffix(string(r.appendLine(nil, agreeID)), "\n"), agreeID)
	return sum
}

// damagedBy does to a journal what disks, editors and people do, or nothing.
func damagedBy(t *rapid.T, data []byte) []byte {
	for range rapid.IntRange(0, 3).Draw(t, "blows") {
		at := rapid.IntRange(0, len(data)-1).Draw(t, "at")
		switch rapid.IntRange(0, 6).Draw(t, "blow") {
		case 0:
			data = slices.Clone(data)
			data[at] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		case 6: // a digit has become another
			if n := bytes.IndexAny(data[at:], "0123456789"); n >= 0 {
				data = slices.Clone(data)
				data[at+n] = '0' + (data[at+n]-'0'+7)%10
			}
		case 1:
			data = data[:at+1]
		case 2:
			data = slices.Delete(slices.Clone(data), at, min(len(data)-1, at+rapid.IntRange(1, 100).Draw(t, "lost")))
		case 3:
			data = bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))
		case 4:
			if n := bytes.IndexByte(data[at:], '\n'); n >= 0 {
				data = slices.Delete(slices.Clone(data), at+n, at+n+1)
			}
		case 5:
			data = slices.Insert(slices.Clone(data), at, rapid.SliceOfN(rapid.Byte(), 1, 20).Draw(t, "junk")...)
		}
	}
	return data
}

// genSecond draws no second copy, or one of any place.
func genSecond() *rapid.Generator[*secondCopy] {
	return rapid.Custom(func(t *rapid.T) *secondCopy {
		if rapid.Bool().Draw(t, "no second copy") {
			return nil
		}
		number := rapid.Uint64Range(0, 45).Draw(t, "number")
		r := next(t, Record{Number: number, Time: begin})
		return &secondCopy{version: copyVersion, number: number, time: r.Time, at: r.Place, of: r.Of, facts: facts{pattern: "0a1b2c3d"}}
	})
}

// TestALineIsReadInOnePassOnlyIfItReadsTheSame holds the quick reader of lines against
// parseRecord, for lines whose sums agree: what it takes is sound, and means the same.
func TestALineIsReadInOnePassOnlyIfItReadsTheSame(t *testing.T) {
	taken := 0
	rapid.Check(t, func(t *rapid.T) {
		p := newPlainReader(agreeID)
		for range rapid.IntRange(1, 8).Draw(t, "lines") {
			line := sealed([]byte(genLine(9, 8).Draw(t, "line")))
			n := p.read(line)
			if n == 0 {
				continue
			}
			taken++
			require.Len(t, line, n)
			want, verdict := parseRecord(strings.TrimSuffix(string(line), "\n"), agreeID)
			require.Equal(t, sound, verdict, "%q", line)
			sameRecords(t, []Record{want}, []Record{p.record()})
		}
	})
	require.NotZero(t, taken)
}

// TestALineThatIsNotTakenLeavesNothingBehind reads a line before and after another one
// that is given up at some place.
func TestALineThatIsNotTakenLeavesNothingBehind(t *testing.T) {
	const usual = "9 8 2026-01-02T19:05:40+01:00 step phase=rows row=1 done=2 of=26"
	for _, c := range []struct{ is, becomes string }{
		{"9 8", "9 9"}, {"-02T", "-32T"}, {"-02T", "-03t"}, {"19:", "29:"}, {"+01:00", "+99:00"}, {"+01:00", "+02:00?"},
		{"step", "leap"}, {"step phase=rows", "back phase=steaming"}, {"phase=rows", "phase=finish "}, {"row=1", "row=x"},
		{"done=2", "done=-2"}, {"of=26", "of="}, {"of=26", "of=26 mood=fair"},
	} {
		p := newPlainReader(agreeID)
		line := sealed([]byte(usual))
		require.NotZero(t, p.read(line))
		want := p.record()
		require.Zero(t, p.read(sealed([]byte(strings.Replace(usual, c.is, c.becomes, 1)))), c.becomes)
		require.NotZero(t, p.read(line), c.becomes)
		sameRecords(t, []Record{want}, []Record{p.record()})
	}
}

// TestEveryStepIsReadInOnePass holds that the lines that this program writes for steps
// are plain, so that no change of the writing makes openings slow.
func TestEveryStepIsReadInOnePass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := newPlainReader(agreeID)
		for range rapid.IntRange(1, 8).Draw(t, "records") {
			r := genRecord().Draw(t, "record")
			r.Number, r.Prev, r.Text = r.Number%1e18+1, r.Prev%(r.Number%1e18+1), ""
			line := r.appendLine(nil, agreeID)
			plain := slices.Contains(plainKinds[:], r.Kind)
			require.Equal(t, plain, p.read(line) == len(line), "%q", line)
		}
	})
}

// TestTheClockIsReadWholeOrNotAtAll tries every three numbers, and every byte in every
// place.
func TestTheClockIsReadWholeOrNotAtAll(t *testing.T) {
	for n := range 1_000_000 {
		h, m, s := n/10_000, n/100%100, n%100
		text := []byte{'0' + byte(h/10), '0' + byte(h%10), ':', '0' + byte(m/10), '0' + byte(m%10), ':', '0' + byte(s/10), '0' + byte(s%10)}
		clock, ok := clockAt(text)
		if is := h < 24 && m < 60 && s < 60; is != ok {
			t.Fatalf("%q: %v", text, ok)
		}
		p := plainReader{clock: clock}
		if want := time.Duration(60*(60*h+m)+s) * time.Second; ok && p.second() != want {
			t.Fatalf("%q: %v", text, p.second())
		}
	}
	for i := range len("12:34:56") {
		for b := range 256 {
			text := []byte("12:34:56")
			text[i] = byte(b)
			_, ok := clockAt(text)
			_, err := time.Parse(time.TimeOnly, string(text))
			if ok != (err == nil) {
				t.Fatalf("%q: %v", text, ok)
			}
		}
	}
}

// TestAnyJournalReadsAsTheReferenceReadsIt is the law that all that is done for speed
// must keep.
func TestAnyJournalReadsAsTheReferenceReadsIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names, files := segments(genJournal().Draw(t, "journal"))
		agree(t, agreeID, names, files, genSecond().Draw(t, "second copy"))
	})
}

// FuzzAnyJournalReadsAsTheReferenceReadsIt tries any bytes, as they are and with sums
// that agree.
func FuzzAnyJournalReadsAsTheReferenceReadsIt(f *testing.F) {
	for i := range 12 {
		f.Add(genJournal().Example(i))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, data := range [][]byte{data, sealed(data)} {
			names, files := segments(data)
			agree(t, agreeID, names, files, nil)
		}
	})
}
