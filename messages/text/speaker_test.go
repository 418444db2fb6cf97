package text

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

func TestQuantitiesAsTheyAreWritten(t *testing.T) {
	s := For("en")
	for _, c := range []struct {
		v    any
		want string
	}{
		{unit.Length(150), "150 mm"},
		{unit.Length(0), "0 mm"},
		{unit.Length(-0.0), "0 mm"},
		{unit.Length(400.5), "400.5 mm"},
		{5400 * unit.Millimetre, "5400 mm (5.40 m)"},
		{[]any{unit.Length(24), unit.Length(406), 1220 * unit.Millimetre}, "24, 406, 1220 mm"},
		{[]any{}, "none"},
		{15.95 * unit.SquareMetre, "15.9 m²"}, // the nearest tenth of 15.95 in binary lies below
		{unit.Celsius(-2), "-2 °C"},
		{unit.Percent(16), "16 %"},
		{unit.Minutes(12.9), "12 min"}, // a time on wet glue is never rounded up
		{unit.Minutes(5.7), "5.7 min"},
		{unit.Minutes(130), "2 h 10 min"},
		{unit.Minutes(23 * 24 * 60), "23 days"},
		{unit.Minutes(-3), "-3 min"},
		{0.6 * unit.KilonewtonPerM2, "0.60 kN/m²"},
		{unit.Mass(26), "26 kg"},
		{unit.Fall(0.025), "1:40"},
		{unit.Fall(0), "level"},
		{3, "3"},
		{2.5, "2.5"},
		{"as said", "as said"},
	} {
		assert.Equal(t, c.want, s.Say(talk.P("value", "value", c.v)))
	}
}

func TestWordsThatFitTheirNumber(t *testing.T) {
	s := For("en")
	assert.Equal(t, "1 day", s.Say(talk.P("word.days", "n", 1)))
	assert.Equal(t, "2 days", s.Say(talk.P("word.days", "n", 2)))
	assert.Equal(t, "0 days", s.Say(talk.P("word.days", "n", 0)))
}

// The night the clocks change has one hour twice: the offset tells which.
func TestTheHourThatComesTwice(t *testing.T) {
	s := For("en")
	at := func(utc string) string {
		m, err := time.Parse(time.RFC3339, utc)
		require.NoError(t, err)
		return s.Say(talk.P("value", "value", talk.Moment{At: m, Zone: "Europe/London"}))
	}
	// London leaves summer time on 25 October 2026 at 01:00 UTC.
	assert.Equal(t, "01:30 (+01:00)", at("2026-10-25T00:30:00Z"))
	assert.Equal(t, "01:30 (+00:00)", at("2026-10-25T01:30:00Z"))
	assert.Equal(t, "02:30", at("2026-10-25T02:30:00Z"))
	assert.Equal(t, "00:30", at("2026-10-24T23:30:00Z"))
	assert.Equal(t, "25 October 2026", s.Say(talk.P("value", "value", talk.Moment{At: time.Date(2026, 10, 24, 23, 30, 0, 0, time.UTC), Zone: "Europe/London", Date: true})))
}

func TestWhatCannotBeSaidShows(t *testing.T) {
	s := For("en")
	for _, p := range []talk.Phrase{talk.P("no.such.key"), talk.P("got", "step", talk.P("name.length")), talk.P("value", "value", struct{}{})} {
		assert.Contains(t, s.Say(p), Unsaid)
	}
	assert.NotContains(t, s.Say(talk.P("value", "value", math.Inf(1))), Unsaid, "an odd number is still told")
}

// Every language has the same arguments behind the same key.
func TestArgumentsAreThoseOfEnglish(t *testing.T) {
	args := func(s *Speaker, key string) map[string]bool {
		out := map[string]bool{}
		for _, part := range strings.Split(s.Template(key), "{")[1:] {
			slot, _, ok := strings.Cut(part, "}")
			require.True(t, ok, "%s: a brace is not closed", key)
			name, _, _ := strings.Cut(strings.Split(strings.TrimPrefix(slot, "^"), "|")[0], ":")
			out[name] = true
		}
		return out
	}
	en := For("en")
	require.Greater(t, len(en.Keys()), 400)
	for _, lang := range Languages() {
		for _, k := range en.Keys() {
			assert.Equal(t, args(en, k), args(For(lang), k), "%s %s", lang, k)
		}
	}
}

// The tables of a language are joined; a key in two of them would silently say
// the words of the last.
func TestNoKeyStandsInTwoTables(t *testing.T) {
	require.Len(t, For("en").Keys(), sum(enTables()), "a key stands in two tables")
}

func sum(tables []map[string]string) int {
	n := 0
	for _, t := range tables {
		n += len(t)
	}
	return n
}
