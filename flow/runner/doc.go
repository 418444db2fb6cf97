// Package runner is the only loop with effects: it loads a job, steps it,
// commits, delivers what is to be said, and arms the clocks. It owns the
// interfaces it needs; store and messages satisfy them.
//
// A long search that a job wants runs in a goroutine of its own, off the job's
// lane, and comes back as an input; Idle waits for it.
package runner
