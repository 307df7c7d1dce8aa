package file_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern/file"
)

var notes = file.Kind{Noun: "note", Example: "a = 1", Bytes: 1000, Size: "1 kB"}

func TestNodesComeInTheOrderOfTheFileEachWithItsPlace(t *testing.T) {
	const text = "z = 1\na = 'two'\n[t]\nlist = [\"x\", 3]\nyes = true\n[[several]]\n"
	nodes, fault := notes.Nodes(text)
	require.Nil(t, fault)
	cut := func(r file.Range) string { return text[r.Start:r.End] }
	var told []string
	var tell func([]file.Node)
	tell = func(nodes []file.Node) {
		for _, n := range nodes {
			told = append(told, n.Key+"|"+cut(n.KeyAt)+"|"+cut(n.Stands)+"|"+n.Describe())
			tell(n.Nodes)
		}
	}
	tell(nodes)
	assert.Equal(t, []string{
		"z|z|1|a whole number",
		"a|a|'two'|text",
		"t|t|t|a table",
		`list|list|["x", 3]|a list`,
		`|"x"|"x"|text`,
		"|3|3|a whole number",
		"yes|yes|true|true or false",
		"several|several|several|a list of tables",
	}, told)
	assert.Equal(t, []any{int64(1), "two", nil, nil}, []any{nodes[0].Value, nodes[1].Value, nodes[2].Value, nodes[3].Value})
}

func TestFaultsSpeakOfTheKindOfFile(t *testing.T) {
	for _, c := range []struct{ name, text, msg, hint string }{
		{"too large", strings.Repeat("#", 1001), "the file is larger than the 1 kB a note may have", "check that this is a note file"},
		{"too deep", "a = [[[[[1]]]]]", "brackets stand more than 4 deep in each other", "check that this is a note file"},
		{"no value", "a", "there should be an equals sign here", "write a key, an equals sign and a value, such as a = 1"},
	} {
		nodes, fault := notes.Nodes(c.text)
		assert.Nil(t, nodes, c.name)
		require.NotNil(t, fault, c.name)
		assert.Equal(t, [2]string{c.msg, c.hint}, [2]string{fault.Msg, fault.Hint}, c.name)
	}
}

func TestAPatternFileIsToldFromWrittenRows(t *testing.T) {
	for _, c := range []struct {
		name, text string
		is         bool
	}{
		{"mat", "pattern = 1\npegs = 5\n", true},
		{"mat", "\ufeff  pattern=2 # of old\r\n", true},
		{"mat", "# a mat\n\"pattern\" = 1", true},
		{"mat", "pegs = 5\n[[zone]]\nname = 'a'\n", true},
		{"mat.TOML", "k3, p3", true},
		{"leaflet.txt", "Row 1: k3, p3\n", false},
		{"leaflet.txt", "Pattern: multiple of 4\n[k2, p2] 3 times\n[[k1, p1] twice, k2] 3 times\n", false},
		{"leaflet.txt", "the pattern = four rows\n", false},
		{"", "", false},
	} {
		assert.Equal(t, c.is, file.IsPattern(c.name, []byte(c.text)), "%s: %q", c.name, c.text)
	}
}
