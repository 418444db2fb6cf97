// Package plan works the whole roof out from what is known of it.
//
// [Inputs] is a struct of optional quantities; [Reckon] is a pure function of
// it that leaves every part nil whose inputs are missing. It never sees names,
// texts or events. [Diff] says what a change of inputs moved, figure by figure.
//
// A part that a formula refuses (an input outside its domain) is nil too, and
// its refusal is in Plan.Faults under the part's name.
package plan
