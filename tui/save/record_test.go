package save

import (
	"encoding/binary"
	"hash/crc32"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
)

// Source: RFC 3720 (iSCSI), appendix B.4, "CRC Examples". The bytes there are in
// the order of transmission, the lowest first.
func TestTheSumIsCRC32C(t *testing.T) {
	ascending := make([]byte, 32)
	for i := range ascending {
		ascending[i] = byte(i)
	}
	for _, c := range []struct {
		name string
		data string
		want []byte
	}{
		{"32 bytes of zeroes", strings.Repeat("\x00", 32), []byte{0xaa, 0x36, 0x91, 0x8a}},
		{"32 bytes of ones", strings.Repeat("\xff", 32), []byte{0x43, 0xab, 0xa8, 0x62}},
		{"32 bytes of incrementing 00..1f", string(ascending), []byte{0x4e, 0x79, 0xdd, 0x46}},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := binary.LittleEndian.Uint32(c.want)
			assert.Equal(t, want, checksum("", c.data))
			assert.Equal(t, want, checksum(c.data[:5], c.data[5:]), "a seed is as if it stood before the text")
		})
	}
}

func TestALineReadsAsItIsDescribed(t *testing.T) {
	when := time.Date(2026, 1, 2, 19, 5, 40, 0, time.FixedZone("", 3600))
	for _, c := range []struct {
		name string
		r    Record
		want string
	}{
		{
			"a step",
			Record{Number: 4711, Prev: 4710, Time: when, Kind: Forward, Place: at(12, 9), Of: 26},
			`4711 4710 2026-01-02T19:05:40+01:00 step phase=rows row=12 done=9 of=26`,
		},
		{
			"a note",
			Record{Number: 4713, Prev: 4711, Time: when, Kind: Noted, Place: at(12, 8), Of: 26, Text: "blue \"B\"\nhere"},
			`4713 4711 2026-01-02T19:05:40+01:00 note phase=rows row=12 done=8 of=26 text="blue \"B\"\nhere"`,
		},
		{
			"the beginning",
			Record{Number: 1, Time: when, Kind: Begun, Of: 26, facts: facts{
				title: "Quay Mat", source: "quay mat.toml", way: pattern.DefaultWay(pattern.RightHand), pattern: "0a1b2c3d",
			}},
			`1 0 2026-01-02T19:05:40+01:00 begin phase=cast-on row=0 done=0 of=26 hand=right peg_1=right row_1="right to left" pattern=0a1b2c3d title="Quay Mat" source="quay mat.toml"`,
		},
		{
			"a clock that has gone mad",
			Record{Number: 2, Prev: 1, Time: when.AddDate(9000, 0, 0), Kind: Back, Place: at(1, 1), Of: 2},
			`2 1 1970-01-01T00:00:00Z back phase=rows row=1 done=1 of=2`,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			line := string(c.r.appendLine(nil, "k7q2"))
			text, sum, ok := splitSum(strings.TrimSuffix(line, "\n"), "k7q2")
			require.True(t, ok)
			assert.Equal(t, c.want, text)
			assert.Equal(t, crc32.Checksum([]byte("k7q2"+c.want), crc32.MakeTable(crc32.Castagnoli)), sum)
			_, verdict := parseRecord(strings.TrimSuffix(line, "\n"), "k7q3")
			assert.Equal(t, damaged, verdict, "a line of another piece does not check")
		})
	}
}

// genRecord draws any record that can be written.
func genRecord() *rapid.Generator[Record] {
	return rapid.Custom(func(t *rapid.T) Record {
		r := Record{
			Number: rapid.Uint64Range(1, 1<<63-1).Draw(t, "number"),
			Time: time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "time"), 0).
				In(time.FixedZone("", 60*rapid.IntRange(-720, 840).Draw(t, "zone"))),
			Kind: Kind(rapid.IntRange(0, len(kindNames)-1).Draw(t, "kind")),
			Place: pattern.Place{
				Phase: pattern.Phase(rapid.IntRange(0, 3).Draw(t, "phase")),
				Row:   rapid.IntRange(0, maxRow).Draw(t, "row"),
				Done:  rapid.IntRange(0, maxDone).Draw(t, "done"),
			},
			Of:   rapid.IntRange(0, maxDone).Draw(t, "of"),
			Text: anyText().Draw(t, "text"),
		}
		r.Prev = rapid.Uint64Range(0, r.Number-1).Draw(t, "prev")
		switch r.Kind {
		case Begun:
			r.facts = genFacts().Draw(t, "facts")
		case Here:
			r.follows = rapid.Uint32().Draw(t, "follows")
			if rapid.Bool().Draw(t, "instead") {
				for range rapid.IntRange(1, 3).Draw(t, "how many") {
					r.Instead = append(r.Instead, at(rapid.IntRange(0, maxRow).Draw(t, "instead"), 7))
				}
			}
		case PatternChanged:
			r.facts.pattern = genMark().Draw(t, "pattern")
			r.void = rapid.SliceOfN(rapid.Uint32(), 0, 3).Draw(t, "void")
		}
		return r
	})
}

