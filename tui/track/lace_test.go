package track_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/pattern"
	"bypeg/pattern/patterntest"
	"bypeg/tui/track"
)

// lacePieces are pieces with every kind of stitch, as either hand works them.
func lacePieces(t testing.TB) []pattern.Order {
	var all []pattern.Order
	for _, form := range []pattern.Form{pattern.Panel, pattern.Tube} {
		p := patterntest.Build(t, patterntest.Lace(form))
		for _, hand := range []pattern.Hand{pattern.RightHand, pattern.LeftHand} {
			all = append(all, pattern.Order{Pattern: p, Way: p.WayFor(hand)})
		}
	}
	return all
}

// words are all that is said at a place.
func words(tr *track.Tracker) string {
	short := track.Aloud()
	short.Brief, short.Width = true, 30
	said := ""
	for _, v := range []track.Voice{track.Aloud(), short} {
		for _, told := range []track.Told{tr.SayNow(v), tr.SayThen(v)} {
			said += told.What + "\n" + told.Pegs + "\n" + told.Remark + "\n"
		}
	}
	return said
}

func TestALacePieceIsWorkedFromEndToEndAndBack(t *testing.T) {
	for _, o := range lacePieces(t) {
		for _, ways := range [][2]track.Action{{track.OnePeg, track.PegBack}, {track.OneRun, track.RunBack}, {track.OneRow, track.RowBack}} {
			tr := track.New(o, pattern.Start(), track.DefaultLead)
			var there []pattern.Place
			for {
				place := tr.Place()
				said := words(tr)
				assert.NotContains(t, said, "?")
				if place.Phase == pattern.Working {
					if now, ok := tr.Now(); ok {
						s := o.RunAt(place.Row, place.Done).Stitch
						require.Equal(t, s, now.Stitch)
						require.Contains(t, said, s.String(), "row %d, %d worked", place.Row, place.Done)
					}
				}
				there = append(there, place)
				if _, ok := tr.Do(ways[0]); !ok {
					break
				}
			}
			require.Equal(t, pattern.Finishing, tr.Place().Phase)
			for {
				require.NotEmpty(t, words(tr))
				if _, ok := tr.Do(ways[1]); !ok {
					break
				}
			}
			require.Equal(t, pattern.Start(), tr.Place())
			for range there[1:] {
				_, ok := tr.Do(ways[0])
				require.True(t, ok)
			}
			require.Equal(t, there[len(there)-1], tr.Place(), "there again")
		}
	}
}

func TestStitchesThatMoveLoopsAreSaidByName(t *testing.T) {
	part := func(s pattern.Stitch, n int) string { return track.Part{Stitch: s, Count: n}.String() }
	assert.Equal(t, "knit 2 together", part(pattern.RightTwo, 1))
	assert.Equal(t, "slip, slip, knit", part(pattern.LeftTwo, 1))
	assert.Equal(t, "yarn over, 2 times", part(pattern.YarnOver, 2))
	assert.Equal(t, "twisted purl 2", part(pattern.TwistedPurl, 2))
	cross := pattern.Cross{Front: 3, Back: 3, Lean: pattern.Right}.Parts()[0]
	assert.Equal(t, "cross 3 over 3, leaning right", part(cross, 6))
	assert.Equal(t, "cross 3 over 3, leaning right", track.Part{Stitch: cross, Count: 6, Whole: true}.String())
}
