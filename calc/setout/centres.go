package setout

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Standing is the joists as a tape finds them, measured from the datum.
type Standing struct {
	Centres    []unit.Length // centre line of each joist, rising
	Joints     []unit.Length // where the board joints will fall
	Joist      unit.Length
	JointGap   unit.Length
	MaxCentres unit.Length
}

// JointCheck is one board joint over the joist nearest to it.
type JointCheck struct {
	Joint   unit.Length
	Joist   int         // index into Standing.Centres
	Offset  unit.Length // joint minus centre line of that joist
	Bearing BoardBearing
}

// BayCheck is the distance between two neighbouring joists.
type BayCheck struct {
	From    int // index of the first of the two
	Spacing unit.Length
	Over    unit.Length // past the greatest centres allowed; 0 or less: within
}

// CentresCheck is what the tape said.
type CentresCheck struct {
	Joints []JointCheck
	Bays   []BayCheck
	OK     bool // every joint bears and every bay is within
}

// CheckCentres holds the joists that stand against the joints that will lie on
// them, one by one, and against the greatest centres.
//
// Source: geometry on LeastBearing.
// Domain: 2 to 200 joists, rising from 0 to 20500 mm and at least a joist apart; joist 25 to 150; gap 0 to 20.
// Errors: DomainError only.
func CheckCentres(s Standing) (CentresCheck, error) {
	if err := s.check(); err != nil {
		return CentresCheck{}, err
	}
	c := CentresCheck{OK: true}
	for i := 1; i < len(s.Centres); i++ {
		b := BayCheck{From: i - 1, Spacing: s.Centres[i] - s.Centres[i-1]}
		b.Over = b.Spacing - s.MaxCentres
		c.OK = c.OK && b.Over <= 0
		c.Bays = append(c.Bays, b)
	}
	for _, joint := range s.Joints {
		j := JointCheck{Joint: joint, Joist: nearest(s.Centres, joint)}
		j.Offset = joint - s.Centres[j.Joist]
		j.Bearing = Bearing(j.Offset, s.Joist, s.JointGap)
		c.OK = c.OK && j.Bearing.OK()
		c.Joints = append(c.Joints, j)
	}
	return c, nil
}

func nearest(centres []unit.Length, x unit.Length) int {
	best := 0
	for i, c := range centres {
		if math.Abs(float64(x-c)) < math.Abs(float64(x-centres[best])) {
			best = i
		}
	}
	return best
}

func (s Standing) check() error {
	const op = "setout.centres"
	if err := calc.Outside(op, "measured_mm", float64(len(s.Centres)), 2, 200, "joists"); err != nil {
		return err
	}
	if err := calc.Outside(op, "joist_mm", float64(s.Joist), 25, 150, "mm"); err != nil {
		return err
	}
	if err := calc.Outside(op, "joint_gap_mm", float64(s.JointGap), 0, 20, "mm"); err != nil {
		return err
	}
	if err := calc.Outside(op, "max_centres_mm", float64(s.MaxCentres), float64(s.Joist), 1200, "mm"); err != nil {
		return err
	}
	least := unit.Length(0)
	for _, c := range s.Centres {
		if err := calc.Outside(op, "measured_mm", float64(c), float64(least), 20500, "mm, rising and a joist apart"); err != nil {
			return err
		}
		least = c + s.Joist
	}
	for _, j := range s.Joints {
		if err := calc.Outside(op, "joints_mm", float64(j), 0, 20500, "mm"); err != nil {
			return err
		}
	}
	return nil
}
