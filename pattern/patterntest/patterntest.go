// Package patterntest makes patterns for tests: small ones by hand and random ones
// for laws that hold for every pattern. It is imported by tests only.
package patterntest

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bypeg/pattern"
)

// Rows turns drawn rows into cells: `|` is a knit, `-` a purl, `v` a slip, `.` a peg
// not in use. The first string is the top row, as drawn charts have it; the result
// is bottom first.
func Rows(drawn ...string) [][]pattern.Cell {
	rows := make([][]pattern.Cell, len(drawn))
	for i, s := range drawn {
		rows[len(drawn)-1-i] = row(s)
	}
	return rows
}

var stitches = map[rune]pattern.Stitch{
	'|': pattern.Knit, '-': pattern.Purl, 'v': pattern.Slip, '.': pattern.NoStitch,
	'o': pattern.YarnOver, '/': pattern.RightTwo, '\\': pattern.LeftTwo,
}

func row(s string) []pattern.Cell {
	var cells []pattern.Cell
	for _, r := range s {
		cells = append(cells, pattern.Cell{Stitch: stitches[r]})
	}
	return cells
}

// Drawn is a plan of one zone that is drawn as the strings have it, top row first.
func Drawn(drawn ...string) pattern.Plan {
	rows := Rows(drawn...)
	plan := pattern.Plan{Design: design(len(rows[0]))}
	plan.Zones = []pattern.ZonePlan{{Name: "field", Rows: len(rows), Strips: []pattern.StripPlan{{Pegs: len(rows[0]), Lines: lines(rows, false)}}}}
	return plan
}

// Frame is a panel with a garter frame: as many ridges at the bottom and at the top,
// a plain field between sides, and one knit row before the bind-off.
func Frame(pegs, sides, ridges, fieldRows int) pattern.Plan {
	plan := pattern.Plan{Design: design(pegs)}
	garter := []pattern.StripPlan{{Pegs: pegs, Lines: lines(Rows(strings.Repeat("-", pegs), strings.Repeat("|", pegs)), true)}}
	plan.Zones = []pattern.ZonePlan{
		{Name: "bottom border", Border: true, Rows: 2 * ridges, Strips: garter},
		{
			Name: "field", Rows: fieldRows, Sides: sides, SideRows: pattern.GarterSide(sides, 0),
			Strips: []pattern.StripPlan{{Pegs: pegs - 2*sides, Lines: lines(Rows(strings.Repeat("|", pegs-2*sides)), true)}},
		},
		{Name: "top border", Border: true, Rows: 2 * ridges, Like: "bottom border", Strips: garter},
		{Name: "set-up", Border: true, Rows: 1, Strips: []pattern.StripPlan{{Pegs: pegs, Lines: garter[0].Lines[:1]}}},
	}
	return plan
}

// Lace is a piece of 14 pegs with every plain kind of stitch and with crosses of several
// kinds, which grows narrower at its end: 19 rows.
func Lace(form pattern.Form) pattern.Plan {
	plan := pattern.Plan{Design: design(14)}
	plan.Form = form
	plan.Zones = []pattern.ZonePlan{
		{Name: "foot", Border: true, Rows: 2, Strips: []pattern.StripPlan{{Pegs: 14, Lines: lines(Rows("--------------", "||||||||||||||"), false)}}},
		{Name: "lace", Rows: 12, Strips: []pattern.StripPlan{{Pegs: 14, Lines: lines(laceRows(), false)}}},
		{Name: "point", Rows: 5, Strips: []pattern.StripPlan{{Pegs: 14, Lines: lines(Rows(
			"..||||||||||..", "./|||||||||...", ".||||||||||\\..", ".|||||||||||\\.", "/||||||||||||."), false)}}},
	}
	return plan
}

func laceRows() [][]pattern.Cell {
	with := func(parts ...any) []pattern.Cell {
		var cells []pattern.Cell
		for _, part := range parts {
			switch part := part.(type) {
			case pattern.Stitch:
				cells = append(cells, pattern.Cell{Stitch: part})
			case pattern.Cross:
				for _, s := range part.Parts() {
					cells = append(cells, pattern.Cell{Stitch: s})
				}
			case string:
				cells = append(cells, row(part)...)
			}
		}
		return cells
	}
	plain := with("||||||||||||||")
	return [][]pattern.Cell{
		plain,
		with("v", pattern.SlipFront, "/o", pattern.Cross{Front: 2, Back: 2}, "||||o\\"),
		plain,
		with(pattern.EWrap, pattern.UWrap, pattern.FlatKnit, pattern.TrueKnit, pattern.TwistedKnit, pattern.TwistedPurl,
			pattern.PurlTwo, "o", pattern.LeftPurlTwo, pattern.MakeOne, pattern.CentreThree, "o|", pattern.IncreaseKnit),
		plain,
		with(pattern.Cross{Front: 3, Back: 3, Lean: pattern.Right, PurlBack: true}, pattern.Cross{Front: 2, Back: 1},
			pattern.Cross{Front: 1, Back: 2, Lean: pattern.Right}, "--"),
	}
}

