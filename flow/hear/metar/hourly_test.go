package metar_test

import (
	"fmt"
	"strings"
	"testing"

	"chargehand/calc/unit"
	"chargehand/calc/weather"
	"chargehand/flow/hear/metar"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func weatherCourse(r metar.Report) weather.Course { return weather.Course{r.Hour()} }

func hours(t *testing.T, text string) weather.Course {
	t.Helper()
	c, err := metar.Hourly(text, metar.English())
	require.NoError(t, err, text)
	require.NoError(t, c.Check())
	return c
}

// The same three hours written in the ways people paste them (invented).
func TestTheSameHoursManyWays(t *testing.T) {
	t.Parallel()
	want := hours(t, "09:00 12°C 70% 10mph gust 18mph 0mm\n10:00 13.5°C 66% 12mph gust 20mph 0mm\n11:00 14°C 60% 12mph gust 21mph 0.4mm")
	require.Len(t, want, 3)
	assert.Equal(t, unit.Minutes(9*60), want[0].Minute)
	assert.InDelta(t, 13.5, float64(*want[1].Air), 1e-9)
	assert.InDelta(t, 21, want[2].Gust.In(unit.MilePerHour), 1e-9)
	assert.InDelta(t, 0.4, float64(*want[2].Rain), 1e-9)
	for name, text := range map[string]string{
		"words":       "9am temp 12° humidity 70% wind 10 mph gusts 18 mph rain 0 mm\n10am air: 13,5 °c rh 66 % wind 12mph gust 20mph rain 0\n11am 14C 60% 12mph gust 21mph 0.4mm",
		"head":        "time temp rh wind (mph) gust (mph) rain\n9 12 70 10 18 0\n10 13.5 66 12 20 0\n11 14 60 12 21 0.4",
		"tabs":        "Time\tAir temperature (°C)\tRelative humidity (%)\tWind speed (mph)\tWind gust (mph)\tRain (mm)\n0900\t12\t70\t10\t18\t0\n1000\t13.5\t66\t12\t20\t0\n1100\t14\t60\t12\t21\t0.4\n",
		"commas":      "time,temp,rh,wind(mph),gust(mph),rain\n9,12,70,10,18,0\n10,13.5,66,12,20,0\n11,14,60,12,21,0.4",
		"bars":        "Hour | Temp (c) | Humidity | Wind (mph) | Gust (mph) | Rain\r\n9:00 | 12 | 70% | 10 | 18 | 0\r\n\r\n10:00 | 13,5 | 66% | 12 | 20 | 0\r\n11:00 | 14 | 60% | 12 | 21 | 0,4\r\n",
		"commas full": "time,temp,rh,wind,gust,rain\n09:00,12,70,10mph,18mph,0\n10:00,13.5,66,12mph,20mph,0\n11:00,14,60,12mph,21mph,0.4",
		"fahrenheit":  "09:00 53.6°F 70% 10mph gust 18mph 0mm\n10:00 56.3F 66% 12mph gust 20mph 0mm\n11:00 57.2°f 60% 12mph gust 21mph 0.4mm",
		"columns -":   "time temp rh wind (mph) gust (mph) rain surface\n9 12 70 10 18 0 -\n10 13.5 66 12 20 0 -\n11 14 60 12 21 0.4 -",
	} {
		got := hours(t, text)
		require.Len(t, got, 3, name)
		for i := range got {
			assert.Equal(t, want[i].Minute, got[i].Minute, name)
			assert.InDelta(t, float64(*want[i].Air), float64(*got[i].Air), 1e-9, name)
			assert.InDelta(t, float64(*want[i].RH), float64(*got[i].RH), 1e-9, name)
			assert.InDelta(t, float64(*want[i].Wind), float64(*got[i].Wind), 1e-9, name)
			assert.InDelta(t, float64(*want[i].Gust), float64(*got[i].Gust), 1e-9, name)
			assert.InDelta(t, float64(*want[i].Rain), float64(*got[i].Rain), 1e-9, name)
		}
	}
}

func TestUnitsOfWind(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]float64{ // m/s
		"09:00 5m/s": 5, "09:00 18km/h": 5, "09:00 18 kmh": 5, "09:00 10kn": 5.1444, "09:00 10kt": 5.1444,
		"09:00 10 mph": 4.4704, "09:00 F4": 8.0467, "09:00 4bft": 8.0467, "09:00 bft4": 8.0467,
	} {
		c := hours(t, text)
		require.NotNil(t, c[0].Wind, text)
		assert.InDelta(t, want, float64(*c[0].Wind), 1e-3, text)
	}
}

func TestTheNightAfterBelongsToTheNextDay(t *testing.T) {
	t.Parallel()
	c := hours(t, "22:00 8°\n23:30 7°\n00:30 -1°\n12am 3°\n12pm 9°")
	got := make([]unit.Minutes, len(c))
	for i := range c {
		got[i] = c[i].Minute
	}
	assert.Equal(t, []unit.Minutes{22 * 60, 23*60 + 30, 24*60 + 30, 48 * 60, 60 * 60}, got)
}

func TestDewAndSurfaceByWord(t *testing.T) {
	t.Parallel()
	c := hours(t, "09:00 temp 12° dew point 8° deck 21°")
	assert.Equal(t, unit.Celsius(12), *c[0].Air)
	assert.Equal(t, unit.Celsius(8), *c[0].Dew)
	assert.Equal(t, unit.Celsius(21), *c[0].Surface)
}

