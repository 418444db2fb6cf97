package metar_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"chargehand/calc/unit"
	"chargehand/flow/hear/metar"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// published reads the reports with their published decoding; sources are named
// on each row.
func published(t testing.TB) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "..", "testdata", "worked", "covering", "more-metar.csv"))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 15, "few reports")
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

func sameOrMissing[T ~float64](t *testing.T, want string, got *T, tol float64, label string) {
	t.Helper()
	if want == "" {
		assert.Nil(t, got, label)
		return
	}
	if assert.NotNil(t, got, label) {
		assert.InDelta(t, number(t, want), float64(*got), tol, label)
	}
}

func TestReportsPublished(t *testing.T) {
	t.Parallel()
	speed := map[string]unit.Speed{"KT": unit.Knot, "MPS": unit.MetrePerSecond}
	for _, row := range published(t) {
		text := row["report"]
		r, err := metar.Parse(text)
		require.NoError(t, err, text)
		assert.Equal(t, row["station"], r.Station, text)
		assert.Equal(t, row["day"], strconv.Itoa(r.Day), text)
		hhmm := int(number(t, row["hhmm_utc"]))
		assert.Equal(t, unit.Minutes(hhmm/100*60+hhmm%100), r.Minute, text)

		if row["wind_dir_deg"] == "VRB" {
			assert.True(t, r.Variable, text)
			assert.Nil(t, r.WindFrom, text)
		} else {
			require.NotNil(t, r.WindFrom, text)
			assert.InDelta(t, number(t, row["wind_dir_deg"]), r.WindFrom.In(unit.Degree), 1e-9, text)
		}
		u := speed[row["unit"]]
		require.NotZero(t, u, row["unit"])
		require.NotNil(t, r.Wind, text)
		assert.InDelta(t, number(t, row["wind_speed"]), r.Wind.In(u), 1e-9, text)
		if row["gust"] == "" {
			assert.Nil(t, r.Gust, text)
		} else {
			require.NotNil(t, r.Gust, text)
			assert.InDelta(t, number(t, row["gust"]), r.Gust.In(u), 1e-9, text)
		}

		sameOrMissing(t, row["temp_C"], r.AirWhole, 1e-9, text)
		sameOrMissing(t, row["dew_C"], r.DewWhole, 1e-9, text)
		sameOrMissing(t, row["temp_tenths_C"], r.AirTenths, 1e-9, text)
		sameOrMissing(t, row["dew_tenths_C"], r.DewTenths, 1e-9, text)
		// Where the tenths are given they win over the whole degrees.
		best := func(tenths, whole string) string {
			if tenths != "" {
				return tenths
			}
			return whole
		}
		sameOrMissing(t, best(row["temp_tenths_C"], row["temp_C"]), r.Air, 1e-9, text)
		sameOrMissing(t, best(row["dew_tenths_C"], row["dew_C"]), r.Dew, 1e-9, text)
		assert.Equal(t, row["weather"], strings.Join(r.Weather, " "), text)
		if row["pressure_hPa"] == "" {
			assert.Nil(t, r.Pressure, text)
		} else {
			require.NotNil(t, r.Pressure, text)
			assert.InDelta(t, number(t, row["pressure_hPa"]), r.Pressure.In(unit.Hectopascal), 0.051, text)
		}
		if row["station"] == "KSLK" { // A1013 would be 343 hPa
			assert.Equal(t, []metar.Warning{{Key: metar.PressureImpossible, Group: "A1013"}}, r.Warnings)
		} else {
			assert.Empty(t, r.Warnings, text)
		}
	}
}

func TestContradictionIsNeverSettledSilently(t *testing.T) {
	t.Parallel()
	r, err := metar.Parse("KXYZ 091955Z 22015KT 10SM CLR 18/16 A2992 RMK AO2 T02320159") // invented
	require.NoError(t, err)
	assert.Nil(t, r.Air)
	assert.InDelta(t, 15.9, float64(*r.Dew), 1e-9)
	require.Len(t, r.Warnings, 1)
	assert.Equal(t, metar.Contradiction, r.Warnings[0].Key)
	// Halves may go either way.
	for _, body := range []string{"14/10", "15/10"} {
		r, err := metar.Parse("KXYZ 091955Z 22015KT " + body + " A2992 RMK T01450100")
		require.NoError(t, err)
		assert.Empty(t, r.Warnings)
		assert.InDelta(t, 14.5, float64(*r.Air), 1e-9)
	}
}

