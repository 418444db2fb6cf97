package setout

import (
	"fmt"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// LevelsID names the levels check and its version.
const LevelsID = "setout.levels/1"

// StringTolerance is how far a joist's top may stand off the string line.
// Source: common practice, no source.
const StringTolerance = 3 * unit.Millimetre

// Levels is the tops of the joists as levelled, heights above any one datum.
type Levels struct {
	Centres  []unit.Length   // where the joists stand, rising
	Stations []unit.Length   // where each was levelled, rising from the low end
	Tops     [][]unit.Length // Tops[joist][station]
}

// JoistLevel is one joist against the string line and the fall.
type JoistLevel struct {
	Off      []unit.Length // top minus string line at each station: negative is low
	Packer   []unit.Length // under its bearing to bring it to the line; 0 within StringTolerance
	Flattest unit.Fall     // least fall between two neighbouring stations, as it stands
	Whole    unit.Fall     // from end to end, as it stands
}

// Pond is where water stands on the joists as they are.
type Pond struct {
	Joist, Station int
	Depth          unit.Length
}

// LevelsCheck is what the level said.
type LevelsCheck struct {
	Joists []JoistLevel
	Low    []int // joists below the line by more than StringTolerance somewhere
	High   []int // above it
	Flat   []int // joists with a fall under LeastFall somewhere
	Ponds  []Pond
	OK     bool
}

// CheckLevels holds the tops of the joists against a string line across them
// at each station, against the least fall, and looks for water that cannot
// leave over the low end.
//
// The string line is the straight line through the tops of two joists that
// leaves the fewest joists out of tolerance; of those the one with the fewest
// high joists, then with the least to correct. So one joist that stands low is
// named, and not its neighbours for standing high.
//
// Depth of a pond: the lowest height at which water finds a way, joist to
// joist and station to station, to the low end, minus the top itself.
//
// Source: least fall BS 6229:2018; tolerance and line common practice, no source.
// Shape: adding a height to every top, or tilting all of them across the fall, changes no packer.
// Domain: 2 to 100 joists; 2 to 20 stations; tops within 5000 mm of the datum.
// Errors: DomainError only.
func CheckLevels(l Levels) (LevelsCheck, error) {
	if err := l.check(); err != nil {
		return LevelsCheck{}, err
	}
	c := LevelsCheck{Joists: make([]JoistLevel, len(l.Centres))}
	for s := range l.Stations {
		for i, off := range offLine(l.Centres, l.at(s)) {
			j := &c.Joists[i]
			packer := unit.Length(0)
			if off < -StringTolerance {
				packer = -off
			}
			j.Off, j.Packer = append(j.Off, off), append(j.Packer, packer)
		}
	}
	for i := range c.Joists {
		j := &c.Joists[i]
		j.Flattest, j.Whole = falls(l.Stations, l.Tops[i])
		low, high := false, false
		for _, off := range j.Off {
			low = low || off < -StringTolerance
			high = high || off > StringTolerance
		}
		if low {
			c.Low = append(c.Low, i)
		}
		if high {
			c.High = append(c.High, i)
		}
		if j.Flattest < LeastFall {
			c.Flat = append(c.Flat, i)
		}
	}
	c.Ponds = ponds(l.Tops)
	c.OK = len(c.Low)+len(c.High)+len(c.Flat)+len(c.Ponds) == 0
	return c, nil
}

func (l Levels) at(station int) []unit.Length {
	out := make([]unit.Length, len(l.Tops))
	for i := range l.Tops {
		out[i] = l.Tops[i][station]
	}
	return out
}

func falls(stations, tops []unit.Length) (flattest, whole unit.Fall) {
	last := len(stations) - 1
	whole = unit.Fall(float64(tops[last]-tops[0]) / float64(stations[last]-stations[0]))
	flattest = whole
	for s := 1; s <= last; s++ {
		flattest = min(flattest, unit.Fall(float64(tops[s]-tops[s-1])/float64(stations[s]-stations[s-1])))
	}
	return flattest, whole
}

func (l Levels) check() error {
	const op = "setout.levels"
	if err := rising(op, "centres_mm", l.Centres, 2, 100); err != nil {
		return err
	}
	if err := rising(op, "stations_mm", l.Stations, 2, 20); err != nil {
		return err
	}
	if len(l.Tops) != len(l.Centres) {
		return &calc.DomainError{Op: op, Field: "tops_mm", Got: len(l.Tops), Wanted: "a row of levels for each joist"}
	}
	for i, row := range l.Tops {
		field := fmt.Sprintf("tops_mm[%d]", i)
		if len(row) != len(l.Stations) {
			return &calc.DomainError{Op: op, Field: field, Got: len(row), Wanted: "a level for each station"}
		}
		for _, v := range row {
			if err := calc.Outside(op, field, float64(v), -5000, 5000, "mm"); err != nil {
				return err
			}
		}
	}
	return nil
}

// rising refuses positions that are too few, too many, or not each at least
// 10 mm past the one before.
func rising(op, field string, at []unit.Length, least, most int) error {
	if err := calc.Outside(op, field, float64(len(at)), float64(least), float64(most), "positions"); err != nil {
		return err
	}
	from := unit.Length(-1000)
	for _, x := range at {
		if err := calc.Outside(op, field, float64(x), float64(from), 25000, "mm, each at least 10 past the one before"); err != nil {
			return err
		}
		from = x + 10
	}
	return nil
}
