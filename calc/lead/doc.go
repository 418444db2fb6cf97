// Package lead cuts the cover flashing: how many pieces, how long, how heavy,
// how much they move, and what holds them.
package lead
