// Package deck lays the boards of a flat roof deck: which pieces in which row,
// from which board each is sawn, and how few boards do.
//
// # The rules
//
// Common practice, no source, fixed so that two searches mean the same thing:
//
//   - Rows run along x, joists along y. Support lines are the joist centre
//     lines and the two deck edges. Lines nearer to an edge than 100 mm belong
//     to that edge's own joist.
//   - n = ⌊(depth+row gap)/(board width+row gap)⌋ rows are full width. What is
//     left, depth − n·(board width+row gap), is one more row ripped to that
//     width, the last one. No other row is ripped.
//   - A row is a run of pieces from line to line. A piece gives up half the end
//     gap at each joint and nothing at the deck edges, spans at least MinBays
//     bays and is no longer than a board.
//   - Joints of neighbouring rows are at least Stagger lines apart, and at least
//     StaggerLength.
//   - Boards are not turned. One kerf is lost between neighbouring pieces, along
//     and across; an exactly fitting last piece needs no cut.
//   - Boards are cross-cut, ripped and cross-cut again, no deeper. Any offcut
//     may serve any row, any rectangle of the deck, or a strip.
//   - Upstand strips are cut from the same boards and never jointed.
//
// Fewest boards is the aim, then fewest pieces.
//
// # What is promised
//
// A [Layout] carries a lower bound on the boards and says whether it is met.
// [Check] validates a layout without knowing how it was made. The search counts
// its work and never looks at a clock.
package deck
