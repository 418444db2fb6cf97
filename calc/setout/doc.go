// Package setout is what is marked on the timber before anything is fixed:
// where the joists stand so that every board end bears, how the rows of boards
// are staggered, the fall, the line the tails are cut to, and what a tape and
// a level say about the joists once they stand.
//
// # One datum
//
// Every distance runs from one datum, the outer face of the first joist, which
// is the edge of the deck. Nothing is measured from the mark before: steps
// added up carry their roundings along. Marks are kept exact, halves included,
// and rounded once, half up, where they are shown.
//
// # The board decides
//
// The module is the board as measured plus the gap at its joint, divided into
// the fewest equal bays that keep the joists within the greatest centres
// allowed. 2440 mm boards do not go with joists at 400 mm: with a 3 mm gap the
// first joint lands 41.5 mm past a joist. They go with 407.2 mm.
package setout
