package look_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/tui/look"
)

func TestWhatIsUnderTheHandIsSeen(t *testing.T) {
	lines := strings.Fields("a b c d e f g")
	for _, c := range []struct {
		name           string
		from, to, room int
		want           string
	}{
		{"there is room for all", 0, 1, 9, "a b c d e f g"},
		{"the first", 0, 1, 3, "a b c"},
		{"as many before as after", 3, 4, 3, "c d e"},
		{"the last", 6, 7, 3, "e f g"},
		{"more than there is room for", 1, 7, 3, "b c d"},
	} {
		assert.Equal(t, c.want, strings.Join(look.Around(lines, c.from, c.to, c.room), " "), c.name)
	}
}
