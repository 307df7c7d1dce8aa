package damage_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"hash/crc32"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/tui/internal/disk"
	"bypeg/tui/save"
)

// FuzzOpen opens a piece that has any bytes for its two segments and its place.toml,
// where empty stands for no file. Bytes that come by chance have no sums that check.
// So sum=? in them is replaced by the sum that does: the reader is then also shown
// whatever can be said by records that are whole.
//
// It must never panic or go on for ever. A place that it tells must come from a record
// whose sum checks, or from a place.toml that does. And a piece that opens to be worked
// keeps what is worked.
func FuzzOpen(f *testing.F) {
	for _, seed := range openSeeds() {
		f.Add([]byte(seed[0]), []byte(seed[1]), []byte(seed[2]))
	}
	f.Fuzz(func(t *testing.T, first, second, copied []byte) {
		if len(first)+len(second)+len(copied) > 8<<10 {
			t.Skip("longer is not other")
		}
		files := map[string][]byte{
			journal: summed(first), "journal-0002.txt": summed(second), copyName: summed(copied),
		}
		d := disk.New()
		require.NoError(t, d.Mkdir(root))
		require.NoError(t, d.Mkdir(filepath.Join(root, id)))
		for _, text := range []string{narrower, wider} {
			d.WriteFile(inPiece(patternFile(text)), []byte(text))
		}
		for name, data := range files {
			if len(data) > 0 {
				d.WriteFile(inPiece(name), data)
			}
		}
		began := time.Now()
		openAny(t, d, files)
		require.Less(t, time.Since(began), 10*time.Second, "the work grows with the bytes only")
	})
}

// openSeeds are journals and second copies of all shapes, each short.
func openSeeds() [][3]string {
	mark := patternFile(narrower)[len("pattern-"):][:8]
	const (
		header = "# place journal, version 1, of k7q2: one line a step sum=?\n"
		when   = "2026-01-02T19:04:05+01:00"
		step2  = "2 1 " + when + " step phase=rows row=1 done=1 of=26 sum=?\n"
		step3  = "3 2 " + when + " note phase=rows row=1 done=1 of=26 text=\"a \\\"b\\n\" sum=?\n"
		rival3 = "3 2 " + when + " jump phase=rows row=9 done=0 of=26 sum=?\n"
		here4  = "4 3 " + when + " here phase=rows row=9 done=0 of=26 follows=01234567 sum=?\n"
	)
	begun := "1 0 " + when + " begin phase=cast-on row=0 done=0 of=26 hand=left peg_1=left row_1=\"left to right\" pattern=" +
		mark + " title=\"a\" source=\"b\" sum=?\n"
	changed := "5 4 " + when + " pattern phase=rows row=2 done=0 of=30 pattern=" + patternFile(wider)[len("pattern-"):][:8] + " sum=?\n"
	copied := func(version, number, row int) string {
		return fmt.Sprintf("version = %d\nnumber = %d\ntime = %s\nphase = \"rows\"\nrow = %d\ndone = 1\nof = 26\n"+
			"title = \"a\"\nhand = \"left\"\npattern = \"%s\"\nsum = \"?\"\n", version, number, when, row, mark)
	}
	return [][3]string{
		{"", "", ""},
		{header + begun + step2 + step3, "", ""},
		{header + begun + step2, "", copied(1, 2, 1)},
		{header + begun + step2 + step3, header + rival3, copied(1, 3, 9)},
		{header + begun + step2 + step3, header + rival3 + here4 + changed, copied(2, 9, 9)},
		{header + begun + step2, "", copied(1, 7, 5)},
		{"", "", copied(1, 7, 5)},
		{"", "", strings.Replace(copied(1, 7, 5), "?", "00000000", 1)},
		{header + begun + step2 + "here row=4 done=2\n", "", ""},
		{header + begun + strings.TrimSuffix(step2, "\n") + step3[:len(step3)/2], header, ""},
		{header + begun + step2 + "3 2 " + when + " step phase=rows row=1 done=2 of=26 sum=00000000\n", "", copied(1, 2, 1)},
		{header + begun + step2, "milk\neggs\n", "row = 4\n"},
		{"# place journal, version 2, of k7q2: sum=?\n" + begun + step2, "", ""},
		{header + begun + "9 1 " + when + " leap far=1 sum=?\n", strings.Repeat("\x00", 60), copied(1, 9, 1)},
	}
}

func openAny(t *testing.T, d *disk.Disk, files map[string][]byte) {
	env := envOn(d, id)
	_, err := save.List(env, root)
	require.NoError(t, err)
	p, o, err := save.Open(env, root, id)
	if err != nil {
		for name, data := range files {
			if len(data) > 0 {
				require.Equal(t, data, read(t, d, inPiece(name)), "what cannot be read is left alone")
			}
		}
		return
	}
	vouched := vouchedIn(files)
	history := slices.Collect(o.History.All())
	for _, r := range history {
		require.True(t, vouched.record(r), "%+v has no sum", r)
	}
	if len(history) > 0 {
		require.Equal(t, history[len(history)-1].Place, o.Place)
	} else {
		require.Zero(t, o.Place)
		require.True(t, o.Question != nil || o.LookOnly != "")
	}
	if o.Question != nil {
		for _, c := range o.Question.Choices {
			if c.Origin != save.FromAdded && c.Origin != save.FromDamaged {
				require.True(t, vouched.place(c.Place, c.Of), "%v has no sum", c)
			}
		}
	}
	if o.LookOnly == "" {
		workOn(t, env, p, o)
	}
}

