package weather_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc"
	"chargehand/calc/unit"
	"chargehand/calc/weather"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fine is a moment that meets no limit.
func fine() weather.Moment {
	return weather.Moment{
		Kind: weather.Wet, Surface: 20, Air: 18, RH: 50, Min24h: 9,
		Wind: 3, Gust: 6, Moisture: ptr(unit.Percent(15)), RainIn: ptr(unit.Minutes(600)), ToSunset: ptr(unit.Minutes(400)),
	}
}

func ptr[T any](v T) *T { return &v }

func reasonOf(t *testing.T, m weather.Moment) (weather.Verdict, []weather.Reason) {
	t.Helper()
	j, err := weather.Judge(m)
	require.NoError(t, err)
	return j.Verdict, j.Reasons
}

func TestFineMomentHasNoReason(t *testing.T) {
	t.Parallel()
	v, reasons := reasonOf(t, fine())
	assert.Equal(t, weather.Go, v)
	assert.Empty(t, reasons)
}

// Each row of the table alone, on its boundaries (which belong to the better
// column) and just past them. Common practice, no source.
func TestEachLimitAlone(t *testing.T) {
	t.Parallel()
	const past = 0.01
	speed := func(mph float64) unit.Speed { return unit.Speed(mph) * unit.MilePerHour }
	for _, c := range []struct {
		key                weather.Key
		set                func(*weather.Moment, float64)
		careAt, stopAt     float64 // last value of go, last value of care
		sign               float64 // +1 worse upward
		onlyKind, skipKind weather.Kind
	}{
		{key: weather.SurfaceHigh, set: func(m *weather.Moment, v float64) { m.Surface = unit.Celsius(v) }, careAt: 30, stopAt: 45, sign: 1},
		{key: weather.SurfaceLow, set: func(m *weather.Moment, v float64) { m.Surface = unit.Celsius(v); m.Air = 4; m.RH = 40 }, careAt: 10, stopAt: 5, sign: -1},
		{key: weather.NightCold, set: func(m *weather.Moment, v float64) { m.Min24h = unit.Celsius(v) }, careAt: 7, stopAt: 5, sign: -1},
		{key: weather.HumidityHigh, set: func(m *weather.Moment, v float64) { m.RH = unit.Percent(v); m.Surface = 26 }, careAt: 75, stopAt: 85, sign: 1},
		{key: weather.MoistureHigh, set: func(m *weather.Moment, v float64) { m.Moisture = ptr(unit.Percent(v)) }, careAt: 18, stopAt: 20, sign: 1},
		{key: weather.RainSoon, set: func(m *weather.Moment, v float64) { m.RainIn = ptr(unit.Minutes(v)) }, careAt: 180, stopAt: 60, sign: -1},
		{key: weather.DaylightShort, set: func(m *weather.Moment, v float64) { m.ToSunset = ptr(unit.Minutes(v)) }, careAt: 120, stopAt: 60, sign: -1},
		{key: weather.WindMean, set: func(m *weather.Moment, v float64) { m.Wind = speed(v); m.Gust = speed(v) }, careAt: 12, stopAt: 17, sign: 1},
		{key: weather.WindGust, set: func(m *weather.Moment, v float64) { m.Gust = speed(v) }, careAt: 20, stopAt: 26, sign: 1},
	} {
		for _, at := range []struct {
			v    float64
			want weather.Verdict
		}{
			{c.careAt, weather.Go},
			{c.careAt + c.sign*past, weather.Care},
			{c.stopAt, weather.Care},
			{c.stopAt + c.sign*past, weather.Stop},
		} {
			m := fine()
			c.set(&m, at.v)
			v, reasons := reasonOf(t, m)
			assert.Equal(t, at.want, v, "%s at %g", c.key, at.v)
			if at.want == weather.Go {
				assert.Empty(t, reasons, "%s at %g", c.key, at.v)
				continue
			}
			require.NotEmpty(t, reasons, "%s at %g", c.key, at.v)
			assert.Equal(t, c.key, reasons[0].Key)
			assert.Equal(t, at.want, reasons[0].Verdict)
			assert.False(t, reasons[0].Label)
		}
	}
}

