// Package weather grades a moment on the roof: go, care or stop, with every
// reason and its number, and looks along a day's course of hours for rain, dew
// and the end of daylight.
//
// The grades are limits of the trade, not permissions: a verdict of go says
// that none of the limits known here was met, nothing more. A stricter limit
// printed on the tin replaces the one here; a looser one does not.
//
// Reasons are keys with numbers. The sentences for people live elsewhere.
package weather