// workOn makes a step in the piece, leaves it, and comes back.
func workOn(t *testing.T, env save.Env, p *save.Piece, o save.Opening) {
	at := pattern.Place{Phase: pattern.Working, Row: 99, Done: 1}
	step := []save.Step{{Kind: save.Forward, Place: at, Of: 26}}
	if q := o.Question; q != nil {
		require.ErrorIs(t, p.Append(step), save.ErrUnanswered)
		again, err := p.Settle(q.Choices[len(q.Choices)-1])
		require.NoError(t, err)
		require.Nil(t, again.Question)
	}
	require.NoError(t, p.Append(step))
	_ = p.Close() // ErrCopyBehind is a notice
	p, o, err := save.Open(env, root, id)
	require.NoError(t, err)
	defer p.Close()
	require.Nil(t, o.Question)
	require.Equal(t, at, o.Place)
	require.Empty(t, o.LookOnly)
}

// patternFile is the name that a pattern text is kept under.
func patternFile(text string) string {
	sum := sha256.Sum256([]byte(text))
	return fmt.Sprintf("pattern-%x.toml", sum[:4])
}

// summed gives sums to the lines of a journal that end in sum=?, and to a place.toml
// that ends in sum = "?".
func summed(data []byte) []byte {
	var b []byte
	for line := range bytes.Lines(data) {
		if text, rest, ok := bytes.Cut(line, []byte(" sum=?")); ok {
			b = fmt.Appendf(b, "%s sum=%08x%s", text, sumOf(id, text), rest)
			continue
		}
		b = append(b, line...)
	}
	if text, ok := bytes.CutSuffix(b, []byte("sum = \"?\"\n")); ok {
		b = fmt.Appendf(nil, "%ssum = \"%08x\"\n", text, sumOf(id, text))
	}
	return b
}

// sumOf is the sum as the format has it: CRC-32C of the piece's id and the text.
func sumOf(seed string, text []byte) uint32 {
	return crc32.Checksum(append([]byte(seed), text...), crc32.MakeTable(crc32.Castagnoli))
}

// vouched is what the sums in some files vouch for: stretches of text, each whole.
type vouched struct{ texts []string }

var (
	sumAtEnd  = regexp.MustCompile(` sum=[0-9a-f]{8}`)
	seedNamed = regexp.MustCompile(`, of ([A-Za-z0-9_-]{1,64}):`)
)

// vouchedIn finds every stretch that any sum vouches for, by trying each beginning
// with each end.
func vouchedIn(files map[string][]byte) vouched {
	seeds := []string{id}
	for _, data := range files {
		for _, m := range seedNamed.FindAllSubmatch(data, 4) {
			seeds = append(seeds, string(m[1]))
		}
	}
	var v vouched
	for _, data := range files {
		for line := range bytes.Lines(data) {
			for _, at := range sumAtEnd.FindAllIndex(line, -1) {
				for from := range at[0] {
					text := line[from:at[0]]
					for _, seed := range seeds {
						if line[from] >= '0' && line[from] <= '9' && fmt.Sprintf("%08x", sumOf(seed, text)) == string(line[at[1]-8:at[1]]) {
							v.texts = append(v.texts, string(text))
						}
					}
				}
			}
		}
		if text, ok := secondWithSum(data, seeds); ok {
			v.texts = append(v.texts, text)
		}
	}
	return v
}

// secondWithSum is what a place.toml tells, written as a journal's line has it, if its
// sum checks.
func secondWithSum(data []byte, seeds []string) (string, bool) {
	data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	cut := bytes.LastIndex(data, []byte("sum = \""))
	if cut < 0 {
		return "", false
	}
	for _, seed := range seeds {
		if string(data[cut:]) == fmt.Sprintf("sum = \"%08x\"\n", sumOf(seed, data[:cut])) {
			return strings.NewReplacer(" = ", "=", `"`, "", "\n", " ").Replace(string(data[:cut])), true
		}
	}
	return "", false
}

func (v vouched) record(r save.Record) bool {
	begins := regexp.MustCompile(fmt.Sprintf(`^0*%d 0*%d `, r.Number, r.Prev))
	for _, text := range v.texts {
		if begins.MatchString(text) && hasPlace(text, r.Place, r.Of) {
			return true
		}
	}
	return false
}

func (v vouched) place(at pattern.Place, of int) bool {
	for _, text := range v.texts {
		if hasPlace(text, at, of) {
			return true
		}
	}
	return false
}

// hasPlace tells whether the fields of a place are in a text, however they are written.
func hasPlace(text string, at pattern.Place, of int) bool {
	for _, field := range []string{
		fmt.Sprintf(`phase="?%s`, at.Phase), fmt.Sprintf(`row="?[+-]?0*%d`, at.Row),
		fmt.Sprintf(`done="?[+-]?0*%d`, at.Done), fmt.Sprintf(`of="?[+-]?0*%d`, of),
	} {
		if !regexp.MustCompile(field).MatchString(text) {
			return false
		}
	}
	return true
}
