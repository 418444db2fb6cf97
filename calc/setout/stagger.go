package setout

import (
	"math"

	"chargehand/calc/unit"
)

const (
	// LeastPieceBays is the shortest board allowed, in joist bays.
	// Source: LABC Warranty, floor decks: at least two joist spacings.
	LeastPieceBays = 2
	// LeastStagger is the least distance between the end joints of neighbouring
	// rows: common practice, no source.
	LeastStagger = 400 * unit.Millimetre
)

// Stagger is how every second row starts.
type Stagger struct {
	Bays     int         // the first piece of a staggered row spans this many bays
	Distance unit.Length // least distance between the end joints of neighbouring rows
	Half     bool        // the first piece is half a board: both halves of one cut start a row
	OK       bool        // a stagger exists that keeps LeastPieceBays and LeastStagger
}

// StaggerFor returns the first piece of every second row when a full board
// spans n bays of s, so that its end and every end after it land on a joist.
// Half a board only does so for an even n; for an odd n the nearest whole
// number of bays below the half is taken.
//
//	first piece p = ⌊n/2⌋, at least 2; distance min(p, n − p)·s
//
// Source: stagger of 400 mm common practice, no source; two spacings: LABC Warranty, floor decks.
// Shape: 2 ≤ p < n when OK.
// Domain: n ≥ 1, s > 0; there is none for n ≤ 2 and OK is false.
// Errors: none.
func StaggerFor(n int, s unit.Length) Stagger {
	p := max(n/2, LeastPieceBays)
	if p >= n {
		return Stagger{}
	}
	distance := unit.Length(math.Min(float64(p), float64(n-p)) * float64(s))
	return Stagger{Bays: p, Distance: distance, Half: 2*p == n, OK: distance >= LeastStagger}
}
