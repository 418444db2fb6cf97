// Package runner is the only loop with effects: it loads a job, steps it,
// commits, delivers what is to be said, and arms the clocks. It owns the
// interfaces it needs; store and messages satisfy them.
package runner