// Invented: a cold damp morning. 6 °C and 92 % give a dew point of 4.8 °C; a
// deck at 4 °C is wet.
func TestColdDampMorning(t *testing.T) {
	t.Parallel()
	m := fine()
	m.Surface, m.Air, m.RH, m.Min24h = 4, 6, 92, 2
	j, err := weather.Judge(m)
	require.NoError(t, err)
	assert.Equal(t, weather.Stop, j.Verdict)
	assert.InDelta(t, 4.8, float64(j.DewPoint), 0.05)
	var keys []weather.Key
	for _, r := range j.Reasons {
		keys = append(keys, r.Key)
	}
	assert.Equal(t, []weather.Key{weather.SurfaceLow, weather.NightCold, weather.DewMargin, weather.HumidityHigh}, keys)
	// At noon it is 11 °C, but the night to come still stops a water-based glue...
	m.Surface, m.Air, m.RH = 14, 11, 60
	v, reasons := reasonOf(t, m)
	assert.Equal(t, weather.Stop, v)
	assert.Equal(t, weather.NightCold, reasons[0].Key)
	// ... and not a solvent one.
	m.Kind = weather.Contact
	v, _ = reasonOf(t, m)
	assert.Equal(t, weather.Go, v)
}

func TestDewMarginByGlue(t *testing.T) {
	t.Parallel()
	m := fine() // dew point of 18 °C and 50 % is 7.4 °C
	j, err := weather.Judge(m)
	require.NoError(t, err)
	for _, c := range []struct {
		margin       unit.KelvinDiff
		wet, contact weather.Verdict
	}{
		{5.001, weather.Go, weather.Go},
		{4.999, weather.Care, weather.Stop},
		{3.001, weather.Care, weather.Stop},
		{2.999, weather.Stop, weather.Stop},
	} {
		m.Surface = j.DewPoint.Add(c.margin)
		m.Kind = weather.Wet
		assert.Equal(t, c.wet, verdictFor(t, m, weather.DewMargin), "%g K", c.margin)
		m.Kind = weather.Contact
		assert.Equal(t, c.contact, verdictFor(t, m, weather.DewMargin), "%g K", c.margin)
	}
}

func verdictFor(t *testing.T, m weather.Moment, k weather.Key) weather.Verdict {
	t.Helper()
	_, reasons := reasonOf(t, m)
	for _, r := range reasons {
		if r.Key == k {
			return r.Verdict
		}
	}
	return weather.Go
}

func TestStricterLabelWinsAndLooserDoesNot(t *testing.T) {
	t.Parallel()
	m := fine()
	m.Surface = 11
	m.Air, m.RH = 11, 40
	m.Label = weather.Label{SurfaceMin: ptr(unit.Celsius(12)), SurfaceMax: ptr(unit.Celsius(35)), RHMax: ptr(unit.Percent(70))}
	v, reasons := reasonOf(t, m)
	assert.Equal(t, weather.Stop, v)
	assert.Equal(t, []weather.Reason{{Key: weather.SurfaceLow, Verdict: weather.Stop, Value: 11, Limit: 12, Label: true}}, reasons)

	m.Surface = 36
	_, reasons = reasonOf(t, m)
	assert.Equal(t, []weather.Reason{{Key: weather.SurfaceHigh, Verdict: weather.Stop, Value: 36, Limit: 35, Label: true}}, reasons)

	m.Surface, m.RH = 20, 72
	_, reasons = reasonOf(t, m)
	assert.Equal(t, []weather.Reason{{Key: weather.HumidityHigh, Verdict: weather.Stop, Value: 72, Limit: 70, Label: true}}, reasons)

	// The tin says 2 °C, 60 °C and 99 %: our limits stay.
	m.Label = weather.Label{SurfaceMin: ptr(unit.Celsius(2)), SurfaceMax: ptr(unit.Celsius(60)), RHMax: ptr(unit.Percent(99))}
	m.Surface, m.Air, m.RH = 4, 1, 40
	_, reasons = reasonOf(t, m)
	assert.Equal(t, weather.Reason{Key: weather.SurfaceLow, Verdict: weather.Stop, Value: 4, Limit: 5}, reasons[0])
	m.Surface, m.Air = 46, 30
	_, reasons = reasonOf(t, m)
	assert.Equal(t, weather.Reason{Key: weather.SurfaceHigh, Verdict: weather.Stop, Value: 46, Limit: 45}, reasons[0])
}

