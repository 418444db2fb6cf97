package weather_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"chargehand/calc/unit"
	"chargehand/calc/weather"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// day is invented: a fine day with a shower at 17:00 and a clear evening.
func day() weather.Course {
	var c weather.Course
	for h := 6; h <= 22; h++ {
		air := unit.Celsius(14 + 7*math.Sin(float64(h-8)/12*math.Pi))
		rh := unit.Percent(70 - 25*math.Sin(float64(h-8)/12*math.Pi))
		rain := unit.Length(0)
		if h == 17 {
			rain = 0.6
		}
		wind := unit.Speed(3)
		c = append(c, weather.Hour{Minute: unit.Minutes(h * 60), Air: &air, RH: &rh, Wind: &wind, Rain: &rain})
	}
	return c
}

func TestCourseMeetsItsHoursAndRunsStraightBetween(t *testing.T) {
	t.Parallel()
	c := day()
	for i, h := range c {
		got, err := c.At(h.Minute)
		require.NoError(t, err)
		assert.InDelta(t, float64(*h.Air), float64(*got.Air), 1e-12)
		if i == 0 {
			continue
		}
		mid, err := c.At((h.Minute + c[i-1].Minute) / 2)
		require.NoError(t, err)
		assert.InDelta(t, float64(*h.Air+*c[i-1].Air)/2, float64(*mid.Air), 1e-9)
		assert.Equal(t, c[i-1].Rain, mid.Rain, "rain belongs to its hour")
	}
	_, err := c.At(359)
	require.Error(t, err)
	_, err = c.At(1321)
	require.Error(t, err)
	_, err = weather.Course{}.At(0)
	require.Error(t, err)
}

func TestCourseLeavesGapsUnknown(t *testing.T) {
	t.Parallel()
	air := unit.Celsius(10)
	dew := unit.Celsius(10)
	c := weather.Course{{Minute: 0, Air: &air}, {Minute: 60, Dew: &dew, Air: &air}, {Minute: 120}}
	h, err := c.At(90)
	require.NoError(t, err)
	assert.Nil(t, h.Air, "no straight line to an hour that gives nothing")
	h, err = c.At(60)
	require.NoError(t, err)
	require.NotNil(t, h.RH, "humidity from the dew point")
	assert.InDelta(t, 100, float64(*h.RH), 1e-9)
}

func TestCourseRefuses(t *testing.T) {
	t.Parallel()
	cold, hot := unit.Celsius(10), unit.Celsius(200)
	dew := unit.Celsius(11)
	rh := unit.Percent(140)
	wind, gust := unit.Speed(5), unit.Speed(3)
	for name, c := range map[string]weather.Course{
		"order":       {{Minute: 60}, {Minute: 60}},
		"air":         {{Air: &hot}},
		"dew":         {{Air: &cold, Dew: &dew}},
		"rh":          {{RH: &rh}},
		"gust":        {{Wind: &wind, Gust: &gust}},
		"week":        {{Minute: 0}, {Minute: 11000}},
		"not a time":  {{Minute: unit.Minutes(math.NaN())}},
		"second bad":  {{Minute: 0}, {Minute: 1, Air: &hot}},
		"no hours":    {},
		"rain deluge": {{Rain: ptr(unit.Length(500))}},
	} {
		require.Error(t, c.Check(), name)
	}
}

func TestRainAndTheDryWindow(t *testing.T) {
	t.Parallel()
	c := day() // rain at 17:00, known dry to 22:00 after it
	in, wet, err := c.RainAfter(10 * 60)
	require.NoError(t, err)
	assert.True(t, wet)
	assert.Equal(t, unit.Minutes(7*60), in)
	in, wet, err = c.RainAfter(17*60 + 30)
	require.NoError(t, err)
	assert.True(t, wet)
	assert.Zero(t, in)
	in, wet, err = c.RainAfter(18 * 60)
	require.NoError(t, err)
	assert.False(t, wet)
	assert.Equal(t, unit.Minutes(4*60), in, "dry as far as the course speaks")

	for _, w := range []struct {
		start, task unit.Minutes
		want        weather.Verdict
	}{
		{10 * 60, 4 * 60, weather.Go},     // done at 14:00, three hours before
		{10 * 60, 4*60 + 1, weather.Care}, // just under
		{10 * 60, 6 * 60, weather.Care},   // done at 16:00, one hour before
		{10 * 60, 6*60 + 1, weather.Stop}, //
		{17 * 60, 0, weather.Stop},        // raining
		{18 * 60, 60, weather.Go},         // three hours known dry after it
		{18 * 60, 2 * 60, weather.Care},   // two
		{18 * 60, 4 * 60, weather.Stop},   // nobody has forecast the rest
	} {
		got, err := weather.DryWindow(c, w.start, w.task)
		require.NoError(t, err)
		assert.Equal(t, w.want, got.Verdict, "%v", w)
	}

	start, ok, err := weather.NextDry(c, 15*60, 60)
	require.NoError(t, err)
	assert.True(t, ok)
	assert.Equal(t, unit.Minutes(18*60), start)
	_, ok, err = weather.NextDry(c, 15*60, 5*60)
	require.NoError(t, err)
	assert.False(t, ok)

	dry := weather.Course{{Minute: 0}, {Minute: 60}}
	_, _, err = dry.RainAfter(0)
	require.Error(t, err, "no rain was given at all")
}

