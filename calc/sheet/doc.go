// Package sheet sizes the one piece of rubber: what to order for an outline
// with something different on every edge, what it weighs, and whether the
// sheet that came is big enough.
//
// # Length and width
//
// Length runs along the gutter, Width up the fall, as the roof's own length
// and depth do. Edges run clockwise from the gutter; on a rectangle they are
// gutter, left side, top, right side seen from the gutter with the roof ahead.
//
// # Two demands on an edge
//
// Wanted is what is ordered: reach, a drop or an upstand, and something to
// trim. Least is what the detail cannot do without. Between the two a sheet is
// tight, below Least it is short and is not stretched.
package sheet
