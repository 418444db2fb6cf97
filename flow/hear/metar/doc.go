// Package metar hears weather that a person pastes: an aviation routine weather
// report, or hourly numbers copied from a forecast.
//
// It is pure and total: no clock, no panic, whatever the text is. What can't be
// read is a [*Refusal] with what was heard, why, and an example; a value inside a
// good report that can't be right is left out and named in Report.Warnings. It
// never picks silently between two values that contradict each other. There are
// no sentences here, only keys.
//
// # The report
//
// [Parse] reads the open form FM 15 METAR and FM 16 SPECI (WMO-No. 306, Manual on
// Codes) with the tenths group of FMH-1: station, time, wind, present weather,
// temperature, dew point and pressure. Visibility, runways, clouds and trends are
// passed over: nothing here rests on them.
//
// # Hourly numbers
//
// [Hourly] reads one line for each hour. A number carries its unit, or stands
// under a head that names its column; a bare number is never guessed at.
package metar