func TestLeastAirOfTheNightToCome(t *testing.T) {
	t.Parallel()
	c := day()
	least, covered, err := c.Least(12*60, 24*60)
	require.NoError(t, err)
	assert.False(t, covered, "the course ends at 22:00")
	assert.InDelta(t, float64(*c[len(c)-1].Air), float64(least), 1e-9)
	_, covered, err = c.Least(12*60, 5*60)
	require.NoError(t, err)
	assert.True(t, covered)
	_, _, err = weather.Course{{Minute: 0}}.Least(0, 60)
	require.Error(t, err)
}

func TestSurfaceFollowsTheSun(t *testing.T) {
	t.Parallel()
	c := day()
	// Invented sun: up 06:00 to 20:00, 60° at 13:00.
	height := func(m unit.Minutes) unit.Angle {
		return unit.Angle(60*math.Sin((float64(m)-360)/840*math.Pi)) * unit.Degree
	}
	at := unit.Minutes(10 * 60)
	now, err := c.At(at)
	require.NoError(t, err)
	r := weather.Reading{Surface: now.Air.Add(12), Air: *now.Air, SunHeight: height(at), ClearSky: true}
	got, err := c.WithSurface(r, height)
	require.NoError(t, err)
	here, err := got.At(at)
	require.NoError(t, err)
	assert.InDelta(t, float64(r.Surface), float64(*here.Surface), 1e-9, "meets the reading")
	noon, err := got.At(13 * 60)
	require.NoError(t, err)
	assert.Greater(t, float64(noon.Surface.Sub(*noon.Air)), 12.0)
	night, err := got.At(21 * 60)
	require.NoError(t, err)
	assert.InDelta(t, -3, float64(night.Surface.Sub(*night.Air)), 1e-9)

	// Dew comes first where the margin is wider.
	in5, ok5, err := got.DewAfter(13*60, 5)
	require.NoError(t, err)
	in3, ok3, err := got.DewAfter(13*60, 3)
	require.NoError(t, err)
	assert.True(t, ok5)
	assert.True(t, ok3)
	assert.LessOrEqual(t, in5, in3)
	_, _, err = c.DewAfter(13*60, 3)
	require.Error(t, err, "no surface in the course")
}

func TestSurfaceOnADullDay(t *testing.T) {
	t.Parallel()
	c := day()
	r := weather.Reading{Surface: 12, Air: 14, SunHeight: 40 * unit.Degree}
	got, err := c.WithSurface(r, func(m unit.Minutes) unit.Angle {
		return unit.Angle(20-math.Abs(float64(m)-780)/20) * unit.Degree
	})
	require.NoError(t, err)
	for _, h := range got {
		diff := float64(h.Surface.Sub(*h.Air))
		assert.True(t, diff == -2 || diff == 0, "cooler deck carried by its difference: %g", diff)
	}
	_, err = c.WithSurface(weather.Reading{Surface: 200}, nil)
	require.Error(t, err)
}

// Beaufort scale, mph column of the printed tables; the m/s column of another
// printed table overlaps it.
func TestBeaufortPrinted(t *testing.T) {
	t.Parallel()
	raw, err := os.Open(filepath.Join("..", "..", "testdata", "worked", "covering", "covering-beaufort.csv"))
	require.NoError(t, err)
	defer raw.Close()
	r := csv.NewReader(raw)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 12)
	ends := func(s string) (float64, float64) {
		if upper, ok := strings.CutPrefix(s, "<"); ok {
			v, err := strconv.ParseFloat(upper, 64)
			require.NoError(t, err)
			return 0, v
		}
		lo, hi, ok := strings.Cut(s, "-")
		require.True(t, ok)
		a, err := strconv.ParseFloat(lo, 64)
		require.NoError(t, err)
		b, err := strconv.ParseFloat(hi, 64)
		require.NoError(t, err)
		return a, b
	}
	const rounding = 0.5 + 0.5*0.44704 // half a m/s of one column, half a mph of the other
	for i, row := range rows[1:] {
		least, most, err := weather.Beaufort(i)
		require.NoError(t, err)
		lo, hi := ends(row[3])
		assert.InDelta(t, lo, least.In(unit.MilePerHour), 1e-9, row[1])
		assert.InDelta(t, hi, most.In(unit.MilePerHour), 1e-9, row[1])
		lo, hi = ends(row[5])
		assert.InDelta(t, hi, most.In(unit.MetrePerSecond), rounding, row[1])
		assert.InDelta(t, lo, least.In(unit.MetrePerSecond), rounding, row[1])
	}
	_, _, err = weather.Beaufort(11)
	require.Error(t, err)
	_, _, err = weather.Beaufort(-1)
	require.Error(t, err)
}
