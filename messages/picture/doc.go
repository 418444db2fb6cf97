// Package picture sets sketches in lines: it fits each panel to the page, finds
// a place for every word where it covers no other, and writes SVG, PNG and PDF
// from the one result.
//
// # The line language
//
// A picture must be read at arm's length on a phone, on a photocopy, and by
// people who tell no red from green. So nothing rests on colour: what a line is
// follows from its weight and its dashes, what a surface is from its hatching.
//
//   - Lines come in three weights, 1 : 2 : 4, as construction drawings have them
//     (ISO 128): narrow for what helps to read, wide for edges, heavy for what
//     the picture is about. Dashes are hidden edges, long dashes with a dot are
//     axes, with two dots what can be moved.
//   - What is cut through is hatched by its material, the same in every picture:
//     brick at 45°, timber end grain the other way and closer, board in chips,
//     mortar in points, waste crossed out.
//   - A roof's edge is one wide line and tells what stands on it by what is drawn
//     outside: nothing at a verge, a trough at a gutter, hatching at a wall,
//     stones at a parapet.
//   - Dimension lines end in oblique strokes, their figures stand above the line
//     and read from below or from the right (ISO 129). Figures are millimetres.
//
// # Words
//
// Letters are at least 2.5 mm high on a page 100 mm wide, which is 9 pixels on a
// phone 360 wide. A word is never made smaller to fit; it is moved, and a line
// leads from it to its place.
package picture
