package sun_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"chargehand/calc"
	"chargehand/calc/sun"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// At the sunset that the search found, the height is the one of the definition,
// and noon lies in the middle of the day.
func TestSunsetIsWhereTheDefinitionPutsIt(t *testing.T) {
	t.Parallel()
	for _, lat := range []float64{-45, -20, 0, 35, 51.5, 60} {
		for month := 1; month <= 12; month++ {
			p := sun.Place{Lat: unit.Angle(lat) * unit.Degree}
			d := sun.Date{Year: 2026, Month: month, Day: 11}
			day, err := sun.Of(p, d, sun.UTC)
			require.NoError(t, err)
			require.NotNil(t, day.Sunset)
			pos, err := sun.At(p, day.Sunset.At)
			require.NoError(t, err)
			assert.InDelta(t, -50.0/60, pos.Height.In(unit.Degree), 0.005)
			// Half the day before and half after noon, but for the drift of the
			// declination within a day.
			before := day.Noon.At.Minute - day.Sunrise.At.Minute
			after := day.Sunset.At.Minute - day.Noon.At.Minute
			assert.InDelta(t, float64(before), float64(after), 3, "%g %d", lat, month)
		}
	}
}

func TestHigherThanAllNeighboursAtNoon(t *testing.T) {
	t.Parallel()
	p := sun.Place{Lat: 52 * unit.Degree, Lon: 13 * unit.Degree}
	for month := 1; month <= 12; month++ {
		day, err := sun.Of(p, sun.Date{Year: 2026, Month: month, Day: 3}, fixed(1))
		require.NoError(t, err)
		noon, err := sun.At(p, day.Noon.At)
		require.NoError(t, err)
		assert.InDelta(t, 180, noon.Bearing.In(unit.Degree), 0.01)
		for _, m := range []unit.Minutes{-30, 30} {
			i := day.Noon.At
			i.Minute += m
			other, err := sun.At(p, i)
			require.NoError(t, err)
			assert.Less(t, other.Height, noon.Height)
		}
	}
}

// Europe/London 2026: clocks go forward at 01:00 UTC on 29 March and back at
// 01:00 UTC on 25 October.
func TestClocksThatChangeBetweenMidnightAndSunset(t *testing.T) {
	t.Parallel()
	london := sun.Place{Lat: 51.5 * unit.Degree, Lon: -0.1167 * unit.Degree}
	for _, c := range []struct {
		date          sun.Date
		before, after unit.Minutes
	}{
		{sun.Date{Year: 2026, Month: 3, Day: 29}, 0, 60},
		{sun.Date{Year: 2026, Month: 10, Day: 25}, 60, 0},
	} {
		zone := func(i sun.Instant) (unit.Minutes, error) {
			if i.Minute < 60 {
				return c.before, nil
			}
			return c.after, nil
		}
		day, err := sun.Of(london, c.date, zone)
		require.NoError(t, err)
		plain, err := sun.Of(london, c.date, sun.UTC)
		require.NoError(t, err)
		assert.InDelta(t, float64(plain.Sunrise.Clock+c.after), float64(day.Sunrise.Clock), 0.1)
		assert.InDelta(t, float64(plain.Sunset.Clock+c.after), float64(day.Sunset.Clock), 0.1)
	}
}

// Where the sun sets just after midnight and again just before the next, the
// sunset given is the one that follows the sunrise.
func TestSunsetFollowsSunriseWhereItCan(t *testing.T) {
	t.Parallel()
	far := sun.Place{Lat: 65.7 * unit.Degree, Lon: -18.1 * unit.Degree}
	before := 0
	for k := range 60 {
		date := sun.Date{Year: 2026, Month: 6 + k/30, Day: 1 + k%30}
		d, err := sun.Of(far, date, sun.UTC)
		require.NoError(t, err)
		require.NotNil(t, d.Noon)
		if d.Sunrise == nil || d.Sunset == nil || d.Sunset.At.Minute > d.Sunrise.At.Minute {
			continue
		}
		before++
		// Only right if the sun is still up at the end of the day.
		end, err := sun.At(far, sun.Instant{Date: date, Minute: 24 * 60})
		require.NoError(t, err)
		assert.Greater(t, end.Height.In(unit.Degree), -50.0/60, "%+v", date)
	}
	assert.Positive(t, before, "the place was chosen for days on which the sun sets before it rises")
}

func TestPolesAndEdges(t *testing.T) {
	t.Parallel()
	for _, lat := range []float64{-90, 90} {
		for month := 1; month <= 12; month++ {
			p := sun.Place{Lat: unit.Angle(lat) * unit.Degree}
			d, err := sun.Of(p, sun.Date{Year: 2026, Month: month, Day: 10}, sun.UTC)
			require.NoError(t, err)
			up := (month > 3 && month < 10) == (lat > 0)
			if month == 3 || month == 9 {
				continue // the one sunrise or sunset of the year is near
			}
			if up {
				assert.Equal(t, sun.AllDay, d.Sun, "%g %d", lat, month)
			} else {
				assert.Equal(t, sun.AllNight, d.Sun, "%g %d", lat, month)
			}
		}
	}
}

