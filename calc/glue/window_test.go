package glue_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"chargehand/calc"
	"chargehand/calc/glue"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func window(t *testing.T, in glue.WetInput) glue.WetWindow {
	t.Helper()
	w, err := glue.Window(in)
	require.NoError(t, err, "%+v", in)
	return w
}

// plain is a mild breezy day on sound board.
func plain() glue.WetInput {
	return glue.WetInput{
		Label:   glue.Label{Point: glue.Point{Time: 20, Temperature: 20}},
		Surface: 21, Air: 20, RH: 55, Wind: 2, Substrate: glue.Board,
	}
}

// A testing laboratory's note on accelerated stability: figures for Q10 from
// 23 °C to 45 °C, to the digits it prints.
func TestTimeFactorPublished(t *testing.T) {
	t.Parallel()
	raw, err := os.Open(filepath.Join("..", "..", "testdata", "worked", "covering", "covering-rate-temperature.csv"))
	require.NoError(t, err)
	defer raw.Close()
	r := csv.NewReader(raw)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	printed := map[string]string{}
	for _, row := range rows[1:] {
		printed[row[0]] = row[2]
	}
	for _, c := range []struct {
		id         string
		q, whole   float64
		printed    string
		value, tol float64
	}{
		{"q10-2", 2, 12, "2.6 months", 2.6, 0.05},
		{"q10-2-days", 2, 365, "79 days", 79, 0.5},
		{"q10-2-days-5", 2, 5 * 365, "395 days", 395, 2.5}, // the page multiplies its rounded 79
		{"q10-4-days", 4, 365, "17 days", 17, 0.5},
	} {
		require.Equal(t, c.printed, printed[c.id])
		k, err := glue.TimeFactor(c.q, 23, 45)
		require.NoError(t, err)
		assert.InDelta(t, c.value, c.whole*k, c.tol, c.id)
	}
	// 50 kJ/mol from 25 to 35 °C is 1.93 (printed), which is why 2 per 10 K is
	// near enough for a rate of that kind.
	k, err := glue.TimeFactor(1.9256, 35, 25)
	require.NoError(t, err)
	assert.InDelta(t, 1.93, k, 0.005)
}

// With the air fixed and the dew margin kept, a hotter deck, more wind, drier
// air or a thirstier board never lengthens a window; a longer label never
// shortens it.
func TestWindowShape(t *testing.T) {
	t.Parallel()
	thirst := []glue.Substrate{glue.Sealed, glue.Board, glue.Thirsty, glue.VeryThirsty}
	r := rand.New(rand.NewPCG(5, 2))
	compared := 0
	for range 8000 {
		in := randomDay(r)
		w := window(t, in)
		if w.Stop != "" {
			require.Zero(t, w.Usable)
			continue
		}
		require.Positive(t, w.Usable)
		worse := in
		switch r.IntN(5) {
		case 0:
			worse.Surface = min(60, in.Surface+unit.Celsius(10*r.Float64()))
		case 1:
			worse.Wind += unit.Speed(5 * r.Float64())
		case 2:
			worse.RH = max(1, in.RH-unit.Percent(30*r.Float64()))
		case 3:
			worse.Substrate = thirst[r.IntN(4)]
			if index(thirst, worse.Substrate) < index(thirst, in.Substrate) {
				in, worse = worse, in
				w = window(t, in)
			}
		case 4:
			if in.Label.Second != nil || in.Label.Time < 3 {
				continue
			}
			worse.Label.Time *= 0.8
			worse.Label.Upper = 0
		}
		compared++
		require.LessOrEqual(t, float64(window(t, worse).Usable), float64(w.Usable)+1e-9, "%+v\n%+v", in, worse)
	}
	assert.Greater(t, compared, 4000)
}

func index(all []glue.Substrate, s glue.Substrate) int {
	for i, v := range all {
		if v == s {
			return i
		}
	}
	return -1
}