func genFacts() *rapid.Generator[facts] {
	return rapid.Custom(func(t *rapid.T) facts {
		return facts{
			title:   anyText().Draw(t, "title"),
			source:  anyText().Draw(t, "source"),
			hand:    rapid.SampledFrom([]pattern.Hand{pattern.RightHand, pattern.LeftHand}).Draw(t, "hand"),
			way:     pattern.Way{Peg1: pattern.Side(rapid.IntRange(0, 1).Draw(t, "peg 1")), Row1: pattern.Direction(rapid.IntRange(0, 1).Draw(t, "row 1"))},
			pattern: genMark().Draw(t, "pattern"),
		}
	})
}

func genMark() *rapid.Generator[string] { return rapid.StringMatching(`[0-9a-f]{8}`) }

// anyText draws text, bytes that are no text, and what could be taken for a record.
func anyText() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) }),
		rapid.SampledFrom([]string{"", `"`, `\`, " sum=00000000", "a=b c=d", "\n# x", "\x1b]52;c;!\a", "\u202e"}),
	)
}

func TestEveryRecordReadsBackAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := genRecord().Draw(t, "record")
		line := string(want.appendLine(nil, "k7q2"))
		require.Equal(t, 1, strings.Count(line, "\n"))
		got, verdict := parseRecord(strings.TrimSuffix(line, "\n"), "k7q2")
		require.Equal(t, sound, verdict)
		require.True(t, want.Time.Equal(got.Time))
		require.True(t, want.sameStep(got))
		require.Equal(t, line, string(got.appendLine(nil, "k7q2")))
	})
}

func TestEverySecondCopyReadsBackAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := genRecord().Draw(t, "record")
		f := genFacts().Draw(t, "facts")
		want := secondCopy{version: copyVersion, number: r.Number, time: r.Time, at: r.Place, of: r.Of, facts: f}
		got, err := parseCopy(want.bytes("k7q2"), "k7q2")
		require.NoError(t, err)
		require.True(t, want.time.Equal(got.time))
		// TOML text is UTF-8: other bytes are told as what they are not.
		require.Equal(t, strings.Map(keepRune, f.title), got.facts.title)
		require.Equal(t, string(want.bytes("k7q2")), string(got.bytes("k7q2")))
	})
}

func keepRune(r rune) rune { return r }

// TestALaterVersionMayTellMore: a whole line with a key that this program does not
// know is read; one with a kind that it does not know is not taken for damage.
func TestALaterVersionMayTellMore(t *testing.T) {
	line := func(text string) string {
		return strings.TrimSuffix(string(appendSum([]byte(text), 0, "k7q2")), "\n")
	}
	r, verdict := parseRecord(line(`2 1 2026-01-02T19:05:40Z step phase=rows row=1 done=1 of=2 mood="fair"`), "k7q2")
	assert.Equal(t, sound, verdict)
	assert.Equal(t, at(1, 1), r.Place)
	for _, text := range []string{
		`2 1 2026-01-02T19:05:40Z leap phase=rows row=1 done=1 of=2`,
		`2 1 2026-01-02T19:05:40Z step phase=steaming row=1 done=1 of=2`,
		`2 1 2026-01-02T19:05:40Z step phase=rows row=1 done=1`,
		`2 2 2026-01-02T19:05:40Z step phase=rows row=1 done=1 of=2`,
		`2 1 2026-01-02T19:05:40Z step phase=rows row=-1 done=1 of=2`,
	} {
		_, verdict := parseRecord(line(text), "k7q2")
		assert.Equal(t, foreign, verdict, text)
	}
}