func design(pegs int) pattern.Design {
	castOn, _ := pattern.CastOnNamed("chain")
	return pattern.Design{
		Title: "Test Weir Mat", Pegs: pegs, CastOn: castOn,
		Way: pattern.DefaultWay(pattern.RightHand), Yarns: []pattern.YarnInfo{{Weight: pattern.UnknownWeight}},
	}
}

func lines(rows [][]pattern.Cell, written bool) []pattern.Line {
	var ls []pattern.Line
	for _, r := range rows {
		ls = append(ls, pattern.Line{Cells: r, Written: written})
	}
	return ls
}

// Build makes the fabric of a plan that is right.
func Build(t testing.TB, plan pattern.Plan) *pattern.Pattern {
	t.Helper()
	p, errs := pattern.Build(plan)
	for _, err := range errs {
		t.Fatalf("zone %d, strip %d, line %d: %v", err.Zone, err.Strip, err.Line, err)
	}
	return p
}

// Plans are random patterns: panels and tubes, either hand's directions, strips side
// by side, sides, slipped edges, drawn and written rows, of up to 24 pegs.
func Plans() *rapid.Generator[pattern.Plan] { return rapid.Custom(drawPlan) }

func drawPlan(t *rapid.T) pattern.Plan {
	plan := pattern.Plan{Design: design(rapid.IntRange(1, 24).Draw(t, "pegs"))}
	plan.Form = rapid.SampledFrom([]pattern.Form{pattern.Panel, pattern.Tube}).Draw(t, "form")
	plan.WrittenFor = rapid.SampledFrom([]pattern.Hand{pattern.RightHand, pattern.LeftHand}).Draw(t, "written for")
	plan.Way = Ways().Draw(t, "way")
	plan.CastOn.Passes = rapid.IntRange(1, 2).Draw(t, "passes")
	for range rapid.IntRange(1, 4).Draw(t, "zones") {
		plan.Zones = append(plan.Zones, drawZone(t, &plan.Design))
	}
	return plan
}

// Ways are all four ways a piece can be worked.
func Ways() *rapid.Generator[pattern.Way] {
	return rapid.Custom(func(t *rapid.T) pattern.Way {
		return pattern.Way{
			Peg1: rapid.SampledFrom([]pattern.Side{pattern.Left, pattern.Right}).Draw(t, "peg 1"),
			Row1: rapid.SampledFrom([]pattern.Direction{pattern.ToLeft, pattern.ToRight}).Draw(t, "row 1"),
		}
	})
}

func drawZone(t *rapid.T, d *pattern.Design) pattern.ZonePlan {
	z := pattern.ZonePlan{
		Name:     rapid.SampledFrom([]string{"bottom border", "field", "top border"}).Draw(t, "name"),
		Border:   rapid.Bool().Draw(t, "border"),
		Rows:     rapid.IntRange(1, 12).Draw(t, "rows"),
		SlipEdge: rapid.Bool().Draw(t, "slip edge"),
	}
	if most := (d.Pegs - 1) / 2; d.Form == pattern.Panel && most > 0 && rapid.Bool().Draw(t, "has sides") {
		z.Sides = rapid.IntRange(1, min(most, 4)).Draw(t, "sides")
		for range rapid.IntRange(1, 3).Draw(t, "side rows") {
			z.SideRows = append(z.SideRows, drawCells(t, z.Sides))
		}
	}
	for left := d.Pegs - 2*z.Sides; left > 0; {
		s := pattern.StripPlan{Pegs: rapid.IntRange(1, left).Draw(t, "strip")}
		written := rapid.Bool().Draw(t, "written")
		for range rapid.IntRange(1, 4).Draw(t, "repeat") {
			s.Lines = append(s.Lines, pattern.Line{Cells: drawCells(t, s.Pegs), Written: written})
		}
		z.Strips = append(z.Strips, s)
		left -= s.Pegs
	}
	return z
}

func drawCells(t *rapid.T, n int) []pattern.Cell {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) pattern.Cell {
		return pattern.Cell{
			Stitch: rapid.SampledFrom([]pattern.Stitch{pattern.Knit, pattern.Knit, pattern.Purl, pattern.Purl, pattern.Slip}).Draw(t, "stitch"),
			Yarn:   pattern.Yarn(rapid.IntRange(0, 1).Draw(t, "yarn")),
		}
	}), n, n).Draw(t, "cells")
}
