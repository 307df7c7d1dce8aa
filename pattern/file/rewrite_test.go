package file

import (
	"cmp"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
)

func TestRewriteLeavesTheRestAsItStands(t *testing.T) {
	const zones = "\n# the frame\n[[zone]]\nname = 'a' # lowest\nrows = ['k', 'p']\n"
	for _, c := range []struct {
		name, text string
		changes    []Change
		want       string
	}{
		{
			"a value alone", "pattern = 1\r\npegs    =   12   # of 24\r\n" + zones,
			[]Change{{Key: "pegs", Value: 14}},
			"pattern = 1\r\npegs    =   14   # of 24\r\n" + zones,
		},
		{
			"a new key stands behind one it goes with, set out as that is", "pattern = 1\npegs    = 12 # of 24\n" + zones,
			[]Change{{Key: "markers", Value: []int{3, 9}}, {In: InZone(0), Key: "times", Value: 3}, {In: InZone(0), Key: "sides", Value: 2}},
			"pattern = 1\npegs    = 12 # of 24\nmarkers = [3, 9]\n" +
				"\n# the frame\n[[zone]]\nname = 'a' # lowest\nrows = ['k', 'p']\ntimes = 3\nsides = 2\n",
		},
		{
			"a line break of the file's own kind, also where the last line has none",
			"pattern = 1\r\npegs=5\r\n[[zone]]\r\nname = 'a'\r\n  rows = '''k'''",
			nil, "",
		},
		{
			"quotes stay as they are", "pattern = 1\npegs = 5\n[loom]\nspacing = '1/2 in'\n" + zones,
			[]Change{{In: Under("loom"), Key: "spacing", Value: "9.5 mm"}, {In: Under("loom"), Key: "pegs", Value: 31}},
			"pattern = 1\npegs = 5\n[loom]\nspacing = '9.5 mm'\npegs = 31\n" + zones,
		},
		{
			"unless the text can't stand in them", "pattern = 1\npegs = 5\ntitle = 'Mat'\n" + zones,
			[]Change{{Key: "title", Value: `It's a "mat"`}},
			"pattern = 1\npegs = 5\ntitle = \"It's a \\\"mat\\\"\"\n" + zones,
		},
		{
			"a header that is missing comes above the zones and their comment", "pattern = 1\npegs = 5\n" + zones,
			[]Change{{In: Under("loom"), Key: "pegs", Value: 31}, {In: Under("loom"), Key: "spacing", Value: "1/2 in"}},
			"pattern = 1\npegs = 5\n\n[loom]\npegs = 31\nspacing = \"1/2 in\"\n\n# the frame\n[[zone]]\nname = 'a' # lowest\nrows = ['k', 'p']\n",
		},
		{
			"names with dots", "pattern = 1\npegs = 5\n  loom.pegs = 31\n" + zones,
			[]Change{{In: Under("loom"), Key: "first_peg", Value: 4}},
			"pattern = 1\npegs = 5\n  loom.pegs = 31\n  loom.first_peg = 4\n" + zones,
		},
		{
			"tables in braces", "pattern = 1\npegs = 5\nloom = { pegs = 31 } # mine\nzone = [{name = 'a', rows = ['k']}]",
			[]Change{
				{In: Under("loom"), Key: "spacing", Value: "1 cm"},
				{In: InZone(0), Key: "times", Value: 7},
				{In: Under("yarn"), Key: "weight", Value: 4},
			},
			"pattern = 1\npegs = 5\nloom = { pegs = 31, spacing = \"1 cm\" } # mine\nzone = [{name = 'a', rows = ['k'], times = 7}]\n\n[yarn]\nweight = 4\n",
		},
		{
			"the same value again is not written otherwise", "pattern = 1\npegs = 0x05\n[gauge]\nstitches = 11.0\nover = '4 in'\n" + zones,
			[]Change{{Key: "pegs", Value: 5}, {In: Under("gauge"), Key: "stitches", Value: 11}},
			"pattern = 1\npegs = 0x05\n[gauge]\nstitches = 11.0\nover = '4 in'\n" + zones,
		},
		{
			"strips, each its own", "\ufeffpattern = 1\npegs = 5\n[[zone]]\nname = 'a'\n[[zone.strip]]\npegs = 2 # left\nrows = ['k']\n[[zone.strip]]\npegs = 3\nrows = ['p']\n",
			[]Change{{Key: "pegs", Value: 9}, {In: InStrip(0, 0), Key: "pegs", Value: 4}, {In: InStrip(0, 1), Key: "pegs", Value: 5}, {In: InZone(0), Key: "times", Value: 2}},
			"\ufeffpattern = 1\npegs = 9\n[[zone]]\nname = 'a'\ntimes = 2\n[[zone.strip]]\npegs = 4 # left\nrows = ['k']\n[[zone.strip]]\npegs = 5\nrows = ['p']\n",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.changes == nil {
				c.text = strings.Replace(c.text, "'''k'''", "['k']", 1)
				c.changes = []Change{{In: InZone(0), Key: "times", Value: 2}, {Key: "markers_every", Value: 4}}
				c.want = "pattern = 1\r\npegs=5\r\nmarkers_every=4\r\n[[zone]]\r\nname = 'a'\r\n  rows = ['k']\r\n  times = 2"
			}
			got, err := Rewrite([]byte(c.text), c.changes)
			require.NoError(t, err)
			assert.Equal(t, c.want, string(got))
		})
	}
}

