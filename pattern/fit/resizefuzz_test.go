package fit

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/file"
	"bypeg/pattern/measure"
)

// FuzzResize: whatever the file and the wish, there are candidates that load to what is
// told of them, or there is a refusal that says why.
func FuzzResize(f *testing.F) {
	for _, glob := range []string{"../file/testdata/*/*.toml", "../../examples/*.toml"} {
		paths, err := filepath.Glob(glob)
		require.NoError(f, err)
		for i, path := range paths {
			text, err := os.ReadFile(path)
			require.NoError(f, err)
			if len(text) < 4_000 {
				f.Add(string(text), uint16(i), uint16(0), uint8(0), uint8(0))
				f.Add(string(text), uint16(0), uint16(300), uint8(9), uint8(40))
				f.Add(string(text), uint16(400), uint16(0), uint8(14), uint8(0))
			}
		}
	}
	f.Fuzz(func(t *testing.T, text string, width, height uint16, stitches, loom uint8) {
		if len(text) > 8_000 {
			return
		}
		p, _ := file.Load("f", []byte(text))
		if p == nil || p.Grid.Rows()*p.Pegs > 200_000 {
			return
		}
		w := Wish{
			Weight: pattern.UnknownWeight, Width: measure.Length(width), Height: measure.Length(height),
			Gauge: pattern.Gauge{Stitches: float64(stitches)}, Loom: pattern.Loom{Pegs: int(loom)},
		}
		r, err := Resize([]byte(text), w)
		if err != nil {
			refusal := &Refusal{}
			require.ErrorAs(t, err, &refusal)
			require.NotEmpty(t, refusal.Msg)
			require.NotEmpty(t, refusal.Hint)
			return
		}
		require.NotEmpty(t, r.Candidates)
		require.LessOrEqual(t, len(r.Candidates), most)
		for _, c := range r.Candidates {
			p, found := file.Load("f", c.Text)
			require.NoError(t, found.Err())
			require.Equal(t, c.Pegs, p.Pegs)
			require.Equal(t, c.Rows, p.Grid.Rows())
			require.True(t, c.Error >= 0 && c.Width >= 0 && c.Height >= 0 && c.Yarn >= 0)
			if c.Fits == Yes {
				require.LessOrEqual(t, c.Pegs, p.Loom.Pegs)
			}
		}
	})
}
