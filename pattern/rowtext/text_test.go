package rowtext

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
)

// textRow is one text on so many pegs and what it is read as: "1=k6 2<=p6", where < is a row that runs back and w one
// that is called a wrong-side row. Behind it stand "warned" and directives in braces.
type textRow struct {
	pegs int
	text string
	want string
}

// readingText writes a reading as the tables have it.
func readingText(r *Reading) string {
	var words []string
	for _, row := range r.Rows {
		at := fmt.Sprint(row.Number)
		if row.Wrong {
			at += "w"
		}
		if row.Back {
			at += "<"
		}
		words = append(words, at+"="+strings.ReplaceAll(wordsOf(row.Runs), " ", ","))
	}
	if len(r.Warnings) > 0 {
		words = append(words, "warned")
	}
	for _, d := range r.Directives {
		words = append(words, "{"+d.Msg+"}")
	}
	return strings.Join(words, " ")
}

func readAll(t *testing.T, rows []textRow) {
	t.Helper()
	for _, row := range rows {
		reading, err := Read(row.text, Options{Pegs: row.pegs})
		if assert.NoError(t, err, row.text) {
			assert.Equal(t, row.want, readingText(reading), row.text)
		}
	}
}

// Headers as patterns have them; common practice, no source.
func TestHeadersAreReadInAllTheirForms(t *testing.T) {
	for _, head := range []string{
		"Row 1:", "Row 1 :", "ROW 1:", "row 1", "Row 1.", "Row 1)", "Row 1 -", "Row 1 –", "Row 1—", "R1:", "R1", "R 1:", "1st row:", "1st row.—", "1st Row –",
		"1.row:", "1. ", "1)", "(1)", "1:", "1\t", "Row #1:", "Row no. 1:", "Row one:", "First row:", "Row 1 (RS):", "(RS) Row 1:", "[RS] Row 1:",
		"Row 1 [RS]:", "Row 1 (right side):", "Row 1 (RS facing):", "RS Row 1:", "Row 1 RS:", "Row 1, RS:", "Row 1: (RS)", "Row 1: RS:", "Row 1) (RS)",
		"Row 1 (dec row):", "Row 1 (RS) (dec row) -", "Row 1 (RS; dec row):", "Row 1 (from right to left):", "Row 1 (RS, from right to left):",
		"Row 1 - from right to left:", "Row 1 (5 sts):", "Row 1 (RS, 5 sts):", "Next row:", "Next row (RS):", "Next row (dec row):", "Rib row:", "Pattern row –", "Set-up row:",
		"Set up row:", "Foundation row:", "All rows:", "Every row:", "Next 1 row:", "1 row:", "• Row 1:", "- Row 1:", "* Row 1:", "▪ 1st row:",
	} {
		reading, err := Read(head+" K2, P3", Options{Pegs: 5})
		if assert.NoError(t, err, head) {
			assert.Equal(t, "1=k2,p3", readingText(reading), head)
			assert.Equal(t, pattern.Panel, reading.Form, head)
		}
	}
	for _, head := range []string{"Rnd 1:", "Rnd. 1:", "Round 1 -", "1st round:", "Next rnd:", "All rounds:", "Set-up rnd:", "Rd 1:"} {
		reading, err := Read(head+" K2, P3", Options{Pegs: 5})
		if assert.NoError(t, err, head) {
			assert.Equal(t, "1=k2,p3", readingText(reading), head)
			assert.Equal(t, pattern.Tube, reading.Form, head)
		}
	}
}

