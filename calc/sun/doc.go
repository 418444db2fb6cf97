// Package sun says when the sun rises and sets at a place on a date, when it
// is too dark to work, and how high it stands.
//
// It uses the full equations (apparent longitude, nutation, equation of time,
// each worked at the instant itself), not the short series: the short series is
// 3 to 4 minutes out in the British Isles.
//
// # Days and zones
//
// calc does not know clocks or zones. An [Instant] is a calendar day and minutes
// of it in UTC; the caller says how far local time is from UTC, by a func that
// is asked for the instant itself, because on two days of the year the answer
// changes between midnight and sunset.
package sun
