// Package record sets a job's record for reading again: who said what, when on
// the site's own clock, what was shown and asked in answer, what was changed
// from what to what, and where nothing was said for a while or was erased since.
//
// It is handed events with what they made the program say; it knows neither how
// a job is folded nor how replies become lines, which differs from one way out
// to the next (see [Setter]).
package record
