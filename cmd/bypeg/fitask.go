package main

import (
	"fmt"
	"slices"
	"strings"
)

// question is one of the things that fit can be asked, by the flag that asks it, and the
// flags that go with it.
type question struct {
	flag string
	with []string
}

// The questions, those first that others may be beside.
var (
	ofPattern = []question{
		{"swatch", []string{"gauge", "yarn", "loom", "spacing"}},
		{"left", []string{"done", "of", "gauge", "sample", "own", "yarn", "json"}},
		{"output", []string{"force", "gauge", "sample", "own"}},
		{"", []string{"gauge", "sample", "own", "yarn", "strands", "margin", "pace", "loom", "spacing", "json"}},
	}
	ofNone = []question{
		{"swatch", []string{"loom", "spacing", "gauge", "yarn"}},
		{"sample", []string{"width", "height", "ball", "margin", "json"}},
		{"width", []string{"gauge", "multiple", "plus", "sides", "loom", "form", "json"}},
		{"height", []string{"gauge", "multiple", "plus", "ends", "form", "json"}},
		{"pegs", []string{"gauge", "multiple", "plus", "sides", "json"}},
		{"yarn", []string{"json"}},
	}
	// ofCloth is what goes with a width and a height together.
	ofCloth     = question{"width", []string{"height", "gauge", "multiple", "plus", "sides", "ends", "loom", "form", "yarn", "margin", "json"}}
	resizeFlags = []string{"width", "height", "pegs"}                           // that resize has for a pattern
	aloneFlags  = []string{"multiple", "plus", "sides", "ends", "form", "ball"} // that it has not
	fileFlags   = []string{"left", "done", "of", "own", "output", "force", "pace", "strands"}
)

// fitFlags are all flags of fit.
func fitFlags() []string {
	all := slices.Concat(resizeFlags, aloneFlags, fileFlags)
	for _, q := range slices.Concat(ofPattern, ofNone) {
		all = append(append(all, q.with...), q.flag)
	}
	slices.Sort(all)
	return slices.DeleteFunc(slices.Compact(all), func(flag string) bool { return flag == "" })
}

func (ask *fitting) given(flag string) bool { return slices.Contains(ask.flags, flag) }

func (ask *fitting) check(files int) error {
	if files > 1 && ask.given("own") {
		return usage(`write it with an equals sign: --own="Sluice Cloth"`, "fit takes one pattern, not %d", files)
	}
	if files > 1 {
		return usage("write bypeg fit FILE, with a pattern file or an example's name", "fit takes one pattern, not %d", files)
	}
	if err := ask.checkFigures(); err != nil {
		return err
	}
	if files == 0 {
		return ask.checkAlone()
	}
	for _, flag := range ask.flags {
		switch {
		case slices.Contains(resizeFlags, flag):
			return usage("bypeg resize FILE --"+flag+" carries a pattern over to another loom or size", "--%s counts without a pattern: leave FILE out", flag)
		case slices.Contains(aloneFlags, flag):
			return usage("leave FILE out, or --"+flag, "--%s counts without a pattern", flag)
		}
	}
	switch {
	case (ask.given("output") || ask.force) && (ask.gauge == "" && ask.sample == "" && ask.ownPiece == "" || ask.output == ""):
		return usage(`write --gauge "16 stitches and 22 rows in 10 cm" -o mine.toml`, "--output writes the pattern with what --gauge, --sample or --own says")
	case ask.given("own") && (ask.given("gauge") || ask.given("sample")):
		return usage("leave one of them out", "--own has a gauge and a weight of its own: it does not go with --gauge or --sample")
	case (ask.given("done") || ask.of != "") && ask.left == "":
		return usage(`write --left "18 g" beside it`, "--done and --of are for --left")
	}
	return ask.checkTogether(ofPattern)
}

// checkAlone is for questions without a pattern.
func (ask *fitting) checkAlone() error {
	for _, flag := range fileFlags {
		if ask.given(flag) {
			return usage("write bypeg fit FILE --"+flag, "--%s is about a pattern, and none is named", flag)
		}
	}
	switch {
	case ask.sample != "" && (ask.width == "" || ask.height == "") || ask.ball != "" && ask.sample == "":
		return usage(`write --width 90cm --height 110cm --sample "15 x 15 cm = 11 g" --ball 100g, or name a FILE`, "--sample goes with a width and a height, or with a pattern")
	case !slices.ContainsFunc(ofNone, func(q question) bool { return ask.given(q.flag) }):
		return usage(`write bypeg fit FILE, or bypeg fit --width 52cm --gauge "24 pegs = 18.5 cm"`, "fit takes a pattern, or a width and a gauge")
	case ask.given("width") && ask.given("height") && ask.sample == "" && !ask.swatch:
		return ask.checkTogether([]question{ofCloth})
	}
	return ask.checkTogether(ofNone)
}

// checkTogether holds the flags against the first question that is asked.
func (ask *fitting) checkTogether(questions []question) error {
	for _, q := range questions {
		if q.flag != "" && !ask.given(q.flag) {
			continue
		}
		for _, flag := range ask.flags {
			if flag == q.flag || slices.Contains(q.with, flag) {
				continue
			}
			if q.flag == "" {
				return usage("leave it out", "--%s asks nothing about a pattern", flag)
			}
			return usage(fmt.Sprintf("leave one of them out; what goes with --%s is --%s", q.flag, strings.Join(q.with, ", --")), "--%s does not go with --%s", flag, q.flag)
		}
		return nil
	}
	return nil
}

func (ask *fitting) checkFigures() error {
	for _, f := range []struct{ flag, text, example string }{
		{"gauge", ask.gauge, `--gauge "16 stitches and 22 rows in 10 cm"`}, {"sample", ask.sample, `--sample "15 x 15 cm = 11 g"`},
		{"own", ask.ownPiece, `--own, or --own="Sluice Cloth"`}, {"yarn", ask.yarn, `--yarn "85 m/50 g"`}, {"left", ask.left, `--left "18 g"`}, {"of", ask.of, "--of slate"}, {"ball", ask.ball, "--ball 100g"},
	} {
		if ask.given(f.flag) && strings.TrimSpace(f.text) == "" {
			return usage("write it like "+f.example, "--%s says nothing", f.flag)
		}
	}
	switch {
	case ask.strands < 1 || ask.strands > 9 || ask.given("strands") && ask.yarn == "":
		return usage(`write --strands 2 --yarn "300 m/100 g"`, "--strands is how many strands of the yarn that --yarn names, 1 to 9")
	case !(ask.margin >= 0 && ask.margin <= 100):
		return usage("write --margin 10", "--margin is percent, from 0 to 100")
	case ask.given("pace") && !(ask.pace > 0 && ask.pace <= 500):
		return usage("write --pace 20, or leave it out", "--pace is stitches in a minute, more than 0 and up to 500")
	}
	return nil
}
