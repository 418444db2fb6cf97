package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ContactID names the joint window of contact adhesive.
const ContactID = "glue.contact/1"

// Film is how thick a coat of contact adhesive looks.
type Film string

const (
	Thin       Film = "thin"
	NormalFilm Film = "normal"
	Thick      Film = "thick"
)

// Face is one of the two coated faces of a joint.
type Face struct {
	Surface unit.Celsius
	Coated  unit.Minutes // when this face was coated, on the caller's axis
	Film    Film         // "" = normal
}

// ContactInput is everything the joint window depends on.
type ContactInput struct {
	Dry         unit.Minutes // label: touch-dry after; 0 = silent, 15 min
	Max         unit.Minutes // label: press within; 0 = silent, 45 min
	Temperature unit.Celsius // label: at this temperature (20 °C where it is silent)
	Wind        unit.Speed
	A, B        Face
	DryFactor   float64 // learned, at least 1; 0 = none
	MaxFactor   float64 // learned, at most 1; 0 = none
}

// FaceTimes are the expected times of one face on the caller's axis.
type FaceTimes struct {
	Ready unit.Minutes // touch-dry about now: time for the knuckle
	Dead  unit.Minutes // will not grab after this
}

// Which names a face.
type Which string

const (
	Neither Which = ""
	FaceA   Which = "a"
	FaceB   Which = "b"
)

// JointWindow is the time in which both faces can be pressed together.
type JointWindow struct {
	A, B  FaceTimes
	From  unit.Minutes // both faces touch-dry
	Until unit.Minutes // four fifths of the shorter life; before From when Empty
	Empty bool

	First      Which        // the slower face: coat it first; "" when they are alike
	Wait       unit.Minutes // how much later the other face should be coated than First, best
	LeastWait  unit.Minutes // and at least, for the window to open at all; 0 = no wait needed
	Open       unit.Minutes // how long the joint stays open after the best wait; 0 when NeverOpens
	NeverOpens bool         // one face dies before it is dry, and no wait helps: shade it, or don't
}

// Defaults of a silent label, shares and factors.
//
// Source: common practice, no source.
const (
	silentDry     unit.Minutes    = 15
	silentMax     unit.Minutes    = 45
	tenKelvinDry                  = 1.7 // drying time, for each 10 K
	tenKelvinDead                 = 1.5 // open life, for each 10 K
	plannedLife                   = 0.8 // of the open life
	contactMargin unit.KelvinDiff = 5   // colder face less dew point: solvent cools the film as it leaves
	thinFilm                      = 0.8
	thickFilm                     = 1.6
)

// Contact returns when two coated faces can be pressed together.
//
//	t_dry = t_dry,label · 1.7^((T_label-Tf)/10) · k_wind · k_film
//	t_max = t_max,label · 1.5^((T_label-Tf)/10) · k_wind
//	window = [ max(ready_a, ready_b), 0.8-point of min(dead_a, dead_b) ]
//
// The times only prompt the knuckle test: the taps on both faces decide.
//
// Source: common practice, no source; our own planning model.
// Units: in and out by type.
// Shape: t_dry and t_max fall with the face temperature and with wind; t_dry
// grows with the film; swapping the faces swaps the answer.
// Domain: faces -10..80 °C, label 0..45 °C, 1 ≤ dry < max ≤ 480 min, wind 0..40
// m/s, learned factors 1..5 (drying) and 0.2..1 (life).
// Ignores: damp bloom (see weather: solvent needs 5 K above the dew point).
// Errors: DomainError only. An empty window is not an error.
func Contact(in ContactInput) (JointWindow, error) {
	in, err := in.checked()
	if err != nil {
		return JointWindow{}, err
	}
	dryA, maxA, err := in.times(in.A)
	if err != nil {
		return JointWindow{}, err
	}
	dryB, maxB, err := in.times(in.B)
	if err != nil {
		return JointWindow{}, err
	}
	ca, cb := float64(in.A.Coated), float64(in.B.Coated)
	j := JointWindow{
		A:     FaceTimes{Ready: unit.Minutes(ca + dryA), Dead: unit.Minutes(ca + maxA)},
		B:     FaceTimes{Ready: unit.Minutes(cb + dryB), Dead: unit.Minutes(cb + maxB)},
		From:  unit.Minutes(math.Max(ca+dryA, cb+dryB)),
		Until: unit.Minutes(math.Min(ca+plannedLife*maxA, cb+plannedLife*maxB)),
	}
	j.Empty = j.Until <= j.From
	slowDry, slowMax, fastDry, fastMax := dryA, maxA, dryB, maxB
	switch {
	case dryA > dryB:
		j.First = FaceA
	case dryB > dryA:
		j.First = FaceB
		slowDry, slowMax, fastDry, fastMax = dryB, maxB, dryA, maxA
	}
	j.Wait = unit.Minutes(slowDry - fastDry)
	j.LeastWait = unit.Minutes(math.Max(0, slowDry-plannedLife*fastMax))
	// With the best wait both faces are ready together, so each has its own
	// life beyond its own drying left.
	open := math.Min(plannedLife*slowMax-slowDry, plannedLife*fastMax-fastDry)
	j.NeverOpens = open <= 0
	j.Open = unit.Minutes(math.Max(0, open))
	return j, nil
}

// times returns drying time and open life of a face in minutes.
func (in ContactInput) times(f Face) (dry, life float64, err error) {
	film := 1.0
	switch f.Film {
	case Thin:
		film = thinFilm
	case Thick:
		film = thickFilm
	case NormalFilm, "":
	default:
		return 0, 0, &calc.DomainError{Op: "glue.contact", Field: "film", Got: string(f.Film), Wanted: "thin, normal or thick"}
	}
	wind := contactWind.at(in.Wind.In(unit.MetrePerSecond))
	label, tf := float64(in.Temperature), float64(f.Surface)
	dry = float64(in.Dry) * timeFactor(tenKelvinDry, label, tf) * wind * film * in.DryFactor
	life = float64(in.Max) * timeFactor(tenKelvinDead, label, tf) * wind * in.MaxFactor
	return dry, life, nil
}

// checked fills in what a silent label leaves open and refuses the impossible.
func (in ContactInput) checked() (ContactInput, error) {
	const op = "glue.contact"
	if in.Dry == 0 {
		in.Dry = silentDry
	}
	if in.Max == 0 {
		in.Max = silentMax
	}
	if in.DryFactor == 0 {
		in.DryFactor = 1
	}
	if in.MaxFactor == 0 {
		in.MaxFactor = 1
	}
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"label_min", float64(in.Dry), 1, 240, "min"},
		{"max_min", float64(in.Max), 1, 480, "min"},
		{"label_c", float64(in.Temperature), 0, 45, "°C"},
		{"wind_m_s", in.Wind.In(unit.MetrePerSecond), 0, 40, "m/s"},
		{"surface_c", float64(in.A.Surface), -10, 80, "°C"},
		{"other_surface_c", float64(in.B.Surface), -10, 80, "°C"},
		{"dry_factor", in.DryFactor, 1, 5, ""},
		{"max_factor", in.MaxFactor, 0.2, 1, ""},
		{"coated_a", float64(in.A.Coated), -1e6, 1e6, "min"},
		{"coated_b", float64(in.B.Coated), -1e6, 1e6, "min"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return in, err
		}
	}
	if in.Max <= in.Dry {
		return in, &calc.DomainError{Op: op, Field: "max_min", Got: float64(in.Max), Wanted: "more than label_min"}
	}
	return in, nil
}
