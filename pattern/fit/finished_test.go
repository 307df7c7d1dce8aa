package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
	"bypeg/pattern/fit"
	"bypeg/pattern/measure"
)

func TestWhatAPieceMeasuresIsReadAsPeopleWriteIt(t *testing.T) {
	for text, want := range map[string]fit.Finished{
		"21.5 x 30 cm, 62 g":             {Width: 215, Height: 300, Grams: 62},
		"21,5 x 30 cm, 62,5 g":           {Width: 215, Height: 300, Grams: 62.5},
		"21.5x30cm,62g":                  {Width: 215, Height: 300, Grams: 62},
		"21.5 x 30":                      {Width: 215, Height: 300},
		"21.5 by 30 cm and 62 g":         {Width: 215, Height: 300, Grams: 62},
		"62 g; 21.5 x 30 cm":             {Width: 215, Height: 300, Grams: 62},
		"21.5 × 30 cm 62 g":              {Width: 215, Height: 300, Grams: 62},
		"215 x 300 mm":                   {Width: 215, Height: 300},
		"8 1/2 x 12 in, 2.2 oz":          {Width: 216, Height: 305, Grams: 62.4}, // an inch is 25.4 mm, an ounce 28.35 g
		`8½" x 12"`:                      {Width: 216, Height: 305},
		"21.5 cm wide, 30 cm high, 62 g": {Width: 215, Height: 300, Grams: 62},
		"width 21.5, height 30":          {Width: 215, Height: 300},
		"30 long":                        {Height: 300},
		"25 x 20, 30g":                   {Width: 250, Height: 200, Grams: 30},
		"25 by 20 cm 2 1/2 oz":           {Width: 250, Height: 200, Grams: 70.9},
		"62 grams":                       {Grams: 62},
		" 62 g ":                         {Grams: 62},
		"0.1 kg":                         {Grams: 100},
	} {
		f, err := fit.ParseFinished(text, pattern.Panel)
		require.NoError(t, err, text)
		assert.Equal(t, want, f, text)
	}
}

// A tube is measured as it lies flat, half of the way round (common practice, no source),
// where no word says otherwise.
func TestATubeIsMeasuredFlat(t *testing.T) {
	for text, want := range map[string]fit.Finished{
		"22.5 x 30 cm":                      {Width: 450, Height: 300},
		"22.5 x 30":                         {Width: 450, Height: 300},
		"22.55 cm flat":                     {Width: 451},
		"22.5 cm laid flat, 30 cm high":     {Width: 450, Height: 300},
		"22.5 x 30 cm flat, 70 g":           {Width: 450, Height: 300, Grams: 70},
		"flat 22,5 x 30":                    {Width: 450, Height: 300},
		"22.5 cm flat x 30 cm high":         {Width: 450, Height: 300},
		"30 cm high x 22.5 flat":            {Width: 450, Height: 300},
		"22.5 wide, 30 high":                {Width: 450, Height: 300},
		"45 x 30 cm round":                  {Width: 450, Height: 300},
		"45 cm round x 30 cm":               {Width: 450, Height: 300},
		"45 cm round by 30 cm high, 70 g":   {Width: 450, Height: 300, Grams: 70},
		"round 45, height 30":               {Width: 450, Height: 300},
		"45 cm all the way round":           {Width: 450},
		"45 cm around":                      {Width: 450},
		"circumference 45 cm":               {Width: 450},
		"22.5 cm flat, that is 45 cm round": {Width: 450},
		"30 cm high":                        {Height: 300},
	} {
		f, err := fit.ParseFinished(text, pattern.Tube)
		require.NoError(t, err, text)
		assert.Equal(t, want, f, text)
	}
	for text, says := range map[string]string{
		"22.5":                   `"22.5" does not say of what: write it like 22.5 cm flat, 30 cm high, 62 g`,
		"22 cm flat, 45 round":   "the width is told twice",
		"round":                  "is no length",
		"45 cm, all the way":     "does not say of what",
		"45 x 30 cm round, flat": "is no length",
	} {
		_, err := fit.ParseFinished(text, pattern.Tube)
		require.ErrorContains(t, err, says, text)
	}
}

