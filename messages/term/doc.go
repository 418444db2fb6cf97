// Package term is the talk as plain lines: a terminal with line editing, in
// which a clock can ring while a person types, and a pipe for scripts.
package term
