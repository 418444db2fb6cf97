// Package flow is the conversation: what to ask, what to show, what to stop,
// what to remember. It is pure. It knows the arithmetic (calc) and nobody else:
// no clock but the input's, no files, no channel, no words of any language.
//
// # The story
//
// A job walks through nine phases, from survey to an aftercare that stays open
// for years. Its steps are data ([Spec]): something to measure (Fact), to do on
// the roof (Do), to check before it is covered (Hold), a hold that only a
// finding lifts (Gate), or work on a clock (Timed). The next question is the
// first ready step of the phase; anyone may go back, jump to a phase whose needs
// are met, skip with a reason, or put off with a date. A gate, asbestos in doubt
// or a span over its limit, comes before everything and has no way round.
//
// [Step] works out what one input does: it returns events and the whole set of
// clocks, never an error for what a person typed. [Apply] is the only way a
// [State] changes, so the state is the fold of the record. What is said is
// derived from the record alone: [Say] for each event, then [Prompt] for the open
// question. A crash between any two lines can therefore be answered after the
// restart, and two readers are told the same in their own words.
//
// Everything worked out is recomputed from the answers (calc/plan) and never
// stored as truth. What was shown is kept in Told events with the formulas that
// made it; a change is shown as old -> new, and what rested on the old number is
// opened again.
//
// # The book
//
// What outlives a job, such as prices, is a stream of its own. A job is handed
// what the book knows as it begins and keeps it in its own record (Recalled), so
// that the state of a job stays the fold of its own events, and what one job
// says changes nothing in another that is under way. An event for the book is
// written into both, in one commit.
//
// # Long searches
//
// A search that may take seconds never runs in Step. [Wanted] says which one a
// job wants; whoever runs the loop runs it beside the talk and hands the result
// in as an input, which is recorded as what was decided, not as how. It is
// checked when it is read back, and never makes a layout worse.
//
// # Traps
//
// A Heard event with a hear.ask key leaves the state waiting for a choice; any
// other event clears that. A Proposed event waits for a yes. Both make the open
// question something else than a step.
//
// The short way answers steps by itself, as events of the same input, with the
// value that "." would have taken: nothing is assumed off the record.
//
// A put-off step counts as settled for a check, not for work on top of it.
//
// Questions are named step@version; the version counts how often the step has
// been settled, so that a button from before an undo stays old.
package flow
