// Package geom is the plan of the roof: its outline, what stands on each edge,
// what pierces it, and how far it is from square.
//
// # Axes and order
//
// Seen from above with the low edge nearest: X runs along the low edge (the
// gutter) from its left end to the right, Y runs up the roof away from it. The
// left end of the low edge is the origin, so an outline may reach into
// negative X when the gutter is not its widest part.
//
// Edges run clockwise from the low edge, as a person walks round the roof with
// the roof at the right hand:
//
//	V2 ---- edge 2 ---> V3
//	 ^                   |
//	edge 1            edge 3
//	 |                   v
//	V1 <--- edge 0 ---- V0        edge i runs from V[i] to V[i+1]
//
// A right turn is an external corner, a left turn an internal one. Indices
// count from 0; the words for people count from 1.
//
// An internal corner here is a corner of the plan (the inside of an L). Where
// two walls stand on an external corner of the plan the sheet is folded as
// what the trade calls an internal corner: [Corner] names both edges so that
// the detail can be judged.
//
// # Which adjustment is used where
//
// Tapes never close. Three ways of closing are kept apart:
//
//   - [FourSider]: four sides and two diagonals, six readings for five
//     unknowns, all taped alike: least squares with equal weights.
//   - [Walk]: an outline whose corners are held at right angles. Each of the
//     two directions is closed by itself, its edges sharing the gap in
//     proportion to their length. That is the transit rule, and the least
//     squares answer when a tape's variance grows with its length. The compass
//     rule would turn every corner a little off square.
//   - [Compass]: an outline walked with a bearing for every edge, corners of
//     any angle: the compass (Bowditch) rule.
//
// None of them looks for the wrong reading. One condition for six readings
// can say that something is wrong, never what.
//
// # What is promised
//
// An [Outline] from a constructor is finite, clockwise, without a crossing or
// a touching side. A slice of points made by hand promises nothing: ask
// [Polygon.IsSimple].
package geom