func TestRangesListsAndKindsOfRowsAreCounted(t *testing.T) {
	readAll(t, []textRow{
		{2, "Rows 1-3: K", "1=k2 2<=k2 3=k2"},
		{2, "Rows 1 thru 3: K", "1=k2 2<=k2 3=k2"},
		{2, "Row 1 – 3: K", "1=k2 2<=k2 3=k2"},
		{2, "3rd to 5th rows: K", "3=k2 4<=k2 5=k2"},
		{2, "Rows 1–2, 5 and 6: K\nRows 3 & 4: P", "1=k2 2<=k2 3=p2 4<=p2 5=k2 6<=k2"},
		{2, "Rows 1, 3, and 5: K\n2nd and 4th rows: P", "1=k2 2<=p2 3=k2 4<=p2 5=k2"},
		{2, "Row 3: K\nRow 2: P\nRow 1: K", "1=k2 2<=p2 3=k2"},
		{2, "Row 3: K\nRow 2: P\nRow 1: K\nNext row: P", "1=k2 2<=p2 3=k2 4<=p2"},
		{2, "Rows 1-2 (RS): K", "1=k2 2w<=k2"},
		{6, "Row 5 - 3 k, 3 p", "5=k3,p3"},
		{2, "Row 1: K\nNext row: P\nNext 2 rows: K\n2 rows: P", "1=k2 2<=p2 3=k2 4<=k2 5=p2 6<=p2"},
		{2, "Set-up row (WS): P\nRow 1: K", "0w<=p2 1=k2"},
		{2, "Set-up row: P\nRow 2: K", "1=p2 2<=k2"},
		{2, "K 1 row\nP 2 rows", "1=k2 2<=p2 3=p2"},
		{2, "Knit 1 row, purl 1 row and knit 1 row.", "1=k2 2<=p2 3=k2"},
		{2, "Row 1: P\nKnit 2 rows\nRow 4: P", "1=p2 2<=k2 3=k2 4<=p2"},
		{2, "K every row.", "1=k2"},
		{2, "Row 2 and all even-numbered rows: P\nRow 1: K\nRow 3: K", "1=k2 2<=p2 3=k2 4<=p2"},
		{2, "Row 1: K\nRow 2 (and all even rows): P\nRow 3: K", "1=k2 2<=p2 3=k2 4<=p2"},
		{2, "Row 1: K\nRow 2 (WS) and all following alternate rows: P\nRow 3: K", "1=k2 2w<=p2 3=k2 4w<=p2"},
		{2, "Row 1: K\nRow 2 and all WS rows: P\nRow 3: K", "1=k2 2w<=p2 3=k2 4w<=p2"},
		{2, "Row 1: K\nRow 2 and every other row: P\nRow 3: K", "1=k2 2<=p2 3=k2 4<=p2"},
		{2, "Row 1 and all RS rows: K\nRow 2: P\nRow 4: P", "1=k2 2<=p2 3=k2 4<=p2"},
		{2, "1st row and every odd row: K\n2nd row: P", "1=k2 2<=p2"},
		{2, "Row 4 and every 4th row: P\nRows 1-3: K\nRows 5-7: K", "1=k2 2<=k2 3=k2 4<=p2 5=k2 6<=k2 7=k2 8<=p2"},
		{2, "RS rows: K\nWS rows: P", "1=k2 2w<=p2"},
		{2, "Even rows: P\nOdd rows: K", "1=k2 2<=p2"},
		{2, "Row 1 (WS): P\nAll RS rows: K\nRow 3: P", "1w=p2 2<=k2 3=p2 4<=k2"},
		{2, "Row 5: K\nAll even rows: P\nRow 7: K", "5=k2 6<=p2 7=k2 8<=p2"},
		{2, "Row 1 (right to left): K\nRow 2 (right to left): P", "1=k2 2<=p2 warned"},
		{2, "Row 1 (RS): K\nRow 2 (RS): P", "1=k2 2<=p2 warned"},
	})
}

func TestRowsStandOnLinesInManyWays(t *testing.T) {
	two := "1=k2,p3 2<=p5"
	for _, text := range []string{
		"Row 1: K2, P3 Row 2: P5", "Row 1 K2, P3 Row 2 P5", "R1: K2, P3. R2: P.", "1st row.—K 2, P 3. 2nd row.—P 5.", "Row 1: K2, P3; Row 2: P", "Row 1: K2, P3 - Row 2: P",
		"Row 1: K2, P3 / Row 2: P", "Row 1: K2, P3 • Row 2: P", "Row 1:\nK2, P3\nRow 2:\nP", "Row 1\nK2, P3\n\nRow 2\nP\n", "Row 1: K2,\r\n  P3\r\nRow 2: P",
		"Row 1: K2, purl to end of row Row 2: P", "K2, P3\nP", "• K2, P3\n• P", "- K2, P3\n- P", "1. K2, P3\n2. P", "1\tK2, P3\n2\tP", "Row 1:\n\n• K2,\n• P3\nRow 2: P",
	} {
		reading, err := Read(text, Options{Pegs: 5})
		if assert.NoError(t, err, text) {
			assert.Equal(t, two, readingText(reading), text)
		}
	}
	readAll(t, []textRow{
		{6, "Row 1: *K2, P1; rep from *\nto end\nRow 2: P", "1=k2,p1,k2,p1 2<=p6"},
		{5, "2nd row: K2. Purl to last 2 sts. K2. 3rd row: K", "2<=k2,p1,k2 3=k5"},
		{5, "Row 1: K3, P2. (WS) Row 2: P. Row 3: K", "1=k3,p2 2w<=p5 3=k5"},
		{6, "* Row 1: *K1, P1; rep from * to end\n* Row 2: P", "1=k1,p1,k1,p1,k1,p1 2<=p6"},
	})
}

