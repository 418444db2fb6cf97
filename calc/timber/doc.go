// Package timber checks the solid joists of a small flat roof and finds the
// longest clear span.
//
// # Three methods behind one type
//
// A [Joist] names its method. EC5 (EN 1995-1-1 with the UK set of factors) is
// what a roof is judged by. BS5268 (permissible stress) and NDS (US allowable
// stress) are here because span tables were printed with them, so the beam,
// the search and the choice of the governing condition can be judged from
// outside; their spans are not interchangeable, because limits and loads
// differ.
//
//	              own weight   design span       deflection limited
//	EC5           added        clear + bearing   final, all loads, with creep
//	BS5268        added        clear             all loads, 0.003 of the span
//	NDS           in dead      clear             imposed load only
//
// # Shape of a check
//
// Actions become beams (see beam.go: two supports and an overhanging tail,
// uniform, partial, triangular and point loads, exact), beams become stresses
// and deflections, and each condition keeps its worst case. The utilisation is
// demand over limit; the largest one names what governs.
//
// # What it leaves out
//
// Vibration, fire, the strength of what the joist sits on, hangers and other
// fixings, ponding of water, and any wind acting downwards. Wind uplift is
// worked out in package load.
package timber
