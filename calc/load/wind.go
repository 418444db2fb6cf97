package load

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// WindID names the wind formulas and their version in the record.
const WindID = "load.wind/1"

const windOp = "load.wind"

// Roughness is the ground the wind comes over.
type Roughness struct {
	Name string
	Z0   unit.Length // roughness length
	ZMin unit.Length // below this height the pressure is that of this height
}

// roughnesses holds terrain by annex. Sources: CEN: EN 1991-1-4 Table 4.1,
// III as in Steel Buildings in Europe, Part 3, the others from memory; NL:
// annex to EN 1991-1-4, from memory, checked against the tabulated pressures
// of areas I and II; UK: its three terrains on the base standard's rows 0, II
// and III, an estimate of our own, since the UK annex reads charts instead.
var roughnesses = [...]struct {
	annex string
	Roughness
}{
	{"CEN", Roughness{"0", 3, 1000}},
	{"CEN", Roughness{"I", 10, 1000}},
	{"CEN", Roughness{"II", 50, 2000}},
	{"CEN", Roughness{"III", 300, 5000}},
	{"CEN", Roughness{"IV", 1000, 10000}},
	{"UK", Roughness{"sea", 3, 1000}},
	{"UK", Roughness{"country", 50, 2000}},
	{"UK", Roughness{"town", 300, 5000}},
	{"NL", Roughness{"coastal", 5, 1000}},
	{"NL", Roughness{"rural", 200, 4000}},
	{"NL", Roughness{"urban", 500, 7000}},
}

// Site is what the peak pressure depends on.
type Site struct {
	Annex      string      // CEN when empty, or NL, or UK
	Terrain    string      // CEN: 0, I, II, III, IV; NL: coastal, rural, urban; UK: sea, country, town
	BasicSpeed unit.Speed  // v_b: ten-minute mean at 10 m over open country, with every factor of the annex; UK: v_b,map
	Altitude   unit.Length // UK only: of the site above the sea, see AltitudeSpeedUK
	Height     unit.Length // of the roof above ground
	Orographic float64     // c_o; 0 means 1, level ground
}

// Peak is a peak pressure with the values on the way.
type Peak struct {
	Annex string // whose rules, in words
	Vb    unit.Speed
	Qb    unit.AreaLoad
	Kr    float64
	Cr    float64
	Vm    unit.Speed
	Iv    float64
	Ce    float64 // q_p/q_b
	Qp    unit.AreaLoad
}

// follows says whose rules a pressure is by.
func follows(annex string) string {
	switch annex {
	case "NL":
		return "EN 1991-1-4 with the Dutch annex"
	case "UK":
		return "EN 1991-1-4 profile with the UK altitude factor, not the exposure charts of the UK annex"
	}
	return "EN 1991-1-4, recommended values"
}

// PeakPressure returns the peak velocity pressure at a height.
//
//	q_b = ½ρ v_b²,  ρ = 1.25 kg/m³
//	k_r = 0.19 (z0/0.05)^0.07,  c_r = k_r ln(z/z0),  v_m = c_r c_o v_b
//	I_v = 1/(c_o ln(z/z0)),  q_p = [1 + 7 I_v] ½ρ v_m²
//
// Source: EN 1991-1-4 4.2 to 4.5; checked against Steel Buildings in Europe,
// Part 3, pp. 3-47, 3-48, and the Dutch table of areas I and II. For UK the
// speed takes the annex's altitude factor but the profile is the base
// standard's: the annex reads exposure from charts, and Peak.Annex says so.
// Shape: square in speed; never falls with height.
// Domain: speed 10 to 60 m/s, height 0.5 to 50 m, c_o 1 to 2.
// Errors: DomainError only.
func PeakPressure(s Site) (Peak, error) {
	annex := s.Annex
	if annex == "" {
		annex = "CEN"
	}
	r, err := roughnessOf(annex, s.Terrain)
	if err != nil {
		return Peak{}, err
	}
	co := s.Orographic
	if co == 0 {
		co = 1
	}
	if err := calc.Outside(windOp, "vb_m_s", float64(s.BasicSpeed), 10, 60, "m/s"); err != nil {
		return Peak{}, err
	}
	speed := s.BasicSpeed
	switch {
	case annex == "UK":
		if speed, err = AltitudeSpeedUK(speed, s.Altitude); err != nil {
			return Peak{}, err
		}
	case s.Altitude != 0:
		return Peak{}, &calc.DomainError{Op: windOp, Field: "altitude_m", Got: s.Altitude.In(unit.Metre), Wanted: "it left out: only the UK annex takes it here"}
	}
	if err := calc.Outside(windOp, "height_m", s.Height.In(unit.Metre), 0.5, 50, "m"); err != nil {
		return Peak{}, err
	}
	if err := calc.Outside(windOp, "orographic", co, 1, 2, ""); err != nil {
		return Peak{}, err
	}
	const rho = 1.25 // kg/m³
	z0 := r.Z0.In(unit.Metre)
	z := max(s.Height, r.ZMin).In(unit.Metre)
	vb := float64(speed)
	ln := math.Log(z / z0)
	p := Peak{Annex: follows(annex), Vb: speed, Kr: 0.19 * math.Pow(z0/0.05, 0.07)}
	p.Cr = p.Kr * ln
	vm := p.Cr * co * vb
	p.Vm = unit.Speed(vm)
	p.Iv = 1 / (co * ln)
	qb := rho / 2 * vb * vb // N/m²
	qp := (1 + 7*p.Iv) * rho / 2 * vm * vm
	p.Qb, p.Qp, p.Ce = unit.AreaLoad(qb*1e-6), unit.AreaLoad(qp*1e-6), qp/qb
	return p, nil
}

func roughnessOf(annex, terrain string) (Roughness, error) {
	wanted := ""
	for _, r := range roughnesses {
		if r.annex != annex {
			continue
		}
		if r.Name == terrain {
			return r.Roughness, nil
		}
		wanted += r.Name + " "
	}
	if wanted == "" {
		return Roughness{}, &calc.DomainError{Op: windOp, Field: "annex", Got: annex, Wanted: "CEN, NL or UK"}
	}
	return Roughness{}, &calc.DomainError{Op: windOp, Field: "terrain", Got: terrain, Wanted: "one of " + wanted + "(" + annex + ")"}
}

// AltitudeSpeedUK returns v_b of a UK site for a building up to 10 m high.
//
//	v_b = v_b,map (1 + 0.001 A)
//
// Source: UK annex to EN 1991-1-4, NA.2, from memory. Shape: linear in both.
// Domain: 15 to 40 m/s, 0 to 1500 m. Errors: DomainError only.
func AltitudeSpeedUK(onMap unit.Speed, altitude unit.Length) (unit.Speed, error) {
	if err := calc.Outside(windOp, "vb_m_s", float64(onMap), 15, 40, "m/s"); err != nil {
		return 0, err
	}
	if err := calc.Outside(windOp, "altitude_m", altitude.In(unit.Metre), 0, 1500, "m"); err != nil {
		return 0, err
	}
	return unit.Speed(float64(onMap) * (1 + 0.001*altitude.In(unit.Metre))), nil
}