func TestPolishWords(t *testing.T) {
	t.Parallel()
	c, err := metar.Hourly("godz\ttemperatura (°C)\tWilgotność (%)\tWiatr (km/h)\tPorywy (km/h)\tOpad (mm)\n9\t12,5\t70\t18\t36\t0,2", metar.Polish())
	require.NoError(t, err)
	assert.InDelta(t, 12.5, float64(*c[0].Air), 1e-9)
	assert.InDelta(t, 5, float64(*c[0].Wind), 1e-9)
	assert.InDelta(t, 10, float64(*c[0].Gust), 1e-9)
	assert.InDelta(t, 0.2, float64(*c[0].Rain), 1e-9)
}

func TestHourlyRefuses(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]struct {
		key   metar.Key
		line  int
		heard string
	}{
		"":                                 {metar.Empty, 0, ""},
		"\n \n":                            {metar.Empty, 0, ""},
		"time temp rh":                     {metar.Empty, 0, "time temp rh"},
		"sunny all day":                    {metar.NoTime, 1, "sunny"},
		"09:00 12°\nlater 14°":             {metar.NoTime, 2, "later"},
		"09:00 12":                         {metar.BareNumber, 1, "12"},
		"09:00 wind 10":                    {metar.WindUnit, 1, "10"},
		"time wind\n9 10":                  {metar.WindUnit, 2, "10"},
		"09:00 temp 68":                    {metar.MaybeFahrenheit, 1, "68"},
		"09:00 70% 20%":                    {metar.TwoOfAKind, 1, "20%"},
		"09:00 10mph 20mph":                {metar.TwoOfAKind, 1, "20mph"},
		"09:00 12° 13°":                    {metar.TwoOfAKind, 1, "13°"},
		"09:00 1mm 2mm":                    {metar.TwoOfAKind, 1, "2mm"},
		"09:00 140%":                       {metar.OutOfRange, 1, "140%"},
		"09:00 200°C":                      {metar.OutOfRange, 1, "200°C"},
		"09:00 10mph gust 5mph":            {metar.OutOfRange, 1, "5mph"},
		"09:00 F13":                        {metar.OutOfRange, 1, "F13"},
		"09:00 12°\n09:00 13°":             {metar.TimeRepeated, 2, "09:00"},
		"09:00":                            {metar.NoValues, 1, "09:00"},
		"25:00 12°":                        {metar.NoTime, 1, "25:00"},
		"13pm 12°":                         {metar.NoTime, 1, "13pm"},
		"09:00 10-18mph":                   {metar.NotUnderstood, 1, "10-18mph"},
		"09:00 1e3°":                       {metar.NotUnderstood, 1, "1e3°"},
		"09:00 0x10°":                      {metar.NotUnderstood, 1, "0x10°"},
		"09:00 rain 40%":                   {metar.NotUnderstood, 1, "40%"},
		"09:00 time 40%":                   {metar.NotUnderstood, 1, "40%"},
		"time temp\n9 12 70":               {metar.Cells, 2, "9 12 70"},
		"time temp\nnine 12":               {metar.NoTime, 2, "nine"},
		"time temp rh\n9 12 70mph":         {metar.NotUnderstood, 2, "70mph"},
		"time time temp\n9 9 12":           {metar.TwoOfAKind, 2, "9"},
		"time temp\n9 warm":                {metar.NotUnderstood, 2, "warm"},
		strings.Repeat("09:00 12°\n", 500): {metar.TooLong, 0, ""},
		strings.Repeat("x", 30000):         {metar.TooLong, 0, ""},
		"00:00 1°" + strings.Repeat("\n23:00 1°\n00:00 1°", 8): {metar.TooLong, 16, "23:00"},
	} {
		_, err := metar.Hourly(text, metar.English())
		var refusal *metar.Refusal
		require.ErrorAs(t, err, &refusal, text)
		assert.Equal(t, want.key, refusal.Key, text)
		assert.Equal(t, want.line, refusal.Line, text)
		if want.key != metar.TooLong {
			assert.Equal(t, want.heard, refusal.Heard, text)
		}
		_, err = metar.Hourly(refusal.Example, metar.English())
		require.NoError(t, err, "an example must itself be taken")
	}
}

func FuzzHourly(f *testing.F) {
	f.Add("09:00 12°C 70% 10mph gust 18mph 0mm")
	f.Add("time temp rh wind (mph) rain\n9 12 70 10 0\n10 13 65 12 0,2")
	f.Add("Hour | Temp (c)\r\n9:00 | 12,5\n12am | -3")
	f.Add("9am F4 \u221212° dew point 3°")
	f.Add("time,temp,rh\n09:00,12,70")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := metar.Hourly(text, metar.English())
		if err != nil {
			if _, ok := err.(*metar.Refusal); !ok {
				t.Fatalf("%T", err)
			}
			return
		}
		if err := c.Check(); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
	})
}

func ExampleHourly() {
	c, err := metar.Hourly("time temp rh wind (mph)\n9 12 70 10\n10 13,5 66 12", metar.English())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, h := range c {
		fmt.Printf("%02d:%02d %.1f °C %.0f %% %.1f m/s\n",
			int(h.Minute)/60, int(h.Minute)%60, float64(*h.Air), float64(*h.RH), h.Wind.In(unit.MetrePerSecond))
	}
	// Output:
	// 09:00 12.0 °C 70 % 4.5 m/s
	// 10:00 13.5 °C 66 % 5.4 m/s
}
