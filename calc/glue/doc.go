// Package glue is wet glue against the clock: how long a film may wait before
// the rubber goes on, how much may therefore be spread at once, in which order,
// and when to wait for a cooler hour.
//
// # Two glues that fail in opposite ways
//
// Water-based deck adhesive is laid wet, one face: it fails by laying too late.
// [Window] gives the time a film stays usable. Solvent contact adhesive is
// pressed touch-dry, two faces: it fails by pressing too early, and later by
// pressing too late. [Contact] gives the time both faces can be pressed, which
// may be none at all.
//
// # What the numbers rest on
//
// Neither rule of the deck adhesive is fitted to measured data: no published
// open-time curve was found. They are a planning start of our own. The label,
// the test square and the finger decide; a label or a bracketed test square
// outranks every default here, and the smaller of the two rules is used because
// on wide grids of conditions they differ by up to a factor of two.
//
// Minutes are spans, or minutes on an axis the caller names. Nothing here knows
// the wall clock.
package glue
