package metar

import (
	"strings"

	"chargehand/calc/unit"
)

func isStation(g string) bool {
	if len(g) != 4 {
		return false
	}
	for i := range len(g) {
		letter := g[i] >= 'A' && g[i] <= 'Z'
		if !letter && (i == 0 || !digit(g[i])) {
			return false
		}
	}
	return true
}

// isTimeGroup: day, hour, minute, Z.
func isTimeGroup(g string) bool {
	return len(g) == 7 && g[6] == 'Z' && allDigits(g[:6])
}

func (r *Report) readTime(g string) bool {
	day, hour, minute := whole(g[:2]), whole(g[2:4]), whole(g[4:6])
	if day < 1 || day > 31 || hour > 23 || minute > 59 {
		return false
	}
	r.Day, r.Minute = day, unit.Minutes(hour*60+minute)
	return true
}

// Speed units of the wind group.
var windUnits = []struct {
	suffix string
	unit   unit.Speed
}{{"KT", unit.Knot}, {"MPS", unit.MetrePerSecond}, {"KMH", unit.KilometrePerHour}}

// readWind reads dddffGffKT and its forms: VRB for the direction, slashes for
// what is missing, P before a speed over the scale.
func (r *Report) readWind(g string) bool {
	if r.Wind != nil {
		return false
	}
	for _, u := range windUnits {
		rest, ok := strings.CutSuffix(g, u.suffix)
		if !ok || len(rest) < 5 {
			continue
		}
		from := rest[:3]
		if from != "VRB" && from != "///" && !(allDigits(from) && whole(from) <= 360) {
			continue
		}
		mean, gusts, hasGust := strings.Cut(rest[3:], "G")
		m, ok := r.readSpeed(mean, u.unit, g)
		if !ok {
			continue
		}
		var gust *unit.Speed
		if hasGust {
			if gust, ok = r.readSpeed(gusts, u.unit, g); !ok {
				continue
			}
		}
		r.Wind = m
		r.Variable = from == "VRB"
		if allDigits(from) {
			a := unit.Angle(whole(from)) * unit.Degree
			r.WindFrom = &a
		}
		if gust != nil && m != nil && *gust < *m {
			r.warn(GustBelowMean, g)
			gust = nil
		}
		r.Gust = gust
		return true
	}
	return false
}

// readSpeed reads two or three digits; nil for slashes.
func (r *Report) readSpeed(s string, u unit.Speed, group string) (*unit.Speed, bool) {
	if s == "//" || s == "///" {
		return nil, true
	}
	s, over := strings.CutPrefix(s, "P")
	if (len(s) != 2 && len(s) != 3) || !allDigits(s) {
		return nil, false
	}
	if over {
		r.warn(OffTheScale, group)
	}
	v := unit.Speed(whole(s)) * u
	if v.In(unit.MetrePerSecond) > 75 {
		r.warn(OffTheScale, group)
		return nil, true
	}
	return &v, true
}

// readTemperatures reads TT/DD, M before a minus, slashes or nothing for what is
// missing.
func (r *Report) readTemperatures(g string) bool {
	a, d, ok := strings.Cut(g, "/")
	if !ok || r.AirWhole != nil {
		return false
	}
	air, ok := degrees(a)
	if !ok {
		return false
	}
	dew, ok := degrees(d)
	if !ok {
		return false
	}
	if air == nil && dew == nil {
		return a == "//" // a missing temperature, not a missing something else
	}
	r.AirWhole, r.DewWhole = r.inRange(air, g), r.inRange(dew, g)
	return true
}

func (r *Report) inRange(t *unit.Celsius, group string) *unit.Celsius {
	if t != nil && (*t < -45 || *t > 60) {
		r.warn(AirImpossible, group)
		return nil
	}
	return t
}

// degrees reads 07 or M03; nil for slashes or nothing.
func degrees(s string) (*unit.Celsius, bool) {
	if s == "" || s == "//" || s == "XX" {
		return nil, true
	}
	s, below := strings.CutPrefix(s, "M")
	if len(s) != 2 || !allDigits(s) {
		return nil, false
	}
	t := unit.Celsius(whole(s))
	if below {
		t = -t
	}
	return &t, true
}

// readTenths reads TsTTTsDDD of the remarks: sign 0 or 1, tenths of a degree.
//
// Source: FMH-1 chapter 12, hourly temperature and dew point.
func (r *Report) readTenths(g string) {
	s, ok := strings.CutPrefix(g, "T")
	if !ok || (len(s) != 4 && len(s) != 8) || !allDigits(s) || r.AirTenths != nil {
		return
	}
	read := func(s string) *unit.Celsius {
		if s[0] > '1' {
			return nil
		}
		t := unit.Celsius(float64(whole(s[1:])) / 10)
		if s[0] == '1' {
			t = -t
		}
		return r.inRange(&t, g)
	}
	r.AirTenths = read(s[:4])
	if len(s) == 8 {
		r.DewTenths = read(s[4:])
	}
}

// inchOfMercury is the conventional inch at 0 °C, in hPa.
const inchOfMercury = 33.8639

// readPressure reads Q1017 (hPa) or A2992 (hundredths of an inch of mercury).
func (r *Report) readPressure(g string) bool {
	if len(g) != 5 || r.Pressure != nil || !allDigits(g[1:]) {
		return false
	}
	var hPa float64
	switch g[0] {
	case 'Q':
		hPa = float64(whole(g[1:]))
	case 'A':
		hPa = float64(whole(g[1:])) / 100 * inchOfMercury
	default:
		return false
	}
	// The highest and lowest ever read at sea level are 1085 and 870 hPa (WMO).
	if hPa < 850 || hPa > 1100 {
		r.warn(PressureImpossible, g)
		return true
	}
	p := unit.Pressure(hPa) * unit.Hectopascal
	r.Pressure = &p
	return true
}

// Pairs of letters that may make up a present weather group.
//
// Source: WMO-No. 306, code table 4678.
var (
	falling  = lookup("DZ RA SN SG IC PL GR GS UP")
	standing = lookup("BR FG FU VA DU SA HZ PY PO SQ FC SS DS")
	manner   = lookup("MI PR BC DR BL SH TS FZ")
)

func lookup(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// isWeather says whether a group is present weather: a sign or VC, then pairs.
func isWeather(g string) bool {
	p := pairs(g)
	if len(p) == 0 || len(p) > 4 {
		return false
	}
	for _, w := range p {
		if !falling[w] && !standing[w] && !manner[w] {
			return false
		}
	}
	return true
}

// pairs splits a present weather group; nil when its letters do not pair up.
func pairs(g string) []string {
	g = strings.TrimPrefix(strings.TrimLeft(g, "+-"), "VC")
	if len(g)%2 != 0 {
		return nil
	}
	var out []string
	for ; len(g) > 0; g = g[2:] {
		out = append(out, g[:2])
	}
	return out
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

func allDigits(s string) bool {
	for i := range len(s) {
		if !digit(s[i]) {
			return false
		}
	}
	return s != ""
}

// whole reads digits; the caller has checked that they are few and nothing else.
func whole(s string) int {
	n := 0
	for i := range len(s) {
		n = 10*n + int(s[i]-'0')
	}
	return n
}
