package rowtext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each case draws the first fault: the row, carets under what is meant, the message
// and the hint. Source: arithmetic and the strict readings; common practice, no
// source.
func TestExpandPointsAtWhatIsWrong(t *testing.T) {
	for _, tt := range drawn {
		t.Run(tt.name, func(t *testing.T) {
			want := strings.TrimPrefix(tt.want, "\n")
			text, _, _ := strings.Cut(want, "\n")
			got := fault(text, faultsOf(t, text, tt.pegs)[0])
			assert.Equal(t, want, got)
		})
	}
}

var drawn = []struct {
	name string
	pegs int
	want string
}{
	{"a list one peg short", 12, `
K4, P3, K4
        ^^
the row needs 11 pegs and has 12: 1 left over
as written it fits 11 pegs`},
	{"a list that was meant to be repeated", 12, `
K2, P2
    ^^
the row needs 4 pegs and has 12: 8 left over
to fill the row put a * before it and rep from * to end behind it`},
	{"a list one peg too long begins to be wrong where the pegs end", 10, `
K4, P3, K4
        ^^
the row needs 11 pegs and has 10: 1 too many
as written it fits 11 pegs`},
	{"a counted bracket once too often", 15, `
(k3, p1) 4 times
^^^^^^^^^^^^^^^^
the row needs 16 pegs and has 15: 1 too many
3 repeats give 12 pegs, 4 give 16`},
	{"a bracket without a count", 18, `
k3, (p2, k2), k3
              ^^
the row needs 10 pegs and has 18: 8 left over
with the bracket 3 times it fits`},
	{"a repeat that does not come out even", 17, `
*K3, P2; rep from * to end
^^^^^^^^^^^^^^^^^^^^^^^^^^
the repeat of 5 pegs does not come out even on 17: 2 left over
3 repeats give 15 pegs, 4 give 20`},
	{"a repeat between two borders", 20, `
K3, *P4, K4; rep from * to last 7 sts, P4, K3
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
the repeat of 8 pegs does not come out even on 10: 2 left over
1 repeat gives 18 pegs, 2 give 26`},
	{"a repeat wider than its room", 7, `
k1, *p4, k4; rep from * to end
    ^^^^^^^^^^^^^^^^^^^^^^^^^^
the repeat needs 8 pegs and has 6: 2 too few
1 repeat gives 9 pegs`},
	{"borders wider than the row", 5, `
k4, p to last 3, k3
    ^^^^^^^^^^^
the parts beside this one need 4 pegs and have 2: 2 too many`},
	{"a stop before the row begins", 12, `
K to last 20 sts, P20
  ^^^^^^^^^^^^^^
the row has only 12 pegs, and this stops 20 before the end: 8 too many`},
	{"the last pegs are not worked", 9, `
K3, P to last 3 sts
      ^^^^^^^^^^^^^
the last 3 pegs are announced and none worked: 3 too few
write to end, or what is worked there`},
	{"the tail is wider than announced", 14, `
*K2, P2; rep from * to last 2 sts, K3
                                   ^^
the last 2 pegs are announced and 3 worked: 1 too many
to last 3 would match what is worked there`},
	{"the tail is narrower than announced", 14, `
k to last 4, p1, k1
             ^^^^^^
the last 4 pegs are announced and 2 worked: 2 too few
to last 2 would match what is worked there`},
	{"something behind to end", 10, `
k to end, p3
          ^^
nothing can follow a part that goes to the end
to leave room for it write to last 3`},
	{"two parts without an end", 10, `
*k1; rep from *, *p1; rep from *
                 ^^^^^^^^^^^^^^^
two parts without an end: nothing says where the first stops
say where the first ends: to last 3`},
	{"a second stop before the first", 10, `
k to last 3, p to last 5, k5
               ^^^^^^^^^
this stops where the part before it has ended already`},
	{"all beside other stitches", 10, `
k3, p all
    ^^^^^
this means the whole row, but the row has other parts
write to end, or to last 3`},
	{"a fill inside a star", 12, `
*k1, p to end; rep from * to end
     ^^^^^^^^
a stitch without an end inside a repeat
give the stitch a count`},
	{"a repeat inside a bracket", 12, `
(*k1, p1; rep from * to end) twice
 ^^^^^^^^^^^^^^^^^^^^^^^^^^
a repeat without a count inside a bracket
give the inner one a count: (k1, p1) 3 times`},
	{"a star inside a star", 12, `
*k1, *p1, k1; rep from * to end; rep from * to end
     ^
a star inside a star
use brackets for the inner one: (k1, p1) 3 times`},
	{"a repeat without its star", 11, `
Knit 3, purl 1; repeat from to last 3 stitches, knit 3
                ^^^^^^^^^^^
the repeat mark * is missing behind "from"
put a * where the repeat begins and behind from`},
	{"a star lost behind from", 12, `
*k3, p1; rep from to end
         ^^^^^^^^
the repeat mark * is missing behind "from"
write rep from *`},
	{"an empty repeat", 12, `
*; rep from * to end
^
there is nothing to repeat behind this star`},
	{"an empty bracket", 12, `
k2, () 3 times
    ^^
there is nothing in this bracket`},
	{"a bracket never closed", 14, `
(K2, P2 3 times, K2
^
this bracket is never closed`},
	{"a bracket never opened", 14, `
K2, P2) 3 times
      ^
this closing bracket was never opened`},
	{"brackets of two kinds", 8, `
[K1, P1) 4 times
       ^
this bracket closes one of another kind`},
	{"repeats that can be counted in two ways", 21, `
*K2, P2; rep from * 4 times, K2
^^^^^^^^^^^^^^^^^^^^^^^^^^^
the row needs 22 pegs (5 in all) or 18 (4 in all) and has 21`},
	{"a count of nothing", 4, `
k4, p0
     ^
the count is 0
counts begin at 1`},
	{"a bracket worked no times", 4, `
(K2, P2) 0 times, K4
         ^
the count is 0
counts begin at 1`},
	{"a count below zero", 4, `
k-2, p2
 ^^
the count is below zero
counts begin at 1`},
	{"a bracket worked less than no times", 8, `
(K2, P2) -2 times
         ^^
the count is below zero
counts begin at 1`},
	{"a broken count", 4, `
K1.5, P2
 ^^^
the count is not a whole number`},
	{"a count no row has", 20, `
(K1, P1) 999999999 times
         ^^^^^^^^^
the count is beyond the 4000 pegs a row can have`},
	{"counts that multiply beyond any row", 9, `
((k1) 4000 times) 4000 times
^^^^^^^^^^^^^^^^^^^^^^^^^^^^
the row needs a million pegs or more and has 9: far too many`},
	{"a repeat that multiplies beyond any row", 9, `
*((k1) 4000 times) 4000 times; rep from * to end
^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
the repeat needs a million pegs or more and has 9: far too few`},
	{"brackets too deep", 9, `
(((((((((((((((((k1)))))))))))))))))
                ^
brackets stand more than 16 deep`},
	{"an unknown stitch with its number", 8, `
K3, Q2, K3
    ^^
"Q2" is no stitch known here
known are k, p, sl, ew, uw, fk, tk, ktbl, yo, m1, kfb, k2tog, ssk, skp, p2tog, sk2p, c4f, c4b, none`},
	{"an l for a 1", 8, `
k7, pl
    ^^
"pl" is no stitch known here
is that p1, with a one?`},
	{"a row number", 8, `
Row 3: k8
^^^
"Row" is no stitch known here
write what is worked in one row, without its number`},
	{"a number alone", 8, `
k4, 4
    ^
a number without a stitch
write the stitch first, as in k3, or 3 times behind a bracket`},
	{"across behind a bare letter", 8, `
k, p across
   ^^^^^^^^
this can mean one stitch across, or the list again and again
write to end, or put brackets round the list`},
	{"how many times is missing", 8, `
(k2, p2) x
         ^
how many times is missing
write x 3`},
	{"a number behind a bracket is no count", 12, `
(k2, p2) 3
         ^
a number without a stitch
write the stitch first, as in k3, or 3 times behind a bracket`},
	{"all behind a bracket", 12, `
(k2, p2) all
         ^^^
how far it goes cannot be read
write to end`},
	{"a fault does not hide the repeat behind it", 12, `
*k2, q2 rep from * to end
     ^^
"q2" is no stitch known here
known are k, p, sl, ew, uw, fk, tk, ktbl, yo, m1, kfb, k2tog, ssk, skp, p2tog, sk2p, c4f, c4b, none`},
	{"an open part behind to end", 12, `
k to end, p to last 3
          ^^^^^^^^^^^
nothing can follow a part that goes to the end`},
	{"a stop one peg before the row begins", 12, `
K to last 13, P13
  ^^^^^^^^^^
the row has only 12 pegs, and this stops 13 before the end: 1 too many`},
	{"a list whose last step alone is too much", 8, `
k4, p4, k3
        ^^
the row needs 11 pegs and has 8: 3 too many
as written it fits 11 pegs`},
	{"two goals", 12, `
(k2, p2) 3 times to end
                 ^^^^^^
what goes so far cannot be told
put a star where the repeat begins`},
	{"a goal that cannot be read", 8, `
k to marked peg, p to end
  ^^^^^^^^^^^^^
no marker has been placed that the row could be worked to
write to last 3, or to end`},
	{"no instructions", 8, `
,
^
the row has no instructions
write the stitches, as in k3, p2`},
	{"no pegs", 0, `
k2
^^
a row has 1 to 4000 pegs, not 0`},
	{"more pegs than a row has", 4001, `
k2
^^
a row has 1 to 4000 pegs, not 4001`},
}