func TestReferencesAreFollowed(t *testing.T) {
	before := "Row 1: K\nRow 2: P\n"
	readAll(t, []textRow{
		{1, before + "Row 3: Same as row 1", "1=k1 2<=p1 3=k1"},
		{1, before + "Row 3: Work as for 2nd row.", "1=k1 2<=p1 3=p1"},
		{1, before + "Row 3: as previous row", "1=k1 2<=p1 3=p1"},
		{1, before + "Row 3:\nRepeat row 1", "1=k1 2<=p1 3=k1"},
		{1, before + "3rd row: As 1st", "1=k1 2<=p1 3=k1"},
		{1, before + "Rows 3-4: Rep above 2 rows", "1=k1 2<=p1 3=k1 4<=p1"},
		{1, before + "Rows 3-4: Rep rows 1-2 again", "1=k1 2<=p1 3=k1 4<=p1"},
		{1, before + "Rows 3 & 4: Rep rows 2 and 1", "1=k1 2<=p1 3=p1 4<=k1"},
		{1, before + "Rows 3-6: As rows 1-2", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1"},
		{1, before + "Rows 3-6: Rep rows 1-2 three times", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1"},
		{1, before + "Rows 3-6: Rep rows 1-2 twice", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1"},
		{1, before + "Rows 3-6: Rep rows 1-2 3 times in total", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1"},
		{1, before + "Rows 3-6:\nRepeat last two rows twice more", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1"},
		{1, "Row 1: As row 2\nRow 2: P", "1=p1 2<=p1"},
		{4, "Row 1: K1, P3\nRows 2-4: knit the knits and purl the purls", "1=k1,p3 2<=p3,k1 3=k1,p3 4<=p3,k1"},
		{6, "Row 1: K2, k2tog, k to end\nRow 2: P\nRep rows 1-2 once more", "1=k2,k2tog:1,k2 2<=p5 3=k2,k2tog:1,k1 4<=p4"},
	})
}

func TestRowsAreRepeatedAsOftenAsIsSaid(t *testing.T) {
	for _, much := range []string{
		"Rep rows 1-2 2 more times", "Rep rows 1 and 2 twice more.", "Repeat rows 1 & 2, 2 more times", "Rep rows 1-2 another 2 times", "Rep rows 1-2 two times more",
		"Rep rows 1 to 2 3 times total", "Rep rows 1-2 three times in total", "Rep rows 1-2 for a total of 3 times", "Rep rows 1-2 (3 times in all)",
		"Rep these 2 rows twice more", "Repeat the last two rows 2 further times", "Rep rows 1-2 until 6 rows have been worked", "Rep rows 1-2 until you have 6 rows",
		"Rep rows 1-2 until row 6 is complete", "Rep rows 1-2 for a total of 6 rows", "Rep rows 1-2 for 4 more rows", "Rep 1st and 2nd rows twice more",
		"Rep rows 1-2 once more. Rep rows 1-2 once.",
	} {
		for _, join := range []string{"\n", ". "} {
			text := "Row 1: K1" + join + "Row 2: P1" + join + much
			reading, err := Read(text, Options{Pegs: 1})
			if assert.NoError(t, err, text) {
				assert.Equal(t, "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1", readingText(reading), text)
			}
		}
	}
	readAll(t, []textRow{
		{1, "Row 1: K\nRow 2: P\nRep rows 1-2 2 times", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1 warned"},
		{1, "Row 1: K\nRow 2: P\nRep rows 1-2 x2", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1 warned"},
		{1, "Row 1: K\nRow 2: P\nRep rows 1-2 for 2 rows", "1=k1 2<=p1 3=k1 4<=p1 warned"},
		{1, "Row 1: K\nRow 2: P\nRep rows 1-2 until 3 rows have been worked", "1=k1 2<=p1 3=k1 warned"},
		{1, "Row 1: K\nRow 2 and all even rows: P\nRow 3: K\nRep rows 3-4 once more\nNext row: P", "1=k1 2<=p1 3=k1 4<=p1 5=k1 6<=p1 7=p1 8<=p1"},
	})
}

func TestOpenRepeatsAndNamedStitchesAreDirectives(t *testing.T) {
	for text, want := range map[string]string{
		"Rep rows 1-2":                                        "repeat rows 1-2",
		"Rep rows 1 and 2 for pattern.":                       "repeat rows 1-2",
		"Repeat these 2 rows.":                                "repeat rows 1-2",
		"These two rows form the patt":                        "repeat rows 1-2",
		"1st and 2nd rows form the pattern and are repeated.": "repeat rows 1-2",
		"Continue in pattern until piece measures 9 in":       "continue in pattern until length 9 in",
		"Work in patt as established until it measures 9 in":  "continue in pattern until length 9 in",
		"Rep row 2":                                           "repeat row 2",
		"Rep from row 1":                                      "repeat from row 1",
		"Repeat from 2nd row.":                                "repeat from row 2",
		"Rep rows 1-2 until piece measures 7 in":              "repeat rows 1-2 until length 7 in",
		"Rep rows 1-2 until work is 7½ inches long.":          "repeat rows 1-2 until length 7½ in",
		"Continue repeating rows 1-2 until it measures 7\"":   "repeat rows 1-2 until length 7 in",
		"Rep these 2 rows for 18 cm (7 in) from cast-on edge": "repeat rows 1-2 until length 18 cm",
		"Rep rows 1-2 to desired length":                      "repeat rows 1-2 until length as wished",
		"Work in garter st for 6 rows":                        "6 rows garter",
		"Work 6 rows in garter stitch.":                       "6 rows garter",
		"Garter st for 6 rows":                                "6 rows garter",
		"Work in st st for 4 rows":                            "4 rows stockinette",
		"Work in seed stitch until piece measures 3 in":       "seed until length 3 in",
		"Bind off all sts loosely.":                           "bind off",
		"Cast on 1 peg":                                       "cast on 1",
	} {
		reading, err := Read("Row 1: K\nRow 2: P\n"+text, Options{Pegs: 1})
		if assert.NoError(t, err, text) {
			assert.Equal(t, "1=k1 2<=p1 {"+want+"}", readingText(reading), text)
		}
		if strings.Contains(text, "hese") {
			continue // which rows these are is not said where there are none
		}
		alone, err := Read(text, Options{})
		if assert.NoError(t, err, text) {
			assert.Equal(t, "{"+want+"}", readingText(alone), text)
			assert.Zero(t, alone.Pegs)
		}
	}
}

func TestDeclarationsGiveAndCheckTheCount(t *testing.T) {
	for text, want := range map[string]string{
		"Multiple of 4 plus 2": "4+2", "Multiple of 4 + 2": "4+2", "(Multiple of 4 sts plus 2 sts)": "4+2", "Worked over a multiple of 4 sts, plus 2 edge sts": "4+2",
		"Stitch multiple: 4 + 2": "4+2", "Cast on a multiple of 4 plus 2": "4+2", "Even number of pegs": "2+0", "Over an even number of sts": "2+0",
		"Number of sts divisible by 3": "3+0", "Any number of sts": "0+0", "Multiple of 7 minus 1": "7+6", "Multiple of 5 sts and 1 extra": "5+1",
	} {
		for _, join := range []string{"\n", ". "} {
			reading, err := Read(text+join+"Row 1: K", Options{Pegs: 6})
			if assert.NoError(t, err, text) {
				assert.Equal(t, want, fmt.Sprintf("%d+%d", reading.Multiple, reading.Plus), text)
				assert.Empty(t, reading.Warnings)
			}
		}
	}
	for text, form := range map[string]pattern.Form{
		"Cast on 6 sts": pattern.Panel, "CO 6": pattern.Panel, "Using the e-wrap method, cast on 6 pegs": pattern.Panel, "Cast on: 6 sts": pattern.Panel,
		"Loosely cast on 6 sts using chain cast on": pattern.Panel, "Cast on 6 pegs, prepare to work in the round": pattern.Tube,
		"Cast on 6 sts and join, being careful not to twist": pattern.Tube, "Cast on 6 sts. Join to work in the round": pattern.Tube,
	} {
		reading, err := Read(text+".\nRow 1: K\nRow 2: P", Options{})
		if assert.NoError(t, err, text) {
			assert.Equal(t, 6, reading.Pegs, text)
			assert.Equal(t, form, reading.Form, text)
			assert.Equal(t, form == pattern.Panel, reading.Rows[1].Back, text)
			assert.Empty(t, reading.Warnings, text)
		}
	}
	reading, err := Read("Cast on 4 (6, 8) sts\nK", Options{Size: 3})
	require.NoError(t, err)
	assert.Equal(t, "1=k8 {cast on 8}", readingText(reading))
	reading, err = Read("Row 1: K2, P3", Options{})
	require.NoError(t, err)
	assert.Equal(t, 5, reading.Pegs)
}

func TestRemarksAreToldAndNeverSwallowRows(t *testing.T) {
	readAll(t, []textRow{
		{2, "Quay Cloth\nRow 1: K", "1=k2"},
		{2, "Quay Cloth\nSeed Stitch Scarf, 12 sts wide\nRow 1: K", "1=k2 warned"},
		{2, "Instructions:\nRow 1: K\n\nBorder:\nRow 2: P", "1=k2 2<=p2 warned"},
		{2, "Pattern:\nK\nP", "1=k2 2<=p2 warned"},
		{2, "Gauge: 16 sts = 4 in\nMaterials: cotton\nRow 1: K", "1=k2 warned"},
		{2, "Abbreviations\nk = knit\np = purl stitch\nRow 1: K", "1=k2 warned"},
	})
	for _, text := range []string{
		"Kint\nP", "Knit accross\nRow 1: K", "Knit\nRow 1: K", "Row 1: K\nBorder:\nP2", "B2 = k2, p2\nRow 1: K", "Row 1 (k2): K", "k = purl\nRow 1: K", "Row 1: K\nhello",
		"Cast on 2 sts, k to end\nRow 1: K", "Multiple of 2, k2\nRow 1: K",
	} {
		_, err := Read(text, Options{Pegs: 2})
		assert.Error(t, err, text)
	}
}

// What must be refused, each with the piece of the text where the fault is.
func TestWhatCannotBeIsRefusedWhereItStands(t *testing.T) {
	for _, tt := range []struct{ text, at, msg, hint string }{
		{"Row 1: K\nRow 1: P", "Row 1:", "row 1 is written twice", "give one of them another number"},
		{"Rows 4-2: K", "4-2", "these rows run backwards: from 4 to 2", "write the lower number first"},
		{"Row 1: K\nRow 3: P", "Row 3:", "row 2 is missing before this", "write it, or number the rows one after the other"},
		{"Row 1: As row 1", "As row 1", "row 1 refers to itself", "write out its instructions"},
		{"Row 1: As row 2\nRow 2: As row 1", "As row 1", "row 2 and row 1 refer to each other", "write out the instructions of one of them"},
		{"Row 1: K\nRow 2: As row 7", "Row 2:", "row 7 is not defined", ""},
		{"Row 1: K\nRow 2: P\nRows 3-7: Rep rows 1-2", "Rep rows 1-2", "rows 3-7: 5 rows, no whole number of repeats of rows 1-2", "2 times are 4 rows, 3 times 6"},
		{"Row 1: K\nRow 2: P\nRows 3-8: Rep rows 1-2 2 more times", "Rep rows 1-2 2 more times", "rows 3-8: 6 rows, but repeated as often as is said rows 1-2 give another number", "3 times are 6 rows, 4 times 8"},
		{"Row 1: K\nRep rows 1-2 twice more", "Rep rows 1-2 twice more", "row 2 is not written before this", ""},
		{"Row 1: K\nRep row 1 0 more times", "Rep row 1 0 more times", "the count is 0", "counts begin at 1"},
		{"Row 1:\nRow 2: K", "Row 1:", "the row has no instructions", "write what is worked in it, as in Row 3: k3, p2"},
		{"Row 1: K\nRow 2 and all even rows: P\nRow 4: K1, P1", "Row 2 and all even rows:", "row 4 is written twice", "it is one of the rows that another line speaks of together"},
		{"All rows: K\nRow 2: P", "All rows:", "all rows are said to be alike, but there are others", "give the rows numbers"},
		{"Rows 1-200000: K", "1-200000", "row numbers end at 100000", ""},
		{"Cast on 4 sts\nRow 1: K", "Cast on 4 sts", "the text casts on 4, and 2 pegs are asked for", "leave one of them out"},
		{"Multiple of 4 sts plus 3\nRow 1: K", "Multiple of 4 sts plus 3", "2 is not a multiple of 4 plus 3", "3 is"},
		{"Multiple of 5\nRow 1: K", "Multiple of 5", "2 is not a multiple of 5", "5 is"},
		{"Odd number of pegs\nRow 1: K", "Odd number of pegs", "2 is not an odd number", "1 and 3 are"},
		{"Rows 1-2: Work in garter st", "Work in garter st", "a stitch pattern by its name alone: its rows differ between looms and needles", "write out its rows"},
		{"Row 1 (3 sts): K", "(3 sts)", "the text says 3, row 1 leaves 2", ""},
		{"Row 1: K2\nRow 2: K3", "K3", "the row needs 3 pegs and has 2: 1 too many", "as written it fits 3 pegs"},
		{"Row 1: K\nRepeat twice more", "Repeat twice more", "which rows are repeated cannot be read", "write rep rows 1-4 three more times"},
		{"Row 1: K\nRow 2: As row 1 but purl", "but purl", "this cannot be read behind the rows to repeat", "write rep rows 1-4 three more times"},
		{" \n", " \n", "there is no row in the text", "write a row, as in Row 1: k3, p2"},
	} {
		_, err := Read(tt.text, Options{Pegs: 2})
		all, ok := err.(Errors)
		if !assert.True(t, ok, tt.text) {
			continue
		}
		assert.Equal(t, tt.at, tt.text[all[0].Start:all[0].End], tt.text)
		assert.Equal(t, tt.msg, all[0].Msg, tt.text)
		assert.Equal(t, tt.hint, all[0].Hint, tt.text)
		assert.Len(t, all, 1, tt.text)
	}
}

func TestNeedlesShowEveryOtherRowFromBehind(t *testing.T) {
	text := "Row 1: K3, P1\nRow 2: knit the knits and purl the purls"
	for _, tt := range []struct {
		o    Options
		want string
	}{
		{Options{Pegs: 4, Needles: true}, "1=k3,p1 2w<=k1,p3"},
		{Options{Pegs: 4, Needles: true, WrongSide: true}, "1w=k3,p1 2<=k1,p3"},
		{Options{Pegs: 4, Needles: true, Form: pattern.Tube}, "1=k3,p1 2=k3,p1"},
		{Options{Pegs: 4}, "1=k3,p1 2<=p1,k3"},
	} {
		reading, err := Read(text, tt.o)
		require.NoError(t, err)
		assert.Equal(t, tt.want, readingText(reading))
	}
	reading, err := Read("Row 1 (WS): K\nRow 2: P", Options{Pegs: 4, Needles: true})
	require.NoError(t, err)
	assert.Equal(t, "1w=k4 2<=p4", readingText(reading))
}

func TestAFaultOfWordsReadBeforeStandsWhereTheyStandAgain(t *testing.T) {
	text := "Row 1: K1, p1\nRow 2: k2tog\nRow 3: K1, p1"
	_, err := Read(text, Options{Pegs: 2})
	all, ok := err.(Errors)
	require.True(t, ok)
	assert.Equal(t, strings.LastIndex(text, "p1"), all[0].Start)
}