func TestThunderFrostAndIceStopEveryKind(t *testing.T) {
	t.Parallel()
	for _, k := range []weather.Kind{weather.Wet, weather.Contact, weather.Sheet, weather.Roof} {
		for key, set := range map[weather.Key]func(*weather.Moment){
			weather.Thunder:        func(m *weather.Moment) { m.Thunder = true },
			weather.Frost:          func(m *weather.Moment) { m.Frost = true },
			weather.SurfaceFreezes: func(m *weather.Moment) { m.Surface = -0.5 },
		} {
			m := fine()
			m.Kind = k
			set(&m)
			v, reasons := reasonOf(t, m)
			assert.Equal(t, weather.Stop, v, "%s %s", k, key)
			assert.Equal(t, key, reasons[0].Key)
		}
	}
}

// 23 mph, which "upsets balance" (HSE wording), stops all roof work.
func TestWindOnARoofWithoutASheet(t *testing.T) {
	t.Parallel()
	m := fine()
	m.Kind = weather.Roof
	m.Wind, m.Gust = 23*unit.MilePerHour, 23*unit.MilePerHour
	v, _ := reasonOf(t, m)
	assert.Equal(t, weather.Care, v)
	m.Wind, m.Gust = 23.1*unit.MilePerHour, 23.1*unit.MilePerHour
	v, _ = reasonOf(t, m)
	assert.Equal(t, weather.Stop, v)
}

func TestTaskEatsIntoRainAndDaylight(t *testing.T) {
	t.Parallel()
	m := fine()
	m.RainIn, m.ToSunset, m.Task = ptr(unit.Minutes(300)), ptr(unit.Minutes(240)), 120
	v, _ := reasonOf(t, m)
	assert.Equal(t, weather.Go, v)
	m.Task = 121
	v, reasons := reasonOf(t, m)
	assert.Equal(t, weather.Care, v)
	assert.Len(t, reasons, 2)
	m.Task = 350
	_, reasons = reasonOf(t, m)
	assert.Equal(t, weather.Reason{Key: weather.RainSoon, Verdict: weather.Stop, Value: -50, Limit: 60}, reasons[0])
}

func TestUnknownIsNamedAndNotJudged(t *testing.T) {
	t.Parallel()
	m := fine()
	m.Moisture, m.RainIn, m.ToSunset = nil, nil, nil
	j, err := weather.Judge(m)
	require.NoError(t, err)
	assert.Equal(t, weather.Go, j.Verdict)
	assert.Equal(t, []weather.Key{weather.MoistureHigh, weather.RainSoon, weather.DaylightShort}, j.Unjudged)
}

func TestRefusesTheImpossible(t *testing.T) {
	t.Parallel()
	for field, spoil := range map[string]func(*weather.Moment){
		"kind":              func(m *weather.Moment) { m.Kind = "paint" },
		"surface_c":         func(m *weather.Moment) { m.Surface = 200 },
		"air_c":             func(m *weather.Moment) { m.Air = unit.Celsius(math.NaN()) },
		"rh_pct":            func(m *weather.Moment) { m.RH = 140 },
		"min_24h_c":         func(m *weather.Moment) { m.Min24h = -60 },
		"wind_m_s":          func(m *weather.Moment) { m.Wind = -1 },
		"gust_m_s":          func(m *weather.Moment) { m.Gust = 2 },
		"task_min":          func(m *weather.Moment) { m.Task = -1 },
		"moisture_pct":      func(m *weather.Moment) { m.Moisture = ptr(unit.Percent(101)) },
		"rain_in_min":       func(m *weather.Moment) { m.RainIn = ptr(unit.Minutes(math.Inf(1))) },
		"minutes_to_sunset": func(m *weather.Moment) { m.ToSunset = ptr(unit.Minutes(20000)) },
		"label_min_c":       func(m *weather.Moment) { m.Label.SurfaceMin = ptr(unit.Celsius(41)) },
		"label_max_c":       func(m *weather.Moment) { m.Label.SurfaceMax = ptr(unit.Celsius(9)) },
		"label_rh_max_pct":  func(m *weather.Moment) { m.Label.RHMax = ptr(unit.Percent(0)) },
	} {
		m := fine()
		spoil(&m)
		_, err := weather.Judge(m)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, field)
		assert.Equal(t, field, domain.Field)
	}
}

