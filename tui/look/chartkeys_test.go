package look_test

import (
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/stretchr/testify/assert"

	"bypeg/chart"
	"bypeg/tui/look"
)

func TestTheChartsKeysHaveOneNameAndOneUseEach(t *testing.T) {
	keys := look.NewChartKeys()
	names, uses := map[string]bool{}, map[string]bool{}
	for _, n := range keys.Named() {
		assert.False(t, names[n.Name], n.Name)
		names[n.Name] = true
		assert.NotEmpty(t, n.Key.Help().Desc)
		for _, k := range n.Key.Keys() {
			assert.False(t, uses[k], "%s does two things", k)
			uses[k] = true
		}
	}
	assert.Len(t, keys.All(), 16)
}

func TestTheLastLineNamesAsManyKeysAsFit(t *testing.T) {
	keys := look.NewChartKeys()
	s := look.NewStyle(lipgloss.DefaultRenderer(), look.NoColour, chart.Bars, false)
	ascii := look.NewStyle(lipgloss.DefaultRenderer(), look.NoColour, chart.Bars, true)
	for _, tt := range []struct {
		style       *look.Style
		cloth, wide bool
		width       int
		want        string
	}{
		{s, false, false, 80, "↑ ↓ rows  o cloth  space row in hand  z zone  s symbols  ? help  q back"},
		{s, false, true, 80, "↑ ↓ ← → move  o cloth  space row in hand  z zone  s symbols  ? help  q back"},
		{s, true, true, 80, "↑ ↓ rows  o chart  space row in hand  z zone  ? help  q back"},
		{s, false, false, 40, "↑ ↓ rows  o cloth  ? help  q back"},
		{s, false, true, 40, "↑ ↓ ← → move  o cloth  ? help  q back"},
		{ascii, false, false, 40, "up down rows  o cloth  ? help  q back"},
		{s, false, false, 16, "? help  q back"},
		{s, false, false, 6, "? help"},
		{s, false, false, 0, ""},
	} {
		most, always := keys.Line(tt.cloth, tt.wide)
		assert.Equal(t, tt.want, tt.style.HintLine(most, always, tt.width))
	}
}
