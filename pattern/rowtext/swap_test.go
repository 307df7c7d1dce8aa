package rowtext

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"bypeg/pattern"
)

// A wrong-side row in order of work needs its knits and purls swapped and nothing
// reversed: published, the converting-patterns page of a loom-knitting help site. K2, P3,
// K1 on the wrong side is P2, K3, P1 on the loom.
func TestSwappedTurnsKnitsIntoPurls(t *testing.T) {
	got, err := Swapped([]Run{{Knit, 2}, {Purl, 3}, {Knit, 1}})
	require.NoError(t, err)
	require.Equal(t, []Run{{Purl, 2}, {Knit, 3}, {Purl, 1}}, got)
}

// Which step of a wrong-side row makes which step of the right side: common practice, no
// source.
func TestSwappedKnowsEachStep(t *testing.T) {
	for from, to := range map[Stitch]Stitch{
		Knit: Purl, KnitTBL: PurlTBL, KnitTwo: PurlTwo, SlipSlipKnit: SlipSlipPurl, SlipBack: SlipFront,
		YarnOver: YarnOver, MakeOne: MakeOne, Slip: Slip, NoStitch: NoStitch,
	} {
		got, err := Swapped([]Run{{from, 3}})
		require.NoError(t, err)
		require.Equal(t, []Run{{to, 3}}, got)
		got, err = Swapped(got)
		require.NoError(t, err)
		require.Equal(t, []Run{{from, 3}}, got)
	}
	got, err := Swapped([]Run{{SlipKnitPass, 2}, {SlipSlipKnit, 1}})
	require.NoError(t, err)
	require.Equal(t, []Run{{SlipSlipPurl, 3}}, got)
}

func TestStepsWithoutACounterpartAreNamed(t *testing.T) {
	c4f := CrossStitch(pattern.Cross{Front: 2, Back: 2})
	purled := CrossStitch(pattern.Cross{Front: 2, Back: 1, PurlBack: true})
	for _, s := range []Stitch{EWrap, UWrap, FlatKnit, TrueKnit, KnitTwice, SlipTwoPass, c4f, purled} {
		_, err := Swapped([]Run{{Knit, 2}, {s, 1}, {EWrap, 1}})
		var none *NoCounterpart
		require.ErrorAs(t, err, &none)
		require.Equal(t, NoCounterpart{s, 1}, *none)
		require.ErrorContains(t, err, s.Name())
	}
}

// swappable are the steps that come back as they were.
var swappable = []Stitch{
	NoStitch, Knit, Purl, Slip, SlipBack, SlipFront, KnitTBL, PurlTBL, YarnOver, MakeOne,
	KnitTwo, PurlTwo, SlipSlipKnit, SlipSlipPurl,
}

func TestNeedlesToLoomToNeedlesIsTheIdentity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var runs []Run
		for range rapid.IntRange(0, 20).Draw(t, "runs") {
			runs = push(runs, Run{rapid.SampledFrom(swappable).Draw(t, "stitch"), rapid.IntRange(1, 9).Draw(t, "count")})
		}
		once, err := Swapped(runs)
		require.NoError(t, err)
		require.Equal(t, In(runs), In(once))
		require.Equal(t, Out(runs), Out(once))
		twice, err := Swapped(once)
		require.NoError(t, err)
		require.Equal(t, append([]Run{}, runs...), twice)
	})
}
