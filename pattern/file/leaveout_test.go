package file

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const threeFields = "pattern = 1\r\npegs = 8\r\n\r\n# below\r\n[[zone]]\r\nname = \"quay\"\r\nborder = true\r\nrows = ['k', 'p']\r\n" +
	"\r\n# the water,\r\n# in two parts\r\n[[zone]]\r\nname = \"water\"\r\ntimes = 2 # as long as it takes\r\n[[zone.strip]]\r\npegs = 4\r\nrows = ['k']\r\n[[zone.strip]]\r\npegs = 4\r\nrows = ['p']\r\n" +
	"\r\n[motif.leaf]\r\nchart = \"--\"\r\n\r\n[[zone]]\r\nname = \"boat\"\r\nmotif = \"leaf\"\r\n" +
	"\r\n# above\r\n[[zone]]\r\nname = \"far quay\"\r\nlike = \"quay\"\r\n"

func TestAZoneIsLeftOutAndNoOtherByte(t *testing.T) {
	const water = "# the water,\r\n# in two parts\r\n[[zone]]\r\nname = \"water\"\r\ntimes = 2 # as long as it takes\r\n[[zone.strip]]\r\npegs = 4\r\nrows = ['k']\r\n[[zone.strip]]\r\npegs = 4\r\nrows = ['p']\r\n\r\n"
	const boat = "[[zone]]\r\nname = \"boat\"\r\nmotif = \"leaf\"\r\n\r\n"
	const last = "# above\r\n[[zone]]\r\nname = \"far quay\"\r\nlike = \"quay\"\r\n"
	for _, c := range []struct {
		name  string
		zones []int
		gone  []string
	}{
		{"one with strips and comments", []int{1}, []string{water}},
		{"one behind another table", []int{2}, []string{boat}},
		{"the last", []int{3}, []string{last}},
		{"several", []int{1, 2}, []string{water, boat}},
		{"none", nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := threeFields
			for _, gone := range c.gone {
				require.Contains(t, want, gone)
				want = strings.Replace(want, gone, "", 1)
			}
			got, err := LeaveOut([]byte(threeFields), c.zones)
			require.NoError(t, err)
			assert.Equal(t, want, string(got))
			marked, err := LeaveOut([]byte("\ufeff"+threeFields), c.zones)
			require.NoError(t, err)
			assert.Equal(t, "\ufeff"+want, string(marked))
		})
	}
}

func TestWhatCannotBeLeftOut(t *testing.T) {
	for _, c := range []struct {
		name, text string
		zones      []int
	}{
		{"one that another is like", threeFields, []int{0}},
		{"all of them", threeFields, []int{0, 1, 2, 3}},
		{"one that is not there", threeFields, []int{4}},
		{"of a file that is wrong", "pattern = 1\n", []int{0}},
		{"zones in one list", "pattern = 1\npegs = 4\nzone = [{name = 'a', rows = ['k']}, {name = 'b', rows = ['p']}]\n", []int{1}},
	} {
		_, err := LeaveOut([]byte(c.text), c.zones)
		assert.Error(t, err, c.name)
	}
}

// The fabric without a zone is the fabric of the others, one above the other.
func TestTheOthersStay(t *testing.T) {
	whole, _ := Load("f", []byte(threeFields))
	rapid.Check(t, func(t *rapid.T) {
		var zones []int
		for i := 1; i < len(whole.Zones); i++ {
			if rapid.Bool().Draw(t, "out") {
				zones = append(zones, i)
			}
		}
		text, err := LeaveOut([]byte(threeFields), zones)
		require.NoError(t, err)
		p, found := Load("f", text)
		require.NoError(t, found.Err())
		row := 0
		for i, z := range whole.Zones {
			if out := len(zones) > 0 && zones[0] == i; out {
				zones = zones[1:]
				continue
			}
			for r := z.First; r <= z.Last; r++ {
				row++
				require.Equal(t, whole.Grid.Row(r).Cells(), p.Grid.Row(row).Cells())
			}
		}
		assert.Equal(t, row, p.Grid.Rows())
	})
}
