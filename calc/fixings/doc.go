// Package fixings sets out what holds a small flat roof together: anchors
// through wall plates and ledgers, holding-down and restraint straps, hangers,
// skew nails, noggins and strutting, deck screws, plugs behind an upstand
// board, screws through a bar, nails through a trim, clips and wedges of lead.
//
// Two questions are kept apart. How many and where is answered by a [Rule]: an
// end distance and a greatest spacing, from published guidance or from common
// practice. Whether that is strong enough is answered only from a resistance
// the builder reads off the packet; this package knows no anchor's strength
// and returns none. Uplift is answered only from a wind load worked out
// elsewhere.
package fixings

// The families of formulas, as the record names them.
const (
	ID         = "fixings.rows/1"     // counts and marks
	StrengthID = "fixings.strength/1" // ledgers and straps from a packet's resistance
	FastenerID = "fixings.fastener/1" // nails, lag screws and bolts in timber
)
