// Package unit holds the quantities of the workshop as named float64 types.
//
// Magnitudes belong to one coherent family, millimetre, newton and N/mm², so
// that the whole millimetres people say stay exact. Types guard the doors of
// the packages (exported signatures, events, sketches); inside a formula plain
// float64 with the unit in a trailing comment is easier to read against the
// source.
//
// Constants work as those of package time do: 4*unit.Metre, 0.6*unit.KilonewtonPerM2;
// out with l.In(unit.Metre). Never multiply two quantities: use a named method
// (LineLoad.Over, Length.By) or plain floats. String is for logs only; words
// and rounding for people live in messages/text.
package unit
