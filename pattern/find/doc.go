// Package find tells the place in a piece from what its fabric shows.
//
// A person who lost the place looks and counts: ridges, the last row, the side on which the
// yarn hangs. Each of these is a Clue; Search answers with every place at which the fabric
// would show all of them, with the places that would but for one, and with the question
// that tells the places left apart at the least trouble. Nothing is changed: whoever asked
// decides.
//
// # What a person sees
//
// Every peg has a column of stitches hanging from it, the newest just under the peg. In the
// middle of a row the pegs already worked show this row's stitch there, the others still
// that of the row below; the loops on the pegs are no row. From the front a knit is a V and
// a purl a bump. So whatever is read in one column goes by how many rows are done in that
// column, and that is all the difference a row under way makes.
//
//   - Two together, three together and new stitches show what they are: a V, or a bump where
//     they are purled.
//   - A yarn over is a hole, and where strands cross it depends on where one looks: whatever
//     is said of such a stitch agrees.
//   - A slip makes no stitch: the one below is drawn up, and is counted and looked at in its
//     place. The bar that a slip with the yarn in front leaves is no bump to count.
//   - A peg that is not in use has no column. Where it is used again a new one begins. In a
//     row under way it is passed along with the next stitch.
//   - The yarn comes from the last peg that was worked; slips leave it where it was. It hangs
//     at an end where nothing but slips lies between it and that end, else between two pegs.
//   - Ridges are counted in one column (pattern.RidgeColumn), bands of bumps; the cast-on edge
//     is none.
//   - The last row is what the pegs show just under them. One who says knit has seen a V
//     somewhere along it, one who says purl a bump: a row of both agrees with either.
//   - The loops on the pegs are of the yarn that the row was worked in; a slip keeps the loop
//     below. Of the cast-on's loops the yarn is not known.
//   - Whoever stands between two zones may name either of them.
package find
