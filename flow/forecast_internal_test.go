package flow

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/unit"
	"chargehand/calc/weather"
	"chargehand/flow/event"
)

// Hours are read back from the record as they were written into it.
func TestHoursReadBackAsTheyWereWritten(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	some := func(x float64) *float64 {
		if r.IntN(3) == 0 {
			return nil
		}
		x = math.Round(x*1000) / 1000
		return &x
	}
	for range 200 {
		begin := time.Date(2026, 5, 11, 12, 0, 0, 0, time.UTC)
		var want []stamped
		var lines []string
		at := begin
		for range 1 + r.IntN(30) {
			h := weather.Hour{Air: (*unit.Celsius)(some(40*r.Float64() - 10)), Dew: (*unit.Celsius)(some(-12)), RH: (*unit.Percent)(some(100 * r.Float64())),
				Surface: (*unit.Celsius)(some(60 * r.Float64())), Wind: (*unit.Speed)(some(20 * r.Float64())), Gust: (*unit.Speed)(some(40 * r.Float64())), Rain: (*unit.Length)(some(9 * r.Float64()))}
			want = append(want, stamped{at, h})
			lines = append(lines, writeHour(at.Sub(begin), h))
			at = at.Add(time.Duration(1+r.IntN(300)) * time.Minute)
		}
		require.Equal(t, want, readHours(event.Value{Unit: "hours", At: begin, Text: strings.Join(lines, "; ")}))
	}
	assert.Empty(t, readHours(event.Value{Unit: "hours", Text: "what is this"}))
	assert.Empty(t, readHours(event.Value{Unit: "text", Text: "0 1 2 3 4 5 6 7"}))
}

// The hour that a clock change shows twice does not turn a course back.
func TestACourseGoesForward(t *testing.T) {
	begin := time.Date(2026, 10, 24, 22, 0, 0, 0, time.UTC)
	warm := unit.Celsius(9)
	var list []stamped
	for _, m := range []int{0, 60, 120, 120, 90, 240} {
		list = append(list, stamped{begin.Add(time.Duration(m) * time.Minute), weather.Hour{Air: &warm}})
	}
	require.NoError(t, courseFrom(list, begin).Check())
	assert.Len(t, courseFrom(list, begin), 4)
}

func FuzzReadPlace(f *testing.F) {
	for _, s := range []string{"51.5 -0.1", "51.5074,-0.1278", "51.5° N, 0.1° W", "1e9 2", "nan nan", "0x1p4 1", ", ,", "n s e w", "90 180"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		val, ok := readPlace(s)
		if !ok {
			return
		}
		require.True(t, val.Finite())
		require.Len(t, val.Nums, 2)
		assert.LessOrEqual(t, math.Abs(val.Nums[0]), 90.0)
		assert.LessOrEqual(t, math.Abs(val.Nums[1]), 180.0)
	})
}