// Making any one value worse never improves the verdict.
func TestWorseWeatherNeverImprovesTheVerdict(t *testing.T) {
	t.Parallel()
	rank := map[weather.Verdict]int{weather.Go: 0, weather.Care: 1, weather.Stop: 2}
	r := rand.New(rand.NewPCG(5, 1))
	for range 5000 {
		m := weather.Moment{
			Kind:    []weather.Kind{weather.Wet, weather.Contact, weather.Sheet, weather.Roof}[r.IntN(4)],
			Surface: unit.Celsius(r.Float64()*55 - 5), Air: unit.Celsius(r.Float64() * 35), RH: unit.Percent(20 + 80*r.Float64()),
			Min24h: unit.Celsius(r.Float64() * 15), Wind: unit.Speed(r.Float64() * 9),
			Moisture: ptr(unit.Percent(10 + 12*r.Float64())), RainIn: ptr(unit.Minutes(r.Float64() * 400)), ToSunset: ptr(unit.Minutes(r.Float64() * 300)),
		}
		m.Gust = m.Wind + unit.Speed(r.Float64()*8)
		before, _ := reasonOf(t, m)
		worse := m
		switch r.IntN(7) {
		case 0:
			worse.RH = min(100, m.RH+unit.Percent(10*r.Float64()))
		case 1:
			worse.Min24h -= unit.Celsius(3 * r.Float64())
		case 2:
			worse.Wind += 2
			worse.Gust = max(worse.Gust, worse.Wind)
		case 3:
			worse.Gust += 3
		case 4:
			worse.Moisture = ptr(*m.Moisture + 2)
		case 5:
			worse.RainIn = ptr(*m.RainIn * 0.7)
		case 6:
			worse.Task = 40
		}
		after, _ := reasonOf(t, worse)
		require.GreaterOrEqual(t, rank[after], rank[before], "%+v\n%+v", m, worse)
	}
}

func FuzzReckonGo(f *testing.F) {
	f.Add(20.0, 18.0, 50.0, 9.0, 3.0, 6.0, "wet")
	f.Add(-45.0, 60.0, 1.0, -45.0, 0.0, 0.0, "contact")
	f.Add(90.0, -45.0, 100.0, 60.0, 75.0, 100.0, "roof")
	f.Add(math.NaN(), math.Inf(1), 140.0, 0.0, -1.0, 0.0, "")
	f.Fuzz(func(t *testing.T, ts, ta, rh, night, wind, gust float64, kind string) {
		out, err := weather.ReckonGo(weather.GoIn{
			SurfaceC: ts, AirC: ta, RHPct: rh, Min24hC: night, WindMS: wind, GustMS: gust, Kind: kind,
		})
		if err != nil {
			return
		}
		if out.Verdict == weather.Go && len(out.Reasons) > 0 || out.Verdict != weather.Go && len(out.Reasons) == 0 {
			t.Fatalf("%+v", out)
		}
		for _, r := range out.Reasons {
			if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
				t.Fatalf("%+v", r)
			}
		}
	})
}

func BenchmarkJudge(b *testing.B) {
	m := fine()
	for b.Loop() {
		if _, err := weather.Judge(m); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleReckonGo() {
	out, err := weather.ReckonGo(weather.GoIn{
		Kind: "wet", SurfaceC: 4, AirC: 6, RHPct: 92, Min24hC: 6, WindMS: 2, GustMS: 4,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(out.Verdict)
	for _, r := range out.Reasons {
		fmt.Printf("%s %s: %.1f, limit %g\n", r.Verdict, r.Key, r.Value, r.Limit)
	}
	// Output:
	// stop
	// stop surface_low: 4.0, limit 5
	// stop dew_margin: -0.8, limit 3
	// stop humidity_high: 92.0, limit 85
	// care night_cold: 6.0, limit 7
}