func TestWhatCannotBeIsLeftOutAndNamed(t *testing.T) {
	t.Parallel()
	for text, key := range map[string]metar.Key{
		"EGHI 062050Z 31020G10KT CAVOK 13/07 Q1017": metar.GustBelowMean,
		"EGHI 062050Z 31006KT CAVOK 07/13 Q1017":    metar.DewAboveAir,
		"EGHI 062050Z 31006KT CAVOK 13/07 Q1200":    metar.PressureImpossible,
		"EGHI 062050Z 31006KT CAVOK 99/07 Q1017":    metar.AirImpossible,
		"EGHI 062050Z 310P99KT CAVOK 13/07 Q1017":   metar.OffTheScale,
		"EGHI 062050Z 31099MPS CAVOK 13/07 Q1017":   metar.OffTheScale,
	} {
		r, err := metar.Parse(text)
		require.NoError(t, err, text)
		require.Len(t, r.Warnings, 1, text)
		assert.Equal(t, key, r.Warnings[0].Key, text)
	}
}

func TestReportForms(t *testing.T) {
	t.Parallel()
	r, err := metar.Parse(" speci eghi 110750z auto /////KT 9999 +tsra fzfg vcsh // // M00/M01 q0999 TEMPO 25040KT 30/20 = EGHI 110820Z 22017KT")
	require.NoError(t, err)
	assert.True(t, r.Automatic)
	assert.Nil(t, r.Wind)
	assert.Nil(t, r.Gust)
	assert.Equal(t, []string{"+TSRA", "FZFG", "VCSH"}, r.Weather)
	assert.Equal(t, unit.Celsius(0), *r.Air)
	assert.Equal(t, unit.Celsius(-1), *r.Dew)
	assert.True(t, r.Thunder())
	assert.True(t, r.Wet())
	assert.True(t, r.Freezing())

	dry, err := metar.Parse("EGHI 062050Z 31006KT CAVOK VCRA 13/ Q1017")
	require.NoError(t, err)
	assert.False(t, dry.Wet(), "rain in the vicinity is not rain here")
	assert.False(t, dry.Thunder())
	assert.False(t, dry.Freezing())
	assert.Nil(t, dry.Dew)
	h := dry.Hour()
	assert.Equal(t, unit.Minutes(20*60+50), h.Minute)
	assert.Equal(t, dry.Air, h.Air)
	assert.Nil(t, h.Rain)
}

func TestNoReport(t *testing.T) {
	t.Parallel()
	for text, key := range map[string]metar.Key{
		"":                         metar.Empty,
		"  \n":                     metar.Empty,
		"METAR":                    metar.NotAReport,
		"rain later, good":         metar.NotAReport,
		"EGHI 062050 31006KT":      metar.NotAReport,
		"EG 062050Z 31006KT":       metar.NotAReport,
		"EGHI 322050Z 31006KT":     metar.BadTime,
		"EGHI 062450Z 31006KT":     metar.BadTime,
		"EGHI 062060Z 31006KT":     metar.BadTime,
		"EGHI 062050Z NIL":         metar.NoValues,
		strings.Repeat("x", 30000): metar.TooLong,
	} {
		_, err := metar.Parse(text)
		var refusal *metar.Refusal
		require.ErrorAs(t, err, &refusal, text)
		assert.Equal(t, key, refusal.Key, text)
		assert.NotEmpty(t, refusal.Error())
		assert.LessOrEqual(t, len([]rune(refusal.Heard)), 40)
		_, err = metar.Parse(refusal.Example)
		require.NoError(t, err, "an example must itself be taken")
	}
}

func FuzzParse(f *testing.F) {
	for _, row := range published(f) {
		f.Add(row["report"])
	}
	f.Add("KXYZ 091955Z 22015G01KT M99/99 A9999 RMK T9999 T19991999")
	f.Add("COR COR COR EGHI 010000Z = =")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := metar.Parse(text)
		if err != nil {
			if _, ok := err.(*metar.Refusal); !ok {
				t.Fatalf("%T", err)
			}
			return
		}
		if err := (weatherCourse(r)).Check(); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if r.Day < 1 || r.Day > 31 || r.Minute < 0 || r.Minute >= 24*60 {
			t.Fatalf("%q: %+v", text, r)
		}
		if r.Pressure != nil && math.IsNaN(float64(*r.Pressure)) {
			t.Fatal(text)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := metar.Parse("METAR KPIT 091955Z COR 22015G25KT 3/4SM R28L/2600FT TSRA OVC010CB 18/16 A2992 RMK SLP045 T01820159"); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleParse() {
	r, err := metar.Parse("EGHI 110750Z 22017G28KT 190V250 6000 -RA FEW007 BKN010 15/14 Q1008 RERA")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f kn gusting %.0f, %.0f °C, dew %.0f °C, wet %t\n",
		r.Wind.In(unit.Knot), r.Gust.In(unit.Knot), float64(*r.Air), float64(*r.Dew), r.Wet())
	// Output: 17 kn gusting 28, 15 °C, dew 14 °C, wet true
}