// Each was read for ever, or with a panic, when a fuzzer found it.
func TestOddTextsComeToAnEnd(t *testing.T) {
	for _, text := range []string{"k1,up1<(4000 times)", "K5,up rl to last five stitches, K5", "k1, up", "*0*twiCe…", "*0(rep", "RS)*0*\n(WS"} {
		_, err := Expand(text, 21)
		assert.Error(t, err, text)
		_, err = Read(text, Options{Pegs: 21})
		assert.Error(t, err, text)
	}
}

func TestExpandRefusesARowOverTwoLines(t *testing.T) {
	e := faultsOf(t, "k4\np4", 8)[0]
	assert.Equal(t, Error{Start: 2, End: 3, Msg: "the row goes on behind a line break", Hint: "write every row as a text of its own"}, *e)
	runs, err := Expand("\n k4, p4 \r\n", 8)
	require.NoError(t, err, "line breaks around a row are none in it")
	assert.Equal(t, "k4 p4", tally(runs))
}

func TestExpandRefusesARowTooLong(t *testing.T) {
	long := strings.Repeat("k", 2) + strings.Repeat(" ", maxText-2)
	all := faultsOf(t, long+" ", 2)
	require.Len(t, all, 1)
	assert.Equal(t, "the row is longer than 64 KiB", all[0].Msg)
}

func TestExpandRefusesAnEmptyText(t *testing.T) {
	assert.Equal(t, "the row has no instructions", faultsOf(t, "", 8)[0].Msg)
}
