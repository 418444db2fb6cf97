// Package cut works out how to saw a list of pieces from bars of one or more
// stock lengths: joists, battens, trims, lead from the roll.
//
// A [Problem] says what can be bought (or lies on site), what is wanted, and
// what the saw takes. [Solve] returns a [List]: which pieces from which bar,
// the cost, a lower bound on any list's cost, and whether the two meet. When
// they meet the list is proven cheapest; when they do not, Gap says how far
// apart they are. [Check] validates a list without knowing how it was made and
// belongs between the search and anyone who is shown the list.
//
// # What a bar holds
//
// The rule of the trade, all lengths along the bar:
//
//	Σ piece + kerf·(pieces−1) ≤ bar − trim
//
// One kerf is lost between neighbouring pieces; an exactly fitting last piece
// needs no end cut. Trim is what is cut away from a bar's ends before use,
// both ends together.
//
// # How a list is found and proven
//
// Best-fit gives a first list. A linear program over ways to saw a bar, found as
// needed (package lp; P. C. Gilmore and R. E. Gomory, 1961 and 1963), says what
// fractions of bars would cost. Its duals are only believed as integers: an
// exact table (package fill) says what a bar can be worth at most under them,
// and the bound is worked out from that, so a program stopped too early or
// rounded badly can make a bound weak but never false. The bound is lifted to
// the cheapest mix of whole bars that is worth enough. Then branching, first
// along the program's advice with few departures from it (limited discrepancy
// search: W. D. Harvey and M. L. Ginsberg, 1995), then everywhere.
//
// # Counted work
//
// The search counts the table cells it touches and stops at Problem.Budget. It
// never looks at a clock, so the same problem gives the same list on a slow
// machine and a fast one.
package cut
