package main

import (
	"encoding/json"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/config"
)

func TestSettingsStandInColumns(t *testing.T) {
	path := writeFile(t, "config.toml", "theme = \"contrast\"\n[keys]\npeg = [\"x\", \"space\", \"ctrl+shift+home\"]\n")
	ran := runHere(t, "config", "--config", path, "--lead", "5")
	require.Equal(t, 0, ran.code)
	_, table, _ := strings.Cut(ran.out, "\n\n")
	names := map[string]bool{}
	column := regexp.MustCompile(`^(\S+)( +)(.*?)( {2,})\S+$`)
	var starts [][2]int
	for _, line := range strings.Split(strings.TrimSpace(table), "\n") {
		if line == "" {
			continue
		}
		m := column.FindStringSubmatchIndex(line)
		require.NotNil(t, m, line)
		names[line[m[2]:m[3]]] = true
		starts = append(starts, [2]int{m[6], m[9]})
	}
	for _, s := range starts {
		assert.Equal(t, starts[0], s)
	}
	for _, v := range config.Default().Values() {
		assert.True(t, names[v.Name], v.Name)
	}
	assert.Len(t, names, len(config.Default().Values())+1, "and the colours")
}

func TestEverySettingButKeysHasAFlag(t *testing.T) {
	flags := newRoot(&program{}).PersistentFlags()
	for _, v := range config.Default().Values() {
		if strings.Contains(v.Name, ".") {
			continue
		}
		name := strings.ReplaceAll(v.Name, "_", "-")
		require.NotNil(t, flags.Lookup(name), name)
		if shown := flags.Lookup(name).DefValue; shown != "" {
			assert.Equal(t, sayValue(v.Value), shown, "what --help says of --%s is what it is", name)
		}
	}
}

func TestForeignWordsAreCleanedWhereTheyAreTold(t *testing.T) {
	const name = "a\u009b31m.toml"
	for _, args := range [][]string{{"config", "--config", name}, {"config", "--config", name, "--json"}, {"config", "--hand", "\x1b[2J\u009b"}} {
		ran := runHere(t, args...)
		assert.NotEqual(t, 0, ran.code)
		for _, bad := range []string{"\x1b", "\u009b"} {
			assert.NotContains(t, ran.out+ran.errors, bad)
		}
	}
	ran := runHere(t, "config", "--json")
	assert.True(t, json.Valid([]byte(ran.out)))
}

func TestConfigPrintsItsSettingsWhateverIsWrong(t *testing.T) {
	right, wrong := writeFile(t, "right.toml", "lead = 3\n"), writeFile(t, "wrong.toml", "lead = 3\nled = 4\n")
	for _, c := range []struct {
		name, path, lead, says string
		code                   int
	}{
		{"nothing", right, "3", `^$`, 0},
		{"a fault", wrong, "3", `wrong\.toml:2:1: there is no setting "led"`, 1},
		{"no such file", filepath.Join(t.TempDir(), "none"), "2", `^bypeg: error: there is no file `, 3},
		{"a folder", t.TempDir(), "2", `^bypeg: error: .* is a folder`, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			ran := runHere(t, "config", "--config", c.path)
			assert.Equal(t, c.code, ran.code)
			assert.Regexp(t, `(?m)^lead +`+c.lead+" ", ran.out)
			assert.Regexp(t, c.says, ran.errors)
		})
	}
}
