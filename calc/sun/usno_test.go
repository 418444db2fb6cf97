package sun_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"chargehand/calc/sun"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// table reads a file of published values: comment lines name the source, then
// a header, then rows by column name. An empty table fails.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("..", "..", "testdata", "worked", "covering", name))
	require.NoError(t, err)
	r := csv.NewReader(bytes.NewReader(raw))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1, "%s holds no rows", name)
	var rows []map[string]string
	for _, rec := range all[1:] {
		row := map[string]string{}
		for i, col := range all[0] {
			row[col] = rec[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

func place(t *testing.T, row map[string]string) sun.Place {
	t.Helper()
	return sun.Place{
		Lat: unit.Angle(number(t, row["lat"])) * unit.Degree,
		Lon: unit.Angle(number(t, row["lon"])) * unit.Degree,
	}
}

func date(t *testing.T, s string) sun.Date {
	t.Helper()
	var d sun.Date
	_, err := fmt.Sscanf(s, "%d-%d-%d", &d.Year, &d.Month, &d.Day)
	require.NoError(t, err)
	return d
}

// minuteOf reads HH:MM or HH:MM:SS.
func minuteOf(t *testing.T, s string) float64 {
	t.Helper()
	var h, m, sec int
	n, err := fmt.Sscanf(s, "%d:%d:%d", &h, &m, &sec)
	if n < 2 {
		require.NoError(t, err)
	}
	return float64(h*60+m) + float64(sec)/60
}

func fixed(hours float64) sun.Offset {
	return func(sun.Instant) (unit.Minutes, error) { return unit.Minutes(hours * 60), nil }
}

// off returns how far an event is from a printed time, the short way round
// midnight.
func off(t *testing.T, want string, got *sun.Event, label string) float64 {
	t.Helper()
	require.NotNil(t, got, label)
	return math.Remainder(float64(got.Clock)-minuteOf(t, want), 24*60)
}

// The US Naval Observatory prints whole minutes, so agreement is half a minute
// of rounding at best; the wanted tolerance is one minute on every row.
func TestSunriseAndTwilightOfTheNavalObservatory(t *testing.T) {
	t.Parallel()
	rows, polar := 0, 0
	for _, f := range []struct {
		file     string
		twilight bool
		max      float64 // min, what was measured; the demand is 1
	}{
		{"covering-sun-usno-2020.csv", false, 0.6},
		{"covering-sun-usno-2020-civil.csv", true, 0.6},
		{"covering-sun-usno-2020-polar.csv", false, 0.9},
	} {
		worst := 0.0
		for _, row := range table(t, f.file) {
			rows++
			label := fmt.Sprintf("%s %s", row["place"], row["date_utc"])
			day, err := sun.Of(place(t, row), date(t, row["date_utc"]), sun.UTC)
			require.NoError(t, err, label)
			rise, set, light := day.Sunrise, day.Sunset, day.Sun
			if f.twilight {
				rise, set, light = day.CivilDawn, day.CivilDusk, day.Twilight
			}
			switch row["type"] {
			case "ALL_DAY":
				polar++
				assert.Equal(t, sun.AllDay, light, label)
				assert.Nil(t, rise, label)
				assert.Nil(t, set, label)
			case "ALL_NIGHT":
				polar++
				assert.Equal(t, sun.AllNight, light, label)
				assert.Nil(t, rise, label)
				assert.Nil(t, set, label)
			case "NORMAL":
				assert.Equal(t, sun.Normal, light, label)
				for _, e := range []struct {
					want string
					got  *sun.Event
				}{{row["rise_utc"], rise}, {row["set_utc"], set}} {
					d := off(t, e.want, e.got, label)
					assert.LessOrEqual(t, math.Abs(d), 1.0, "%s wanted %s", label, e.want)
					worst = math.Max(worst, math.Abs(d))
				}
			default:
				t.Fatalf("%s: unknown type %q", label, row["type"])
			}
		}
		t.Logf("%s: worst %.2f min", f.file, worst)
		assert.LessOrEqual(t, worst, f.max, f.file)
	}
	assert.GreaterOrEqual(t, rows, 240)
	assert.GreaterOrEqual(t, polar, 47)
}

func TestSunriseInLocalStandardTime(t *testing.T) {
	t.Parallel()
	for _, row := range table(t, "covering-sun-usno-2015.csv") {
		label := row["place"] + " " + row["date"]
		day, err := sun.Of(place(t, row), date(t, row["date"]), fixed(number(t, row["utc_offset_h"])))
		require.NoError(t, err)
		assert.LessOrEqual(t, math.Abs(off(t, row["sunrise"], day.Sunrise, label)), 1.0, label)
		assert.LessOrEqual(t, math.Abs(off(t, row["sunset"], day.Sunset, label)), 1.0, label)
	}
}

// NREL/TP-560-34302 check values on the Greenwich meridian, to the second.
func TestSunriseToTheSecond(t *testing.T) {
	t.Parallel()
	for _, row := range table(t, "covering-sun-greenwich-meridian.csv") {
		label := row["lat"] + " " + row["date"]
		day, err := sun.Of(place(t, row), date(t, row["date"]), sun.UTC)
		require.NoError(t, err)
		assert.LessOrEqual(t, math.Abs(off(t, row["sunrise_utc"], day.Sunrise, label)), 0.25, label)
		assert.LessOrEqual(t, math.Abs(off(t, row["sunset_utc"], day.Sunset, label)), 0.25, label)
	}
}

// A public almanac for London as carried in a library's tests: the best fit
// position is 51.50 N 0.1167 W.
func TestLondonAlmanac(t *testing.T) {
	t.Parallel()
	london := sun.Place{Lat: 51.50 * unit.Degree, Lon: -0.1167 * unit.Degree}
	for _, row := range table(t, "covering-sun-london.csv") {
		day, err := sun.Of(london, date(t, row["date"]), sun.UTC)
		require.NoError(t, err)
		for col, e := range map[string]*sun.Event{
			"civil_dawn": day.CivilDawn, "sunrise": day.Sunrise, "solar_noon": day.Noon,
			"sunset": day.Sunset, "civil_dusk": day.CivilDusk,
		} {
			if row[col] == "" {
				continue
			}
			assert.LessOrEqual(t, math.Abs(off(t, row[col], e, col)), 1.0, "%s %s", row["date"], col)
		}
	}
}

// Almanac for Computers 1990, its worked example: Wayne, New Jersey, sunrise
// 5:26 am EDT on 25 June 1990. Its short method is good to two minutes.
func TestAlmanacForComputersExample(t *testing.T) {
	t.Parallel()
	wayne := sun.Place{Lat: 40.9 * unit.Degree, Lon: -74.3 * unit.Degree}
	day, err := sun.Of(wayne, sun.Date{Year: 1990, Month: 6, Day: 25}, fixed(-4))
	require.NoError(t, err)
	assert.InDelta(t, 5*60+26, float64(day.Sunrise.Clock), 2)
}

// NREL/TP-560-34302 (Reda and Andreas, revised 2008), example.
func TestSolarPositionExample(t *testing.T) {
	t.Parallel()
	want := map[string]float64{}
	for _, row := range table(t, "covering-sun-spa-example.csv") {
		want[row["quantity"]] = number(t, row["value"])
	}
	pos, err := sun.At(
		sun.Place{Lat: 39.742476 * unit.Degree, Lon: -105.1786 * unit.Degree},
		sun.Instant{Date: sun.Date{Year: 2003, Month: 10, Day: 17}, Minute: 19*60 + 30.5}, // 12:30:30 UTC-7
	)
	require.NoError(t, err)
	// The example's own parallax is 0.0016°: its height without refraction is
	// lower by that much than one from the Earth's centre.
	t.Logf("height %.5f bearing %.5f", pos.Height.In(unit.Degree), pos.Bearing.In(unit.Degree))
	assert.InDelta(t, want["elevation_no_refraction"], pos.Height.In(unit.Degree), 0.01)
	assert.InDelta(t, want["azimuth_from_north"], pos.Bearing.In(unit.Degree), 0.01)
	assert.InDelta(t, want["zenith"], 90-pos.Height.In(unit.Degree)-want["refraction"], 0.01)
}
