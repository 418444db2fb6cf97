package text

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// Speaker says phrases in one language.
type Speaker struct {
	lang    string
	phrases map[string]string
	months  []string
	plural  func(n int) int // which of the words behind {n|..|..} fits
}

var speakers = map[string]*Speaker{"en": english()}

// Languages lists the languages there are, by tag.
func Languages() []string {
	out := make([]string, 0, len(speakers))
	for l := range speakers {
		out = append(out, l)
	}
	sort.Strings(out)
	return out
}

// For returns the speaker of a language; one that is not spoken gets English.
func For(lang string) *Speaker {
	if s, ok := speakers[lang]; ok {
		return s
	}
	return speakers["en"]
}

// Has reports whether the language has words for a key.
func (s *Speaker) Has(key string) bool { _, ok := s.phrases[key]; return ok }

// Keys lists every key of the language.
func (s *Speaker) Keys() []string {
	out := make([]string, 0, len(s.phrases))
	for k := range s.phrases {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// Unsaid opens what could not be said: a key without words, or an argument that
// is missing. It is seen in a test before it is seen on a roof.
const Unsaid = "‹"

// Say returns the sentence.
func (s *Speaker) Say(p talk.Phrase) string {
	t, ok := s.phrases[p.Key]
	if !ok {
		return Unsaid + p.Key + "›"
	}
	var b strings.Builder
	for {
		open := strings.IndexByte(t, '{')
		if open < 0 {
			b.WriteString(t)
			return b.String()
		}
		end := strings.IndexByte(t[open:], '}')
		if end < 0 {
			b.WriteString(t)
			return b.String()
		}
		b.WriteString(t[:open])
		b.WriteString(s.slot(t[open+1:open+end], p))
		t = t[open+end+1:]
	}
}

// slot fills one pair of braces.
func (s *Speaker) slot(slot string, p talk.Phrase) string {
	slot, capital := strings.CutPrefix(slot, "^")
	words := strings.Split(slot, "|")
	name, format, _ := strings.Cut(words[0], ":")
	v, ok := p.Args[name]
	if !ok {
		return Unsaid + p.Key + "." + name + "›"
	}
	if len(words) > 1 {
		n, isInt := v.(int)
		if f, isFloat := v.(float64); isFloat {
			n, isInt = int(math.Round(f)), true
		}
		if !isInt {
			return Unsaid + p.Key + "." + name + "›"
		}
		return fmt.Sprintf("%d %s", n, words[1+min(s.plural(n), len(words)-2)])
	}
	out := s.value(v, format)
	if capital {
		r, n := utf8.DecodeRuneInString(out)
		out = string(unicode.ToUpper(r)) + out[n:]
	}
	return out
}

func (s *Speaker) value(v any, format string) string {
	switch x := v.(type) {
	case talk.Phrase:
		return s.Say(x)
	case string:
		return x
	case int:
		return strconv.Itoa(x)
	case float64:
		return decimal(x, 2)
	case talk.Money:
		return strconv.FormatFloat(float64(x)/100, 'f', 2, 64)
	case unit.Length:
		return s.length(x, format)
	case unit.Area:
		return decimal(x.In(unit.SquareMetre), 1) + " m²"
	case unit.Volume:
		return decimal(x.In(unit.Litre), 2) + " l"
	case unit.Celsius:
		return decimal(float64(x), 1) + " °C"
	case unit.Percent:
		return decimal(float64(x), 1) + " %"
	case unit.Minutes:
		return s.minutes(float64(x))
	case unit.AreaLoad:
		return strconv.FormatFloat(x.In(unit.KilonewtonPerM2), 'f', 2, 64) + " kN/m²"
	case unit.Force:
		return strconv.FormatFloat(x.In(unit.Kilonewton), 'f', 2, 64) + " kN"
	case unit.Mass:
		return decimal(float64(x), 1) + " kg"
	case unit.Speed:
		return decimal(float64(x), 1) + " m/s"
	case unit.Fall:
		if x <= 0 {
			return s.Say(talk.P("word.level"))
		}
		return "1:" + decimal(x.OneIn(), 0)
	case talk.Moment:
		return s.moment(x)
	case []any:
		return s.list(x, format)
	}
	return Unsaid + fmt.Sprintf("%T", v) + "›"
}

// length is in mm, and in mm and m from a metre on.
func (s *Speaker) length(l unit.Length, format string) string {
	mm := decimal(float64(l), 1)
	switch {
	case format == "mm":
		return mm
	case format == "m" && l >= unit.Metre:
		return strconv.FormatFloat(l.In(unit.Metre), 'f', 2, 64) + " m"
	case l >= unit.Metre:
		return mm + " mm (" + strconv.FormatFloat(l.In(unit.Metre), 'f', 2, 64) + " m)"
	}
	return mm + " mm"
}

func (s *Speaker) list(xs []any, format string) string {
	if len(xs) == 0 {
		return s.Say(talk.P("word.none"))
	}
	allMM := true
	for _, x := range xs {
		if _, ok := x.(unit.Length); !ok {
			allMM = false
		}
	}
	out := make([]string, len(xs))
	for i, x := range xs {
		f := format
		if allMM {
			f = "mm"
		}
		out[i] = s.value(x, f)
	}
	joined := strings.Join(out, ", ")
	if allMM && format != "mm" {
		joined += " mm"
	}
	return joined
}

func (s *Speaker) minutes(m float64) string {
	switch {
	case m < 0:
		return decimal(m, 0) + " min"
	case m < 10:
		return decimal(m, 1) + " min"
	case m < 120:
		return decimal(math.Floor(m), 0) + " min"
	case m < 48*60:
		h := int(m) / 60
		return fmt.Sprintf("%d h %02d min", h, int(m)%60)
	}
	return s.Say(talk.P("word.days", "n", int(math.Round(m/60/24))))
}

// moment is told on the site's clock; in the hour that comes twice its offset
// is told too.
func (s *Speaker) moment(m talk.Moment) string {
	loc, err := time.LoadLocation(m.Zone)
	if err != nil {
		loc = time.UTC
	}
	at := m.At.In(loc)
	if m.Date {
		return fmt.Sprintf("%d %s %d", at.Day(), s.months[at.Month()-1], at.Year())
	}
	out := at.Format("15:04")
	if twice(at) {
		out += at.Format(" (-07:00)")
	}
	return out
}

// twice says whether the wall clock shows this time twice that day.
func twice(at time.Time) bool {
	for _, d := range []time.Duration{-time.Hour, time.Hour} {
		other := at.Add(d)
		_, a := at.Zone()
		_, b := other.Zone()
		if a != b && other.Format("15:04") == at.Format("15:04") {
			return true
		}
	}
	return false
}

// decimal writes a number with at most so many places and no idle zeros.
func decimal(x float64, places int) string {
	out := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(out, ".") {
		out = strings.TrimRight(strings.TrimRight(out, "0"), ".")
	}
	if out == "-0" {
		out = "0"
	}
	return out
}

// Template returns the words behind a key as they are written, for tests of the
// words themselves.
func (s *Speaker) Template(key string) string { return s.phrases[key] }
