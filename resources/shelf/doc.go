// Package shelf says whether boxes can stand on a shelf, and where. Boxes stand
// with their edges along the shelf's, either way round, beside others that are
// already there and are not moved. The answer is exact: Yes comes with places,
// No is proved, and Unknown means that the work budget ran out.
//
// # Which positions are enough
//
// Of all packings of the same boxes take one with the least sum of all X and Y
// (there is one: positions form a closed and bounded set). In it no box can be
// pushed to the left or to the front by itself, so each touches, on its left,
// the floor's edge, a fixed box or another box, and the same in front. Follow the
// contacts to the left from box to box: X shrinks at each step, so no box comes
// twice, and the chain ends at the edge or at a fixed box. So each X is the floor's
// edge or a fixed box's right edge plus a sum of sides of different boxes; each Y
// likewise. Searching these positions alone loses nothing, with or without fixed
// boxes. (Herz 1972 and Christofides and Whitlock 1977 use such positions, called
// normal patterns, for cutting without fixed pieces.)
//
// # The search
//
// Boxes are put down in the order of their fronts, and of their left edges where
// fronts are equal, so each set of positions is met once and equal boxes are
// never exchanged. What stands is then a skyline, a step for each stretch of the
// width:
//
//	back  +----------------------+
//	      |                      |
//	      |           +-----+    |
//	      +------+    |     |    |     # bare: given up when the row moved on
//	      |      |    |     +----+
//	      |      |....|.....|....|     row: where the next box's front lies
//	      |      +----+     |    |
//	      |      |    |     |####|
//	front +------+----+-----+----+
//
// A row is filled from the left; then the row moves to the next line behind it
// at which something ends, since a box in the packing above rests on something,
// and what stays free in front of that line is wasted. In a free stretch of the
// row a box stands hard against the left end, or its left neighbour begins behind
// the row: a fixed box, or a box that rests on what stands left of the stretch
// and hangs over. The second kind needs a box deeper than that step and a position from
// the list of sums, and costs the gap; at the floor's edge it cannot happen.
//
// A branch is given up when
//   - more is wasted than the free area exceeds the boxes;
//   - lines across free stretches and lines to the back cannot be covered well
//     enough: a line is covered at most to the greatest sum of sides that is no
//     longer than it;
//   - some box that does not stand yet has no room by itself;
//   - the same skyline with the same boxes left has failed before (the whole
//     state is the key, so that nothing is mistaken for something else).
//
// Before the proof come a few short dives with other orders of the boxes, and, in
// the proof, the largest kinds by themselves: if they do not fit, all do not.
//
// # Equal boxes
//
// For one size on an empty floor (the pallet loading problem) there are an upper
// bound by bars (Barnes 1979) and patterns of blocks: the best cutting edge to
// edge by a table, with a pinwheel of five blocks around it (Bischoff and
// Dowsland 1982). What lies between the two is searched. That settles all pallets
// in the tests within DefaultBudget, among them the known 49 x 28 with 57 boxes of
// 8 x 3, which five blocks do not reach. Harder ones, of some eighty boxes and with
// hardly any bare floor, can remain Unknown.
//
// # Cost
//
// Exponential in the number of boxes at worst. A shelf with up to six boxes takes
// some microseconds and, if it is at all tight, some hundred positions. A position
// costs time in the number of steps and of fixed boxes. Nothing is kept from
// one call to the next; a caller that asks the same again should remember.
//
// # Sources
//
//   - F. W. Barnes, Packing the maximum number of m x n tiles in a large p x q
//     rectangle, Discrete Mathematics 26 (1979).
//   - E. Bischoff, W. B. Dowsland, An application of the micro to product design
//     and distribution, Journal of the Operational Research Society 33 (1982).
//   - N. Christofides, C. Whitlock, An algorithm for two-dimensional cutting
//     problems, Operations Research 25 (1977).
//   - J. C. Herz, Recursive computational procedure for two-dimensional stock
//     cutting, IBM Journal of Research and Development 16 (1972).
//
// # Reading order
//
// shelf.go (types), fit.go (the question), room.go (made ready), solve.go (what is
// tried when), search.go and skyline.go (the search), lookahead.go, sums.go and
// memo.go (what cuts it short), bound.go and blocks.go (equal boxes).
//
// Names: s search, v scene (a state), f free stretch, g step of the skyline, q
// wall (a fixed box), k kind, c choice; w and d are width and depth, x and y their
// directions, all in whole units of the room.
package shelf
