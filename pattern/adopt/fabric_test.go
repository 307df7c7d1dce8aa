package adopt_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"bypeg/pattern"
	"bypeg/pattern/adopt"
	"bypeg/pattern/patterntest"
)

// What each grid is follows from its definition (common practice, no source): what is said
// of edges that roll and lie flat is published.
func TestAFabricIsToldByItsGridAlone(t *testing.T) {
	cases := []struct {
		name, drawn, says string
		form              pattern.Form
	}{
		{"one peg", "|", "plain fabric (stockinette): knit everywhere; its edges roll", pattern.Panel},
		{"purl", "--- ---", "reverse plain fabric: purl everywhere; its edges roll", pattern.Panel},
		{"garter begun with a purl row", "|||| ---- ||||", "garter: a knit row and a purl row in turn; lies flat", pattern.Panel},
		{"rib of two", "||--|| ||--||", "2x2 rib: columns of 2 knit and 2 purl; lies flat, draws in", pattern.Panel},
		{"rib with cut edges", "|---||---| |---||---|", "2x3 rib: columns of 2 knit and 3 purl; draws in", pattern.Panel},
		{"rib in one row", "|-|-|-", "1x1 rib: columns of 1 knit and 1 purl; lies flat, draws in", pattern.Tube},
		{"a column on a ground is no rib", "||||||||||-|||||||||| ||||||||||-||||||||||", "columns that are the same on every row", pattern.Panel},
		{"two halves are no rib", "|||||----- |||||-----", "columns that are the same on every row", pattern.Tube},
		{"welt", "|||| |||| ---- ---- |||| ||||", "welt: bands of 2 knit rows and 2 purl rows", pattern.Panel},
		{"a ridge on a ground is no welt", strings.Repeat("||| ", 12) + "--- " + strings.Repeat("||| ", 12), "25 rows, with no repeat shorter than that", pattern.Panel},
		{"seed", "|-|-| -|-|- |-|-|", "seed: knit and purl change every stitch and every row; lies flat", pattern.Panel},
		{"double seed, cut below", "|-|-| -|-|- -|-|- |-|-| |-|-|", "double seed, which some call moss: knit and purl change every stitch and every 2 rows", pattern.Panel},
		{"basket", "||--|| ||--|| --||-- --||--", "basket: blocks of 2 stitches by 2 rows, knit and purl in turn", pattern.Panel},
		{"basket of unlike blocks", "|||--|||-- ---||---||", "basket: blocks of 3 and 2 stitches by 1 row, knit and purl in turn", pattern.Panel},
		{"broken rib", "|||||| |-|-|- |||||| |-|-|-", "a texture of knit and purl that repeats over 2 stitches and 2 rows", pattern.Panel},
		{"a picture", "||-|| |-|-| -|||- |---|", "4 rows, with no repeat shorter than that", pattern.Panel},
		{"one row of a picture", "||-|--||||---|", "a fabric that does not repeat", pattern.Panel},
		{"rib of unlike columns", "|---|-|---|- |---|-|---|-", "a rib of unlike columns, the same on every row, that repeats over 6 stitches", pattern.Tube},
		{"plain in a frame", "||||||| ------- ||||||| --|||-- ||||||| --|||-- ||||||| ------- |||||||",
			"plain fabric (stockinette): knit everywhere; its edges roll; garter around it: 2 stitches at both edges, 2 rows below, 3 rows above", pattern.Panel},
		{"plain with garter ends, in a tube", "---- |||| ---- |||| |||| |||| |||| ---- |||| ----",
			"plain fabric (stockinette): knit everywhere; its edges roll; garter around it: 3 rows below, 3 rows above", pattern.Tube},
		{"one stitch of garter is no frame", "||||| -|||- ||||| -|||-", "a texture of knit and purl that repeats over 2 rows", pattern.Panel},
		{"seed in a frame", "||||-|-|||| ----|-|---- ||||-|-|||| ----|-|----",
			"seed: knit and purl change every stitch and every row; lies flat; garter around it: 4 stitches at both edges", pattern.Panel},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			lines := strings.Fields(c.drawn)
			plan := patterntest.Drawn(lines...)
			plan.Form = c.form
			g := patterntest.Build(t, plan).Grid
			f := adopt.FabricOf(g, c.form, adopt.Whole(g))
			assert.Equal(t, c.says, f.String())
		})
	}
}

func TestAPartOfAGridIsAFabricToo(t *testing.T) {
	g := patterntest.Build(t, patterntest.Drawn("|||-|-|-", "|||-|-|-", "||||||||")).Grid
	assert.Equal(t, adopt.Plain, adopt.FabricOf(g, pattern.Panel, adopt.Part{First: 1, Last: 3, From: 0, To: 3}).Kind)
	assert.Equal(t, adopt.Rib, adopt.FabricOf(g, pattern.Panel, adopt.Part{First: 2, Last: 3, From: 2, To: 8}).Kind)
}

// A text's own rows are often one repeat: then it is not said that they do not repeat.
func TestAPanelOfCablesIsToldByItsRows(t *testing.T) {
	rows := []string{"Row 1: p2, c4f, p2", "Rows 2-4: p2, k4, p2", "Row 5: p2, k4, p2", "Row 6: p2, c4b, p2"}
	a := must(t, adopt.Options{}, rows...)
	assert.Equal(t, "6 rows, with no repeat shorter than that", a.Fabric.String())
	a = must(t, adopt.Options{}, append(rows, "Repeat rows 1-6 until long enough")...)
	assert.Equal(t, "a texture in which some stitches move loops; it repeats over 6 rows", a.Fabric.String())
}

// A row of a repeat that goes on is no border because the text has it once.
func TestAFabricIsTheOneThatItsRowsGoOnTo(t *testing.T) {
	rows := []string{"Row 1: k4, p2, k10, p4, k4", "Row 2: p24"}
	a := must(t, adopt.Options{}, append(rows, "Repeat these two rows until scarf measures 60 in")...)
	assert.Equal(t, "a texture of knit and purl that repeats over 2 rows; garter around it: 4 stitches at both edges, 1 row above", a.Fabric.String())
	a = must(t, adopt.Options{}, "Row 1: k4, p4", "Row 2: p4, k4", "Row 3: p8", "Repeat rows 1-3 until long enough")
	assert.Equal(t, "3 rows, with no repeat shorter than that", a.Fabric.String(), "three rows run the other way the second time")
}

func TestBandsOfFabricAreTold(t *testing.T) {
	cowl := []string{"Rnds 1-6: *k2, p2; rep from *", "Rnds 7-16: knit", "Rnds 17-22: *k2, p2; rep from *"}
	a := must(t, adopt.Options{Pegs: 24}, cowl...)
	assert.Equal(t, "bands from the bottom: 2x2 rib (rounds 1 to 6), plain fabric (rounds 7 to 16), 2x2 rib (rounds 17 to 22)", a.FabricSaid())
	assert.Contains(t, a.File(""), a.FabricSaid())
	a = must(t, adopt.Options{Pegs: 24}, append(cowl, "Rnd 23: p")...)
	assert.Equal(t, "a texture of knit and purl that repeats over 4 stitches", a.FabricSaid(), "one round is no band")
}
