package metar

import (
	"strconv"
	"strings"

	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// unitOf says what a unit written after a number makes of it.
//
// Source: WMO and SI symbols and how people type them.
var unitOf = map[string]struct {
	column Column // what a number with this unit is, when no word says
	scale  float64
	kind   string
}{
	"°": {Air, 1, "C"}, "°c": {Air, 1, "C"}, "c": {Air, 1, "C"}, "ºc": {Air, 1, "C"}, "º": {Air, 1, "C"},
	"°f": {Air, 1, "F"}, "f": {Air, 1, "F"}, "ºf": {Air, 1, "F"},
	"%":    {RH, 1, "%"},
	"m/s":  {Wind, float64(unit.MetrePerSecond), "speed"},
	"ms":   {Wind, float64(unit.MetrePerSecond), "speed"},
	"mph":  {Wind, float64(unit.MilePerHour), "speed"},
	"km/h": {Wind, float64(unit.KilometrePerHour), "speed"},
	"kmh":  {Wind, float64(unit.KilometrePerHour), "speed"},
	"kph":  {Wind, float64(unit.KilometrePerHour), "speed"},
	"kt":   {Wind, float64(unit.Knot), "speed"},
	"kts":  {Wind, float64(unit.Knot), "speed"},
	"kn":   {Wind, float64(unit.Knot), "speed"},
	"bft":  {Wind, 1, "force"},
	"mm":   {Rain, 1, "mm"},
}

// cell is a number with its unit as written.
type cell struct {
	text  string // as written
	value float64
	unit  string // lower case; "" = bare
}

// readCell splits a number from the unit after it. ok is false when it is no
// number, or the unit is not known.
func readCell(s string) (cell, bool) {
	c := cell{text: s}
	t := strings.ToLower(strings.NewReplacer("\u2212", "-", "\u2013", "-", "[", "", "]", "", "(", "", ")", "").Replace(s))
	for _, force := range []string{"bft", "f"} { // F4, Bft4: the unit in front
		if rest, ok := strings.CutPrefix(t, force); ok && allDigits(rest) && len(rest) <= 2 {
			c.value, c.unit = float64(whole(rest)), "bft"
			return c, true
		}
	}
	end := 0
	for end < len(t) && (digit(t[end]) || t[end] == '.' || t[end] == ',' || end == 0 && (t[end] == '-' || t[end] == '+')) {
		end++
	}
	v, ok := decimal(t[:end])
	if !ok {
		return cell{}, false
	}
	c.value, c.unit = v, strings.TrimSpace(t[end:])
	if c.unit == "" {
		return c, true
	}
	_, known := unitOf[c.unit]
	return c, known
}

// decimal reads digits with at most one point or comma; no exponent, no hex.
func decimal(s string) (float64, bool) {
	if len(s) == 0 || len(s) > 12 {
		return 0, false
	}
	body := strings.TrimLeft(s, "+-")
	plain := strings.Replace(body, ",", ".", 1)
	whole, part, point := strings.Cut(plain, ".")
	if !allDigits(whole) || point && !allDigits(part) {
		return 0, false
	}
	v, err := strconv.ParseFloat(plain, 64)
	if s[0] == '-' {
		v = -v
	}
	return v, err == nil
}

// put writes a cell into an hour under a column and says why it can't, if so.
// unitGiven is the unit of the column's head, "" when it has none.
func put(h *weather.Hour, col Column, c cell, unitGiven string) Key {
	if k := set(h, col, c, unitGiven); k != "" {
		return k
	}
	if (weather.Course{*h}).Check() != nil {
		return OutOfRange
	}
	return ""
}

func set(h *weather.Hour, col Column, c cell, unitGiven string) Key {
	if c.unit == "" {
		c.unit = unitGiven
	}
	u := unitOf[c.unit]
	switch col {
	case Passed:
		return ""
	case Air, Surface, Dew:
		return setTemperature(h, col, c, u.kind)
	case RH:
		if c.unit != "" && u.kind != "%" {
			return NotUnderstood
		}
		if h.RH != nil {
			return TwoOfAKind
		}
		rh := unit.Percent(c.value)
		h.RH = &rh
	case Wind, Gust:
		return setSpeed(h, col, c, u.kind, u.scale)
	case Rain:
		if c.unit != "" && u.kind != "mm" {
			return NotUnderstood
		}
		if h.Rain != nil {
			return TwoOfAKind
		}
		mm := unit.Length(c.value)
		h.Rain = &mm
	}
	return ""
}

func setTemperature(h *weather.Hour, col Column, c cell, kind string) Key {
	var t unit.Celsius
	switch {
	case kind == "C":
		t = unit.Celsius(c.value)
	case kind == "F":
		t = unit.Fahrenheit(c.value)
	case c.unit != "":
		return NotUnderstood
	case c.value > 45:
		return MaybeFahrenheit
	default:
		t = unit.Celsius(c.value)
	}
	at := map[Column]**unit.Celsius{Air: &h.Air, Surface: &h.Surface, Dew: &h.Dew}[col]
	if *at != nil {
		return TwoOfAKind
	}
	*at = &t
	return ""
}

func setSpeed(h *weather.Hour, col Column, c cell, kind string, scale float64) Key {
	var v unit.Speed
	switch kind {
	case "speed":
		v = unit.Speed(c.value * scale)
	case "force":
		_, most, err := weather.Beaufort(int(c.value))
		if err != nil || c.value != float64(int(c.value)) {
			return OutOfRange
		}
		v = most // the upper end of a force: the cautious one
	case "":
		return WindUnit
	default:
		return NotUnderstood
	}
	at := &h.Wind
	if col == Gust {
		at = &h.Gust
	}
	if *at != nil {
		return TwoOfAKind
	}
	*at = &v
	return ""
}

// readClock reads 9:00, 09:00, 0900, 9h, 9am, 9:30pm, and a bare hour where bare
// is set, as minutes after midnight.
func readClock(s string, bare bool) (unit.Minutes, bool) {
	s = strings.ToLower(strings.TrimSuffix(s, ","))
	add := 0
	if t, ok := strings.CutSuffix(s, "am"); ok {
		s, bare = t, true
		if strings.HasPrefix(s, "12") {
			add = -12
		}
	} else if t, ok := strings.CutSuffix(s, "pm"); ok {
		s, bare = t, true
		if !strings.HasPrefix(s, "12") {
			add = 12
		}
	} else if t, ok := strings.CutSuffix(s, "h"); ok {
		s, bare = t, true
	}
	hour, minute, colon := strings.Cut(s, ":")
	switch {
	case colon:
	case len(s) == 4 && allDigits(s):
		hour, minute, colon = s[:2], s[2:], true
	case !bare:
		return 0, false
	}
	if !allDigits(hour) || len(hour) > 2 || colon && (!allDigits(minute) || len(minute) != 2) {
		return 0, false
	}
	m := 0
	if colon {
		m = whole(minute)
	}
	h := whole(hour)
	if add != 0 && (h > 12 || h == 0) {
		return 0, false
	}
	h += add
	if h < 0 || h > 23 || m > 59 {
		return 0, false
	}
	return unit.Minutes(h*60 + m), true
}
