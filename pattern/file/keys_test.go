package file

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// The readme's list of keys is what a maker writes patterns by.
func TestTheReadmeNamesEveryKeyAndEveryWordAKeyTakes(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, list, found := strings.Cut(string(text), "### All keys\n")
	require.True(t, found)
	list, _, _ = strings.Cut(list, "\n## ")

	sections := []section{topSection, gaugeSection, swatchSection, loomSection, yarnSection, motifSection, zoneSection, stripSection}
	for _, s := range sections {
		for _, key := range s.keys {
			named := strings.Contains(list, "`"+key+"`") || strings.Contains(list, "`"+key+" = ") ||
				strings.Contains(list, "["+key+"]") || strings.Contains(list, "["+key+".") || strings.Contains(list, "."+key+"]")
			assert.True(t, named, "the key %s %s", key, s.where)
		}
	}
	var words []string
	words = append(words, pattern.UseNames()...)
	words = append(words, pattern.WrapNames()...)
	words = append(words, pattern.CastOnNames()...)
	for _, word := range words {
		assert.Contains(t, list, "`\""+word+"\"`")
	}
	for _, s := range pattern.PlainStitches() {
		assert.True(t, strings.Contains(list, "`"+s.Short()+"`") || strings.Contains(list, "`\""+s.Short()+"\"`"), "the stitch %s", s)
	}
}
