// Package takeoff turns the quantities of a roof into the list a merchant can
// fill: what is needed, the waste on it, the packs to buy, what is left over.
//
// Waste is reckoned on the calculated quantity, never on packs; then whole
// packs are chosen. On every line
//
//	needed + waste + left over = to buy
//
// Nothing is assumed about a quantity nobody has worked out yet: its line is
// left out and its key is named in [Bill.Missing]. There are no prices in here:
// the builder's own come in with the pack sizes, and without them no cost goes
// out. Lines carry stable keys and merchant groups, not sentences.
package takeoff

// ID names this family of formulas in the record.
const ID = "takeoff.list/1"
