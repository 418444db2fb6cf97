// Package sheet sizes the one piece of rubber: what to order for an outline
// with something different on every edge, what it weighs, where seams go when
// no sheet is wide enough, what is left over for patches, and whether the
// sheet that came is big enough.
//
// # Length and width
//
// Length runs along the gutter and Width up the fall, as X and Y of package
// geom do. Edges are those of the outline, clockwise from the gutter.
//
// # Two demands on an edge
//
// Wanted is what is ordered: reach, a drop or an upstand, and something to
// trim. Least is what the detail cannot do without. Between the two a sheet is
// tight, below Least it is short, and a short sheet is not stretched.
package sheet