// The shipped window never exceeds the label or 30 min; the label's upper number
// counts after a bracketed test square of the day, 30 min always.
func TestWindowNeverExceedsTheLabel(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 4))
	capped, lifted := 0, 0
	for range 8000 {
		in := randomDay(r)
		if in.Label.Second != nil {
			continue
		}
		w := window(t, in)
		if w.Stop != "" {
			continue
		}
		k := in.JobFactor
		if k == 0 {
			k = 1
		}
		rules := k * math.Min(float64(w.ByPocket), float64(w.ByEvaporation))
		limit := float64(in.Label.Time)
		if in.SquareToday {
			limit = math.Max(limit, float64(in.Label.Upper))
		}
		require.LessOrEqual(t, float64(w.Usable), math.Min(limit, 30)+1e-9)
		require.InDelta(t, math.Min(rules, math.Min(limit, 30)), float64(w.Usable), 1e-9)
		if w.Cap != "" {
			capped++
		}
		if w.Usable > in.Label.Time {
			require.True(t, in.SquareToday)
			lifted++
		}
	}
	assert.Positive(t, capped)
	assert.Positive(t, lifted)
}

// At its own two conditions the curve of a label gives its two numbers, exactly.
func TestTwoLinesOfALabelAreMetExactly(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		cool, warm := unit.Celsius(5+10*r.Float64()), unit.Celsius(20+15*r.Float64())
		long := unit.Minutes(20 + 20*r.Float64())
		short := long * unit.Minutes(0.5+0.5*r.Float64()) // within 6 times a 10 K
		in := plain()
		in.Wind, in.RH, in.Air = 0.5, 55, 5 // calm, normal, board: every factor is 1
		in.Label = glue.Label{Point: glue.Point{Time: long, Temperature: cool}, Second: &glue.Point{Time: short, Temperature: warm}}
		for _, p := range []glue.Point{in.Label.Point, *in.Label.Second} {
			in.Surface = p.Temperature
			assert.Equal(t, p.Time, window(t, in).ByPocket)
		}
		// The lines may be given in either order, and between them lies between.
		turned := in
		turned.Label = glue.Label{Point: *in.Label.Second, Second: &in.Label.Point}
		in.Surface = (cool + warm) / 2
		turned.Surface = in.Surface
		a, b := window(t, in), window(t, turned)
		assert.InDelta(t, float64(a.ByPocket), float64(b.ByPocket), 1e-9)
		assert.InDelta(t, float64(a.Usable), float64(b.Usable), 1e-9)
		assert.GreaterOrEqual(t, a.ByPocket, short)
		assert.LessOrEqual(t, a.ByPocket, long)
		assert.LessOrEqual(t, float64(a.Usable), float64(a.ByPocket)+1e-9)
	}
}

func TestNoWindowNearTheDewPoint(t *testing.T) {
	t.Parallel()
	for air := unit.Celsius(2); air <= 30; air += 2 {
		for rh := unit.Percent(20); rh <= 100; rh += 5 {
			in := plain()
			in.Air, in.RH = air, rh
			in.Surface = 40
			td := window(t, in).DewPoint
			in.Surface = td.Add(2.999)
			assert.Equal(t, glue.DewMargin, window(t, in).Stop)
			assert.Zero(t, window(t, in).Usable)
			in.Surface = td.Add(-0.001)
			assert.Equal(t, glue.Condensing, window(t, in).Stop)
			assert.Zero(t, window(t, in).Usable)
			in.Surface = td.Add(3.001)
			assert.Empty(t, window(t, in).Stop)
			assert.Positive(t, window(t, in).Usable)
		}
	}
}