func TestATubeIsToldBothWays(t *testing.T) {
	f := fit.Finished{Width: 450, Height: 300, Grams: 70}
	assert.Equal(t, "45 cm round, 30 cm high, 70 g", f.Of(pattern.Tube))
	assert.Equal(t, "22.5 cm flat, that is 45 cm round, 30 cm high, 70 g", f.Say(pattern.Tube))
	assert.Equal(t, "22.55 cm flat, that is 45.1 cm round", fit.Finished{Width: 451}.Say(pattern.Tube))
	assert.Equal(t, "30 cm high", fit.Finished{Height: 300}.Say(pattern.Tube))
	assert.Equal(t, "45 x 30 cm, 70 g", f.Say(pattern.Panel))
}

// Before a tube was measured flat its width was kept without a word, and was the way round.
func TestWhatWasKeptOfATubeBeforeIsTheWayRound(t *testing.T) {
	for text, want := range map[string]fit.Finished{
		"45 x 30 cm, 70 g":              {Width: 450, Height: 300, Grams: 70},
		"45 cm wide":                    {Width: 450},
		"45 cm round, 30 cm high, 70 g": {Width: 450, Height: 300, Grams: 70},
	} {
		f, err := fit.ParseKept(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, f, text)
	}
}

func TestASizeThatCannotBeReadSaysWhatToWrite(t *testing.T) {
	for text, says := range map[string]string{
		"":                    `"" tells no size and no weight: write it like 21.5 x 30 cm, 62 g`,
		" , ":                 "tells no size and no weight",
		"wide":                "is no length",
		"21.5":                `"21.5" does not say of what: write it like`,
		"30 cm":               `"30 cm" does not say of what`,
		"21.5 x 30 stones":    `"stones" is no unit of length`,
		"0 x 30 cm":           "write more than 0",
		"0 g":                 "does not say of what",
		"0.01 g":              "is too little for the weight",
		"0.1 mm wide":         "is too little for the width",
		"62 g, 63 g":          "the weight is told twice",
		"21 x 30 cm, 20 wide": "the width is told twice",
		`8" x 12`:             "12 cm, 12 mm or 12 in",
		"21.5 x 30 cm x 4 cm": "is no length",
		"\x1b[2J wide":        "is no length",
	} {
		_, err := fit.ParseFinished(text, pattern.Panel)
		require.ErrorContains(t, err, says, text)
		assert.NotContains(t, err.Error(), "\x1b")
	}
}

// What is written of a piece is read back as it was.
func TestWhatIsKeptOfAPieceReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := fit.Finished{
			Width: measure.Length(rapid.IntRange(0, 9000).Draw(t, "width")), Height: measure.Length(rapid.IntRange(0, 9000).Draw(t, "height")),
			Grams: float64(rapid.IntRange(0, 90000).Draw(t, "grams")) / 10,
		}
		for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
			for text, read := range map[string]func() (fit.Finished, error){
				f.Of(form):  func() (fit.Finished, error) { return fit.ParseKept(f.Of(form)) },
				f.Say(form): func() (fit.Finished, error) { return fit.ParseFinished(f.Say(form), form) },
			} {
				is, err := read()
				if f == (fit.Finished{}) {
					assert.Error(t, err)
					continue
				}
				require.NoError(t, err, text)
				assert.Equal(t, f, is, text)
			}
			if is, err := fit.ParseFinished(f.Of(form), form); f != (fit.Finished{}) {
				require.NoError(t, err)
				assert.Equal(t, f, is)
			}
		}
	})
}

// Any text is a size or an error, never less than nothing, and what is read reads back.
func FuzzParseFinished(f *testing.F) {
	for _, text := range []string{"21.5 x 30 cm, 62 g", "8 1/2 x 12 in, 2.2 oz", "30 cm high", "62g", "width 3,5 and 2", `8½" x 12"`, "x", "1e9 kg"} {
		f.Add(text, text == "x")
	}
	f.Add("22.5 cm laid flat, that is 45 cm round x 30", true)
	f.Fuzz(func(t *testing.T, text string, tube bool) {
		form := pattern.Panel
		if tube {
			form = pattern.Tube
		}
		read, err := fit.ParseFinished(text, form)
		if err != nil {
			return
		}
		assert.True(t, read.Width >= 0 && read.Height >= 0 && read.Grams >= 0 && !math.IsInf(read.Grams, 0), "%v", read)
		again, err := fit.ParseKept(read.Of(form))
		require.NoError(t, err, "%q: %v", text, read)
		assert.Equal(t, read, again)
	})
}