func TestRewriteRefuses(t *testing.T) {
	const mat = "pattern = 1\npegs = 5\n[gauges.seed]\nstitches = 10\nover = '10 cm'\n[[zone]]\nname = 'a'\nrows = ['k2, p3']\n"
	for _, c := range []struct {
		name, text string
		change     Change
		want       string
	}{
		{
			"a file that is wrong already", "pattern = 1\n", Change{Key: "pegs", Value: 4},
			"the file must be right before it is changed: the file:1:1: the pattern does not say how many pegs it takes (and 1 more)",
		},
		{"a zone that is not there", mat, Change{In: InZone(1), Key: "times", Value: 2}, "there is no zone 2 in the file"},
		{"a strip that is not there", mat, Change{In: InStrip(0, 0), Key: "pegs", Value: 2}, "there is no zone 1, strip 1 in the file"},
		{"a named table that is not there", mat, Change{In: Under("gauges", "rib"), Key: "rows", Value: 2}, "there is no gauges, rib in the file"},
		{"what makes the file wrong", mat, Change{Key: "pegs", Value: 4}, "the changed file:8:14: the row needs 5 pegs and has 4: 1 too many"},
		{"a key that no pattern has", mat, Change{In: InZone(0), Key: "width", Value: 4}, "the changed file:7:1: there is no key \"width\" in a zone"},
		{"a list in place of a text is told by the file's own gates", mat, Change{In: InZone(0), Key: "name", Value: []int{1}}, "the changed file:7:8: name takes text in quotes; this is a list"},
		{"a table", mat, Change{In: Under("gauges"), Key: "seed", Value: 3}, "seed in gauges can't be given one value: change it by hand"},
		{"a value of no kind", mat, Change{Key: "pegs", Value: true}, "pegs in the top of the file: a bool is no value of a key that could be changed"},
		{"what can't be seen", mat, Change{Key: "title", Value: "a\x1bb"}, "title in the top of the file: the text has signs that can't be seen"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Rewrite([]byte(c.text), []Change{c.change})
			require.Error(t, err)
			first, _, _ := strings.Cut(err.Error(), "\n")
			assert.Equal(t, c.want, first)
		})
	}
	_, err := Rewrite([]byte(mat), []Change{{Key: "pegs", Value: 5}, {Key: "pegs", Value: 5}})
	assert.EqualError(t, err, "pegs in the top of the file can't be given one value: change it by hand")
}

// loadable are the texts of all pattern files at hand that load.
func loadable(t testing.TB) []string {
	t.Helper()
	var texts []string
	for _, glob := range []string{"testdata/*/*.toml", "../../examples/*.toml"} {
		paths, err := filepath.Glob(glob)
		require.NoError(t, err)
		for _, path := range paths {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			if p, _ := Load("f.toml", text); p != nil {
				texts = append(texts, string(text))
			}
		}
	}
	require.Greater(t, len(texts), 15)
	return texts
}

// places are all keys with a whole number in a file, or that could have one, and where
// their values stand.
func places(text string) map[string]numberAt {
	text = strings.TrimPrefix(text, "\ufeff")
	root, fault := scan(text, patterns)
	if fault != nil {
		return nil
	}
	found := map[string]numberAt{}
	note := func(in Header, at *spot, keys ...string) {
		for _, key := range keys {
			n := numberAt{in: in, key: key}
			if s := at.keys[key]; s != nil && s.isPair() {
				n.at = s.value
			}
			found[in.String()+" "+key] = n
		}
	}
	note(Header{}, root, "pegs", "markers_every", "cast_on_passes")
	if loom := root.keys["loom"]; loom != nil {
		note(Under("loom"), loom, "pegs", "first_peg")
	}
	if zones := root.keys["zone"]; zones != nil {
		for i, z := range zones.items {
			note(InZone(i), z, "times", "sides")
			if strips := z.keys["strip"]; strips != nil {
				for j, s := range strips.items {
					note(InStrip(i, j), s, "pegs")
				}
			}
		}
	}
	return found
}

type numberAt struct {
	in  Header
	key string
	at  span // zero where it is not written
}

