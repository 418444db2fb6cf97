// Package drain takes the rain off the roof: how much of it there is, the
// gutter and outlet that carry it, and where the brackets go.
//
// # With the factor 0.9
//
// EN 12056-3 gives the nominal capacity of a gutter and takes a tenth off it
// for design. The tables of Approved Document H print the design figure, other
// tables print the nominal one, 10 % apart. Every capacity in this package is
// the design figure, the 0.9 included, unless its name says nominal.
package drain