func TestWindowRefusesTheImpossible(t *testing.T) {
	t.Parallel()
	for field, spoil := range map[string]func(*glue.WetInput){
		"surface_c":   func(in *glue.WetInput) { in.Surface = 200 },
		"air_c":       func(in *glue.WetInput) { in.Air = 51 },
		"rh_pct":      func(in *glue.WetInput) { in.RH = 140 },
		"wind_m_s":    func(in *glue.WetInput) { in.Wind = unit.Speed(math.NaN()) },
		"substrate":   func(in *glue.WetInput) { in.Substrate = "foil" },
		"label_min":   func(in *glue.WetInput) { in.Label.Time = 0 },
		"label_c":     func(in *glue.WetInput) { in.Label.Temperature = 60 },
		"max_min":     func(in *glue.WetInput) { in.Label.Upper = 10 },
		"job_factor":  func(in *glue.WetInput) { in.JobFactor = 2.1 },
		"label2_min":  func(in *glue.WetInput) { in.Label.Second = &glue.Point{Time: 25, Temperature: 30} }, // longer when warmer
		"label2_c":    func(in *glue.WetInput) { in.Label.Second = &glue.Point{Time: 15, Temperature: 20.5} },
		"label2_min ": func(in *glue.WetInput) { in.Label.Second = &glue.Point{Time: 1, Temperature: 25} }, // 400-fold
	} {
		in := plain()
		spoil(&in)
		_, err := glue.Window(in)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, field)
		assert.Equal(t, field[:len(domain.Field)], domain.Field)
		assert.NotEmpty(t, domain.Wanted)
	}
	for _, edge := range []func(*glue.WetInput){
		func(in *glue.WetInput) { in.Surface = 60 },
		func(in *glue.WetInput) { in.Surface, in.Air, in.RH = -20, -20, 1 },
		func(in *glue.WetInput) { in.Wind = 40 },
		func(in *glue.WetInput) { in.JobFactor = 0.3 },
	} {
		in := plain()
		edge(&in)
		_, err := glue.Window(in)
		require.NoError(t, err)
	}
}

func TestCurveIsTheWindowAlongTheSurface(t *testing.T) {
	t.Parallel()
	in := plain()
	points, err := glue.Curve(in, 5, 45, 2.5)
	require.NoError(t, err)
	require.Len(t, points, 17)
	open := false
	last := math.Inf(1)
	for _, p := range points {
		in.Surface = p.Surface
		assert.Equal(t, window(t, in), p.Window)
		if p.Window.Stop == "" {
			open = true
			assert.LessOrEqual(t, float64(p.Window.Usable), last)
			last = float64(p.Window.Usable)
		} else {
			assert.False(t, open, "once open, a hotter deck does not shut it")
		}
	}
	_, err = glue.Curve(in, 5, 45, 0)
	require.Error(t, err)
	_, err = glue.Curve(in, 45, 5, 1)
	require.Error(t, err)
	_, err = glue.Curve(in, 50, 70, 1)
	require.Error(t, err)
}

func FuzzReckonWindow(f *testing.F) {
	f.Add("wet", 20.0, 20.0, 21.0, 20.0, 55.0, 2.0, "board", 0.0, 0.0)
	f.Add("wet", 15.0, 20.0, 6.0, 6.0, 92.0, 1.0, "very", 30.0, 1.2)
	f.Add("contact", 15.0, 20.0, 10.0, 45.0, 55.0, 0.5, "", 45.0, 0.0)
	f.Add("contact", 240.0, 0.0, -10.0, 80.0, 140.0, -1.0, "", 1.0, math.NaN())
	f.Fuzz(func(t *testing.T, method string, label, labelC, surface, air, rh, wind float64, substrate string, most, k float64) {
		in := glue.WindowIn{Method: method, LabelMin: &label, LabelC: &labelC, SurfaceC: surface, AirC: &air, RHPct: &rh, WindMS: &wind}
		if substrate != "" {
			in.Substrate = &substrate
		}
		if most != 0 {
			in.MaxMin = &most
		}
		if k != 0 {
			in.JobFactor = &k
		}
		out, err := glue.ReckonWindow(in)
		if err != nil {
			return
		}
		if !(out.WindowMin >= 0 && out.WindowMin <= 1e5) {
			t.Fatalf("window %v", out.WindowMin)
		}
		if (out.WindowMin == 0) != (out.Stop != nil) {
			t.Fatalf("a window of nothing wants a reason: %+v", out)
		}
		if method == "wet" && out.WindowMin > 30 {
			t.Fatalf("over half an hour: %+v", out)
		}
	})
}

func BenchmarkWindow(b *testing.B) {
	in := plain()
	for b.Loop() {
		if _, err := glue.Window(in); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleWindow() {
	w, err := glue.Window(glue.WetInput{
		Label:   glue.Label{Point: glue.Point{Time: 20, Temperature: 20}},
		Surface: 26, Air: 21, RH: 55, Wind: 2, Substrate: glue.Board,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f min (pocket %.1f, evaporation %.1f)\n", float64(w.Usable), float64(w.ByPocket), float64(w.ByEvaporation))
	// Output: 9.6 min (pocket 9.9, evaporation 9.6)
}
