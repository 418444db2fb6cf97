package sun

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Date is a day of the Gregorian calendar.
type Date struct{ Year, Month, Day int }

// Instant is a moment of UTC: minutes from 0 h UTC of a date. The minutes may
// lie outside the day.
type Instant struct {
	Date   Date
	Minute unit.Minutes
}

func (d Date) check(op string) error {
	if err := calc.Outside(op, "year", float64(d.Year), 1901, 2099, ""); err != nil {
		return err
	}
	if err := calc.Outside(op, "month", float64(d.Month), 1, 12, ""); err != nil {
		return err
	}
	return calc.Outside(op, "day", float64(d.Day), 1, float64(daysIn(d.Year, d.Month)), "")
}

func daysIn(year, month int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// julianDay returns the Julian day of 0 h UTC of d.
//
// Source: Meeus, Astronomical Algorithms, 2nd ed., eq. 7.1, Gregorian calendar.
func (d Date) julianDay() float64 {
	y, m := float64(d.Year), float64(d.Month)
	if m <= 2 {
		y, m = y-1, m+12
	}
	a := math.Floor(y / 100)
	b := 2 - a + math.Floor(a/4)
	return math.Floor(365.25*(y+4716)) + math.Floor(30.6001*(m+1)) + float64(d.Day) + b - 1524.5
}

const minutesInDay = 24 * 60

// century returns Julian centuries of i from 2000 January 1.5.
//
// Universal time stands in for dynamical time: the minute or so between them
// moves the sun by 0.001° at most.
func (i Instant) century() float64 {
	return (i.Date.julianDay() + float64(i.Minute)/minutesInDay - 2451545) / 36525
}
