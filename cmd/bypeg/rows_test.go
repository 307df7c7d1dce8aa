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
					fmt.Fprintf(&text, "Row %s: %s\n", row[2], row[5])
				}
			}
			r = runHere(t, "rows", "--pegs", fmt.Sprint(pegs), "--form", form, "--json", "--hand", hand, "--text", text.String())
			require.Equal(t, exitDone, r.code, r.out)
			require.NoError(t, json.Unmarshal([]byte(r.out), &fromText))
			assert.Equal(t, fromPattern, fromText, "%s, %s hand", name, hand)
		}
	}
}
