package adopt_test

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"bypeg/pattern/adopt"
)

// BenchmarkAdopt adopts 100,000 rows of a needle text on 60 stitches.
func BenchmarkAdopt(b *testing.B) {
	text := "Cast on 60\nRow 1 (RS): *k3, p3; rep from * to end\nRow 2: p\nRow 3: k2, *p1, k1; rep from * to end\nRow 4: p\nWork 100000 rows."
	for b.Loop() {
		if _, err := adopt.Text(text, adopt.Options{From: adopt.Needles}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkAdoptUnlike adopts 64 KiB of rows of 61 stitches that are nearly all unlike.
func BenchmarkAdoptUnlike(b *testing.B) {
	r := rand.New(rand.NewSource(1))
	var text strings.Builder
	text.WriteString("Cast on 61\n")
	for row := 1; text.Len() < 64<<10; row++ {
		fmt.Fprintf(&text, "Row %d: p1", row)
		for _, n := range []int{1 + r.Intn(9), 1 + r.Intn(9)} {
			fmt.Fprintf(&text, ", (k%d, p%d) twice, k%d, p%d", n, 10-n, 10-n, n)
		}
		text.WriteString("\n")
	}
	b.SetBytes(int64(text.Len()))
	for b.Loop() {
		if _, err := adopt.Text(text.String(), adopt.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
