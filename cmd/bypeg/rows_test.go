package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/examples"
	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/pattern/rowtext"
)

// A printed row of a pattern is read as the same row, whatever stitches it has.
func TestAPrintedRowIsReadAsTheSameRow(t *testing.T) {
	for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
		p := patterntest.Build(t, patterntest.Lace(form))
		for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
			o := pattern.Order{Pattern: p, Way: p.WayFor(hand)}
			for row := 1; row <= p.Grid.Rows(); row++ {
				text := printRow(o, row)
				runs, notes, err := rowtext.ReadRow(text, p.Pegs)
				require.NoError(t, err, text)
				assert.Empty(t, notes, "no doubt in %q", text)
				assert.Equal(t, rowtext.LineOf(o, row), runs, text)
			}
		}
	}
}

// toldRows is what --json prints.
type toldRows struct {
	Rows []struct {
		Row, From, To int
		Runs          []struct {
			Stitch string
			Count  int
		}
	}
}

// The rows of an example, told as a text of written rows, are the rows of its pattern:
// both are printed as JSON and compared.
func TestAPatternsRowsAndTheirTextAreToldAlike(t *testing.T) {
	for _, name := range examples.Names() {
		for _, hand := range []string{"right", "left"} {
			var fromPattern, fromText toldRows
			r := runHere(t, "rows", name, "--json", "--hand", hand)
			require.Equal(t, exitDone, r.code, r.errors)
			require.NoError(t, json.Unmarshal([]byte(r.out), &fromPattern))

			printed := runHere(t, "rows", name, "--hand", hand)
			form, pegs := "panel", 0
			var text strings.Builder
			for line := range strings.Lines(printed.out) {
				if head := headLine.FindStringSubmatch(strings.TrimSuffix(line, "\n")); head != nil {
					form, pegs = head[1], number(head[2])
				}
				if row := workLine.FindStringSubmatch(strings.TrimSuffix(line, "\n")); row != nil {
					fmt.Fprintf(&text, "Row %s (%s to %s): %s\n", row[2], row[3], row[4], row[5])
				}
			}
			r = runHere(t, "rows", "--pegs", fmt.Sprint(pegs), "--form", form, "--json", "--hand", hand, "--text", text.String())
			require.Equal(t, exitDone, r.code, r.out)
			require.NoError(t, json.Unmarshal([]byte(r.out), &fromText))
			assert.Equal(t, fromPattern, fromText, "%s, %s hand", name, hand)
		}
	}
}

// A text without directions is written for the right hand: what the other hand is told of it
// is what it is told of the pattern that is made of it. Row 5 of a
// word and its numbers for the left hand are common practice, no source.
func TestTheLeftHandMakesTheSameFabricOfAText(t *testing.T) {
	texts := []struct{ text, row, says string }{
		{"Row 5: K4, P2, K10, P4, K4", "row 5", "k4, p4, k10, p2, k4"},
		{"Cast on 12.\nRow 1: k1, p2, k9\nRow 2: k3, c4f, p5\nRow 3: p1, c4b, k7", "row 2", "p5, c4f, k3"},
		{"Rnd 1: k3, p7\nRnd 2: k1, 2/1rpc, p6", "round 2", "p6, 2/1rpc, k1"},
		{"Row 1: k10\nRow 2: k1, k2tog, yo, k7\nRow 3: k5, yo, ssk, p3", "row 2", "k7, yo, k2tog, k1"},
		{"Row 1: k6\nRow 2: k2, kfb, p3\nRow 3: k4, kfb, p1, k1", "row 2", "p3, kfb, k2; leaves 7 loops of 6"},
		{"Rnd 1: k2, e-wrap 3, sl 1, p1", "round 1", "p1, sl1, ew3, k2"},
	}
	for _, c := range texts {
		path := writeFile(t, "leaflet.txt", c.text)
		r := runHere(t, "rows", path, "--hand", "left")
		require.Equal(t, exitDone, r.code, r.errors)
		assert.Contains(t, r.out, c.says+"\n", c.row)

		var fromPattern, fromText toldRows
		r = runHere(t, "rows", path, "--hand", "left", "--json")
		require.Equal(t, exitDone, r.code, r.out)
		require.NoError(t, json.Unmarshal([]byte(r.out), &fromText))
		r = runHere(t, "adopt", path)
		require.Equal(t, exitDone, r.code, r.errors)
		r = runHere(t, "rows", writeFile(t, "made.toml", r.out), "--hand", "left", "--json")
		require.Equal(t, exitDone, r.code, r.errors)
		require.NoError(t, json.Unmarshal([]byte(r.out), &fromPattern))
		require.Len(t, fromText.Rows, len(fromPattern.Rows))
		for i, row := range fromPattern.Rows {
			inUse := row.Runs[:0]
			for _, run := range row.Runs {
				if run.Stitch != "none" { // the text does not speak of pegs that are not in use
					inUse = append(inUse, run)
				}
			}
			assert.Equal(t, inUse, fromText.Rows[i].Runs, "%s, row %d", c.text, i+1)
		}
	}
}

// A text that says its directions is followed as it stands by both hands.
func TestATextThatSaysItsDirectionsIsFollowedAsItStands(t *testing.T) {
	for _, hand := range []string{"right", "left"} {
		r := runHere(t, "rows", "--hand", hand, "--text", "Row 1 (left to right): k3, p6\nRow 2: p6, k3")
		require.Equal(t, exitDone, r.code, r.errors)
		assert.Equal(t, "row 1, left to right: k3, p6\nrow 2, right to left: p6, k3\n", r.out, hand)
	}
	r := runHere(t, "rows", "--row-1", "left to right", "--text", "Row 1: k3, p6")
	assert.Equal(t, "row 1, left to right: p6, k3\n", r.out, "a maker's own way does not change the fabric")
}