// checkRewritten holds a changed file against the one it was: without the changed values
// and the lines that came, byte for byte the same.
func checkRewritten(t require.TestingT, text, changed string, changes []Change) {
	was := places(text)
	is := places(changed)
	body, mark := strings.CutPrefix(changed, "\ufeff")
	body2, mark2 := strings.CutPrefix(text, "\ufeff")
	require.Equal(t, mark2, mark)
	type cut struct{ at, other span }
	var cuts []cut
	var came []span
	for _, c := range changes {
		key := c.In.String() + " " + c.Key
		require.NotZero(t, is[key].at, key)
		require.Equal(t, c.Value, atoi(body[is[key].at.start:is[key].at.end]), key)
		if was[key].at != (span{}) {
			cuts = append(cuts, cut{is[key].at, was[key].at})
		} else {
			came = append(came, is[key].at)
		}
	}
	// A key that came is one line, or in braces what stands behind a comma.
	for _, at := range came {
		start := strings.LastIndexAny(body[:at.start], "\n,")
		require.GreaterOrEqual(t, start, 0)
		if body[start] == '\n' && start > 0 && body[start-1] == '\r' {
			start--
		}
		cuts = append(cuts, cut{at: span{start, at.end}})
	}
	slices.SortFunc(cuts, func(a, b cut) int { return cmp.Compare(a.at.start, b.at.start) })
	from, from2 := 0, 0
	for _, c := range cuts {
		piece := body[from:c.at.start]
		if c.other == (span{}) {
			require.Equal(t, body2[from2:from2+len(piece)], piece)
			from2 += len(piece)
		} else {
			require.Equal(t, body2[from2:c.other.start], piece)
			from2 = c.other.end
		}
		from = c.at.end
	}
	require.Equal(t, body2[from2:], body[from:])
}

func atoi(s string) int {
	n := 0
	for _, c := range s {
		if c < '0' || c > '9' {
			return -1
		}
		n = 10*n + int(c-'0')
	}
	return n
}

func TestRewriteOfAnyFile(t *testing.T) {
	texts := loadable(t)
	written, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "text")
		if rapid.Bool().Draw(t, "windows") {
			text = strings.ReplaceAll(text, "\n", "\r\n")
		}
		if rapid.Bool().Draw(t, "no line break at the end") {
			text = strings.TrimRight(text, "\r\n")
		}
		if rapid.Bool().Draw(t, "mark") {
			text = "\ufeff" + text
		}
		all := places(text)
		var changes []Change
		keys := slices.Sorted(maps.Keys(all))
		for _, key := range rapid.SliceOfNDistinct(rapid.SampledFrom(keys), 0, min(4, len(keys)), rapid.ID).Draw(t, "keys") {
			changes = append(changes, Change{In: all[key].in, Key: all[key].key, Value: rapid.IntRange(1, 12).Draw(t, "value")})
		}
		changed, err := Rewrite([]byte(text), changes)
		if err != nil {
			refused++
			return
		}
		written++
		checkRewritten(t, text, string(changed), changes)
		p, _ := Load("f.toml", changed)
		require.NotNil(t, p)
		checkBuilt(t, p, changes)
	})
	t.Logf("%d written, %d refused", written, refused)
	assert.Positive(t, written)
	assert.Positive(t, refused)
}

// checkBuilt looks for the changed values in the pattern that came of them.
func checkBuilt(t require.TestingT, p *pattern.Pattern, changes []Change) {
	for _, c := range changes {
		switch in := c.In.String(); {
		case in == "the top of the file" && c.Key == "pegs":
			require.Equal(t, c.Value, p.Pegs)
		case in == "loom" && c.Key == "pegs":
			require.Equal(t, c.Value, p.Loom.Pegs)
		case c.Key == "sides":
			require.Equal(t, c.Value, p.Zones[c.In.path[0].item].Sides)
		case c.Key == "times":
			z := p.Zones[c.In.path[0].item]
			repeat := 0
			for _, s := range z.Strips {
				if !s.Side {
					repeat = max(repeat, s.Repeat)
				}
			}
			require.Equal(t, c.Value.(int)*repeat, z.Rows())
		}
	}
}

// FuzzRewrite: whatever the file, one number of it is changed and nothing else, or there
// is an error.
func FuzzRewrite(f *testing.F) {
	for _, text := range loadable(f) {
		f.Add(text, uint8(0), uint8(7))
		f.Add(text, uint8(9), uint8(2))
	}
	f.Fuzz(func(t *testing.T, text string, which, value uint8) {
		if len(text) > 1<<14 {
			return
		}
		all := places(text)
		if len(all) == 0 {
			return
		}
		keys := slices.Sorted(maps.Keys(all))
		n := all[keys[int(which)%len(keys)]]
		changes := []Change{{In: n.in, Key: n.key, Value: int(value)}}
		changed, err := Rewrite([]byte(text), changes)
		if err != nil {
			return
		}
		if is := places(string(changed))[n.in.String()+" "+n.key]; n.at != (span{}) && string(changed) == text {
			require.Equal(t, n.at, is.at, "0x05 may stay what it is")
			return
		}
		checkRewritten(t, text, string(changed), changes)
	})
}
