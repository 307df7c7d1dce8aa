package report_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/tui/report"
)

// linesOf are the lines of a part of a report.
func linesOf(r *report.Report, label string) []string {
	for _, part := range r.Parts() {
		if part.Label == label {
			return part.Lines
		}
	}
	return nil
}

// Where the yarn goes adds up to what is likely, borders that are alike take alike, and
// nothing is told to take none.
func TestThePartsOfTheYarnMakeItsWhole(t *testing.T) {
	number := regexp.MustCompile(` (\d+)(,|$)`)
	told := 0
	for _, name := range examples.Names() {
		text, _ := examples.Text(name)
		lines := linesOf(reportOf(t, string(text)), "yarn")
		for i, line := range lines {
			if !strings.HasPrefix(line, "in m: ") {
				continue
			}
			sum := 0
			for _, part := range number.FindAllStringSubmatch(line, -1) {
				n, err := strconv.Atoi(part[1])
				require.NoError(t, err)
				assert.Positive(t, n, "%s: %s", name, line)
				sum += n
			}
			assert.Contains(t, lines[i-1], fmt.Sprintf("likely %d m", sum), "%s: %s", name, line)
			for _, border := range [][2]string{{"bottom", "top"}, {"lower", "upper"}} {
				bottom, top := regexp.MustCompile(border[0]+` \w+ (\d+)`).FindStringSubmatch(line), regexp.MustCompile(border[1]+` \w+ (\d+)`).FindStringSubmatch(line)
				if bottom != nil {
					assert.Equal(t, bottom[1], top[1], "%s: %s", name, line)
				}
			}
			told++
		}
	}
	assert.GreaterOrEqual(t, told, 5)
}

const panelText = `pattern = 1
title = "Test Lock Panel"
pegs = 30
[gauge]
stitches = 12
rows = 17
over = "10 cm"
[yarn]
metres = %s
grams = %s
[[zone]]
name = "bank"
sides = %d
rows = ["%s"]
times = 40
[[zone]]
name = "water"
sides = %d
rows = ["k"]
times = 40
`

func panel(sides int, row string) string {
	return fmt.Sprintf(panelText, "100", "50", sides, row, sides)
}

func TestABorderThatIsTooNarrowIsTold(t *testing.T) {
	edges := strings.Join(linesOf(reportOf(t, panel(1, "k")), "edges"), "\n")
	assert.Contains(t, edges, "less likely with 4 pegs of garter there instead of 1")
	edges = strings.Join(linesOf(reportOf(t, panel(0, "k")), "edges"), "\n")
	assert.Contains(t, edges, "less likely with 4 pegs of garter there\n")
	assert.NotContains(t, edges, "instead of")
}

// Sides that stretch ask nothing of the maker: a line tells of all of them.
func TestNarrowSidesShareALine(t *testing.T) {
	edges := linesOf(reportOf(t, panel(3, "k")), "edges")
	assert.Equal(t, "bank and water: garter sides are 29 % shorter, but narrow enough to stretch", edges[len(edges)-1])
	edges = linesOf(reportOf(t, panel(7, "k")), "edges")
	assert.Equal(t, "water: garter sides are 29 % shorter than it by themselves: turn and go back in the side alone, 8 times, every 5 rows, if it does not stretch; every 10 to 20 rows is usual", edges[len(edges)-1])
}

// An ounce is 28.349523125 g by definition.
func TestABallThatWasToldInOuncesIs(t *testing.T) {
	for grams, want := range map[string]string{
		"50": "of 50 g,", "99.223": "of 3.5 oz (99.2 g),", "28.3495": "of 1 oz (28.3 g),", "85.5": "of 85.5 g,",
	} {
		lines := linesOf(reportOf(t, fmt.Sprintf(panelText, "100", grams, 3, "k", 3)), "yarn")
		assert.Contains(t, lines[0], want)
	}
}

// An inch is exactly 2.54 cm.
func TestASizeIsToldInInchesTooBeItAnEstimateOrATube(t *testing.T) {
	estimated := "pattern = 1\npegs = 20\n[loom]\nspacing = \"1/2 in\"\n[[zone]]\nname = \"field\"\nrows = [\"k\"]\ntimes = 30\n"
	size := linesOf(reportOf(t, estimated), "size")
	assert.Equal(t, []string{"17 to 20.5 cm wide, 13 to 25.5 cm high", "6 3/4 to 8 in wide, 5 to 10 in high"}, size[:2])
	tube := "pattern = 1\nform = \"tube\"\npegs = 20\n[gauge]\nstitches = 10\nrows = 15\nover = \"10 cm\"\n[[zone]]\nname = \"field\"\nrows = [\"k\"]\ntimes = 30\n"
	size = linesOf(reportOf(t, tube), "size")
	assert.Equal(t, []string{"20 cm round, 20 cm high (7 3/4 in by 7 3/4 in)", "laid flat 10 cm wide"}, size[:2])
}

func TestPartsThatAreAlikeTakeAlike(t *testing.T) {
	for rows := 30; rows < 50; rows++ {
		lines := linesOf(reportOf(t, strings.ReplaceAll(panel(0, "k"), "times = 40", fmt.Sprintf("times = %d", rows))), "yarn")
		said := regexp.MustCompile(`bank (\d+), water (\d+), `).FindStringSubmatch(lines[1])
		require.Len(t, said, 3, lines[1])
		assert.Equal(t, said[1], said[2], "%d rows: %s", rows, lines[1])
	}
}