func TestRefusesWhatIsNoPlaceOrDay(t *testing.T) {
	t.Parallel()
	ok := sun.Place{Lat: 51 * unit.Degree}
	day := sun.Date{Year: 2026, Month: 2, Day: 28}
	for name, c := range map[string]struct {
		p     sun.Place
		d     sun.Date
		field string
	}{
		"lat":        {sun.Place{Lat: 90.1 * unit.Degree}, day, "lat"},
		"lat nan":    {sun.Place{Lat: unit.Angle(math.NaN())}, day, "lat"},
		"lon":        {sun.Place{Lon: -181 * unit.Degree}, day, "lon"},
		"year":       {ok, sun.Date{Year: 1900, Month: 1, Day: 1}, "year"},
		"month":      {ok, sun.Date{Year: 2026, Month: 13, Day: 1}, "month"},
		"leap":       {ok, sun.Date{Year: 2026, Month: 2, Day: 29}, "day"},
		"day of 30":  {ok, sun.Date{Year: 2026, Month: 4, Day: 31}, "day"},
		"day nought": {ok, sun.Date{Year: 2026, Month: 4, Day: 0}, "day"},
	} {
		_, err := sun.Of(c.p, c.d, sun.UTC)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, name)
		assert.Equal(t, c.field, domain.Field, name)
	}
	_, err := sun.Of(ok, sun.Date{Year: 2028, Month: 2, Day: 29}, sun.UTC)
	require.NoError(t, err)
	_, err = sun.Of(ok, day, fixed(16))
	require.Error(t, err)
	boom := errors.New("no such zone")
	_, err = sun.Of(ok, day, func(sun.Instant) (unit.Minutes, error) { return 0, boom })
	require.ErrorIs(t, err, boom)
}

func TestReckonSunRefusesDates(t *testing.T) {
	t.Parallel()
	zone := func(string, sun.Instant) (unit.Minutes, error) { return 0, nil }
	for _, s := range []string{"", "2026-6-21", "2026-06-31", "21/06/2026", "2026-06-21T00", "20x6-06-21", "2026‐06‐21"} {
		_, err := sun.ReckonSun(sun.SunIn{Date: s, Zone: "UTC"}, zone)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, s)
		assert.Equal(t, "date", domain.Field)
	}
	_, err := sun.ReckonSun(sun.SunIn{Date: "2026-06-21"}, zone)
	require.Error(t, err)
}

func FuzzOf(f *testing.F) {
	f.Add(51.5, -0.1, 2026, 6, 21, 60.0)
	f.Add(78.2, 15.6, 2026, 4, 19, 120.0)
	f.Add(-90.0, 180.0, 2099, 12, 31, -720.0)
	f.Add(0.0, -180.0, 1901, 1, 1, 840.0)
	f.Fuzz(func(t *testing.T, lat, lon float64, y, m, d int, offset float64) {
		p := sun.Place{Lat: unit.Angle(lat) * unit.Degree, Lon: unit.Angle(lon) * unit.Degree}
		day, err := sun.Of(p, sun.Date{Year: y, Month: m, Day: d}, fixed(offset/60))
		if err != nil {
			return
		}
		for _, e := range []*sun.Event{day.CivilDawn, day.Sunrise, day.Noon, day.Sunset, day.CivilDusk} {
			if e != nil && !(e.Clock >= 0 && e.Clock <= 24*60) {
				t.Fatalf("clock %v of %+v", e.Clock, day)
			}
		}
		if day.Sun == sun.Normal && day.Sunrise == nil && day.Sunset == nil {
			t.Fatal("a normal day without sunrise and sunset")
		}
		if day.Sun != sun.Normal && (day.Sunrise != nil || day.Sunset != nil) {
			t.Fatal("a day of one light with a sunrise or sunset")
		}
	})
}

func BenchmarkOf(b *testing.B) {
	p := sun.Place{Lat: 51.5 * unit.Degree}
	for b.Loop() {
		if _, err := sun.Of(p, sun.Date{Year: 2026, Month: 6, Day: 21}, sun.UTC); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleOf() {
	p := sun.Place{Lat: 51.50 * unit.Degree, Lon: -0.1167 * unit.Degree}
	day, err := sun.Of(p, sun.Date{Year: 2019, Month: 8, Day: 29}, sun.UTC)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("up %02d:%02d, down %02d:%02d\n",
		int(day.Sunrise.Clock)/60, int(day.Sunrise.Clock)%60, int(day.Sunset.Clock)/60, int(day.Sunset.Clock)%60)
	// Output: up 05:07, down 18:54
}

func ExampleReckonSun() {
	winter := func(zone string, at sun.Instant) (unit.Minutes, error) { return 0, nil }
	out, err := sun.ReckonSun(sun.SunIn{Lat: 51.5, Lon: -0.1167, Date: "2015-12-25", Zone: "Europe/London"}, winter)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(*out.Sunrise, *out.Noon, *out.Sunset)
	// Output: 08:05 12:00 15:56
}
