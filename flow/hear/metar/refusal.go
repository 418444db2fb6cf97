package metar

import "fmt"

// Key says why a text was refused, or a value left out. The strings are stable.
type Key string

// Why a text is refused.
const (
	Empty           Key = "empty"
	TooLong         Key = "too_long"
	NotAReport      Key = "not_a_report"     // no station and time where a report begins
	BadTime         Key = "bad_time"         // a day, hour or minute that does not exist
	NoValues        Key = "no_values"        // NIL, or nothing in it to use
	NoTime          Key = "no_time"          // a line that does not begin with a time
	TimeRepeated    Key = "time_repeated"    // the same time twice
	BareNumber      Key = "bare_number"      // a number without a unit and without a head
	NotUnderstood   Key = "not_understood"   // a word or sign with no meaning here
	TwoOfAKind      Key = "two_of_a_kind"    // two winds, two humidities in one line
	WindUnit        Key = "wind_unit"        // a wind with no unit anywhere
	MaybeFahrenheit Key = "maybe_fahrenheit" // over 45 with no unit
	OutOfRange      Key = "out_of_range"     // a value that cannot be
	Cells           Key = "cells"            // not as many cells as the head has columns
)

// Keys lists why a text can be refused.
func Keys() []Key {
	return []Key{Empty, TooLong, NotAReport, BadTime, NoValues, NoTime, TimeRepeated, BareNumber, NotUnderstood, TwoOfAKind, WindUnit, MaybeFahrenheit, OutOfRange, Cells}
}

// Refusal is a text that was not taken.
type Refusal struct {
	Key     Key
	Line    int    // of the text, from 1; 0 = the whole
	Heard   string // the part that was at fault, as written
	Example string // a text of the kind that is taken
}

func (r *Refusal) Error() string {
	return fmt.Sprintf("metar: %s: line %d: %q, as %q", r.Key, r.Line, r.Heard, r.Example)
}

// Warning is a value of a good report that was left out.
type Warning struct {
	Key   Key
	Group string // as written
}

// Why a value of a report is left out.
const (
	PressureImpossible Key = "pressure_impossible"
	AirImpossible      Key = "air_impossible"
	Contradiction      Key = "contradiction" // whole degrees and tenths part by more than half a degree
	DewAboveAir        Key = "dew_above_air"
	GustBelowMean      Key = "gust_below_mean"
	OffTheScale        Key = "off_the_scale" // wind over what the code can say: kept, as its least
)

// most of a text that is looked at: a day of hours with room to spare.
const (
	mostBytes = 20000
	mostLines = 400
)

const (
	reportExample = "EGHI 062050Z 31006KT CAVOK 13/07 Q1017"
	hourlyExample = "09:00 14°C 70% 10mph 0mm"
)
