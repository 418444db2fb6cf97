package load_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/load"
)

func ptr[T any](v T) *T { return &v }

func TestReckonSnow(t *testing.T) {
	t.Parallel()
	// The printed step example through the topic.
	out, err := load.ReckonSnow(load.SnowIn{SkKNM2: ptr(0.65), StepHeightM: ptr(3.0), LowerWidthM: ptr(40.0), UpperWidthM: ptr(10.0), UpperPitchDeg: ptr(8.5), Set: ptr("CEN")})
	require.NoError(t, err)
	assert.Equal(t, 0.8, out.Mu1)
	assert.InEpsilon(t, 4.0, out.Mu2, 1e-12)
	assert.InEpsilon(t, 6.0, out.DriftLengthM, 1e-12)
	assert.InEpsilon(t, 0.52, out.UndriftedKNM2, 1e-12)
	assert.InEpsilon(t, 2.6, out.DriftKNM2, 1e-12)
	assert.InEpsilon(t, 0.52, out.EdgeKNM2, 1e-12, "the bank ends before the edge")
	assert.True(t, out.DriftInSet)
	assert.Empty(t, out.Others)

	// A garage of our own below a house in the UK.
	out, err = load.ReckonSnow(load.SnowIn{Zone: ptr(3.0), AltitudeM: ptr(80.0), StepHeightM: ptr(2.7), LowerWidthM: ptr(3.0), UpperWidthM: ptr(8.0)})
	require.NoError(t, err)
	assert.Equal(t, "UK", out.Set)
	assert.False(t, out.DriftInSet)
	assert.InEpsilon(t, 0.5-20.0/525, out.SkKNM2, 1e-12)
	assert.Greater(t, out.EdgeKNM2, out.UndriftedKNM2, "a drift of 5.4 m is cut off by a roof of 3 m")
	require.Len(t, out.Others, 1)
	assert.True(t, out.Others[0].Accidental)
	assert.Equal(t, 3.0, out.Others[0].LengthM)
	assert.InEpsilon(t, 2*8.0/3, out.Others[0].Mu, 1e-12)

	// No wall: nothing drifts.
	for _, step := range []*float64{nil, ptr(0.0)} {
		out, err = load.ReckonSnow(load.SnowIn{SkKNM2: ptr(0.5), StepHeightM: step})
		require.NoError(t, err)
		assert.Equal(t, out.Mu1, out.Mu2)
		assert.Zero(t, out.DriftLengthM)
		assert.Equal(t, out.UndriftedKNM2, out.DriftKNM2)
	}
	// A parapet adds its banks; exposure works on all but the exceptional ones.
	plain, err := load.ReckonSnow(load.SnowIn{SkKNM2: ptr(0.5), ParapetM: ptr(0.3), ParapetAwayM: ptr(3.0)})
	require.NoError(t, err)
	require.Len(t, plain.Others, 2)
	deep, err := load.ReckonSnow(load.SnowIn{SkKNM2: ptr(0.5), ParapetM: ptr(0.3), ParapetAwayM: ptr(3.0), Exposure: ptr("sheltered")})
	require.NoError(t, err)
	assert.InEpsilon(t, 1.2, deep.Others[0].PeakKNM2/plain.Others[0].PeakKNM2, 1e-12)
	assert.Equal(t, plain.Others[1].PeakKNM2, deep.Others[1].PeakKNM2)
	assert.InEpsilon(t, 1.2, deep.UndriftedKNM2/plain.UndriftedKNM2, 1e-12)
}

func TestReckonSnowDomain(t *testing.T) {
	t.Parallel()
	for field, in := range map[string]load.SnowIn{
		"sk_kn_m2":        {},
		"altitude_m":      {Zone: ptr(3.0)},
		"zone":            {Zone: ptr(0.0), AltitudeM: ptr(100.0)},
		"step_height_m":   {SkKNM2: ptr(0.5), StepHeightM: ptr(-1.0), LowerWidthM: ptr(3.0), UpperWidthM: ptr(8.0)},
		"lower_width_m":   {SkKNM2: ptr(0.5), StepHeightM: ptr(2.0), UpperWidthM: ptr(8.0)},
		"upper_width_m":   {SkKNM2: ptr(0.5), StepHeightM: ptr(2.0), LowerWidthM: ptr(3.0)},
		"upper_pitch_deg": {SkKNM2: ptr(0.5), StepHeightM: ptr(2.0), LowerWidthM: ptr(3.0), UpperWidthM: ptr(8.0), UpperPitchDeg: ptr(95.0)},
		"parapet_away_m":  {SkKNM2: ptr(0.5), ParapetM: ptr(0.3)},
		"parapet_m":       {SkKNM2: ptr(0.5), ParapetM: ptr(-0.3), ParapetAwayM: ptr(3.0)},
		"exposure":        {SkKNM2: ptr(0.5), Exposure: ptr("calm")},
		"set":             {SkKNM2: ptr(0.5), Set: ptr("XX")},
	} {
		_, err := load.ReckonSnow(in)
		var d *calc.DomainError
		if assert.ErrorAs(t, err, &d, field) {
			assert.Equal(t, field, d.Field)
		}
	}
}

func TestReckonWind(t *testing.T) {
	t.Parallel()
	in := load.WindIn{QpKNM2: 0.7, LengthM: 5.5, DepthM: 2.9, HeightM: 2.5}
	out, err := load.ReckonWind(in)
	require.NoError(t, err)
	sum := 0.0
	area := 0.0
	for _, z := range out.Zones {
		sum += z.AreaM2 * z.UpliftKNM2
		area += z.AreaM2
		assert.InEpsilon(t, 0.7*(0.2-z.Cpe10), z.UpliftKNM2, 1e-12, "above 10 m² cpe10 counts")
	}
	assert.InEpsilon(t, sum, out.TotalUpliftKN, 1e-12)
	assert.InEpsilon(t, 5.5*2.9, area, 1e-12)
	assert.Equal(t, 2.0, out.Straps.SpacingM, "NHBC Standards 7.1.5: at most 2 m apart")
	assert.Equal(t, 4, out.Straps.PerLine)
	assert.Nil(t, out.Straps.CornerKN, "no strap force without the weight")
	assert.Nil(t, out.NetUpliftKN)

	in.DeadKNM2 = ptr(0.2)
	shut, err := load.ReckonWind(in)
	require.NoError(t, err)
	assert.InEpsilon(t, 1.5*out.TotalUpliftKN-0.9*0.2*5.5*2.9, *shut.NetUpliftKN, 1e-12)
	assert.Greater(t, *shut.Straps.CornerKN, *shut.Straps.MiddleKN)
	// A strap holds 2 m by half the joists: 2.9 m²; c_pe,F between -2.5 and -1.8.
	cpe := -2.5 + 0.7*math.Log10(2.9)
	assert.InEpsilon(t, 2.9*(1.5*0.7*(0.2-cpe)-0.9*0.2), *shut.Straps.CornerKN, 1e-12)

	// The door open lifts more, a parapet less; a heavier roof is held better.
	in.Opening = ptr("door")
	door, err := load.ReckonWind(in)
	require.NoError(t, err)
	assert.Greater(t, door.TotalUpliftKN, shut.TotalUpliftKN)
	in.ParapetM = ptr(0.25)
	walled, err := load.ReckonWind(in)
	require.NoError(t, err)
	assert.Less(t, walled.TotalUpliftKN, door.TotalUpliftKN)
	in.DeadKNM2 = ptr(0.6)
	heavy, err := load.ReckonWind(in)
	require.NoError(t, err)
	assert.Less(t, *heavy.NetUpliftKN, *walled.NetUpliftKN)

	// A roof under 10 m² feels the gusts of its own area.
	small, err := load.ReckonWind(load.WindIn{QpKNM2: 0.7, LengthM: 2, DepthM: 2, HeightM: 2.5})
	require.NoError(t, err)
	assert.Greater(t, small.Zones[0].UpliftKNM2, 0.7*(0.2+1.8))
	// The worse of two directions, whichever way round it is asked.
	turned, err := load.ReckonWind(load.WindIn{QpKNM2: 0.7, LengthM: 2.9, DepthM: 5.5, HeightM: 2.5})
	require.NoError(t, err)
	assert.InEpsilon(t, out.TotalUpliftKN, turned.TotalUpliftKN, 1e-12)
	assert.NotEqual(t, out.Wind, turned.Wind)
}

func TestReckonWindDomain(t *testing.T) {
	t.Parallel()
	good := load.WindIn{QpKNM2: 0.7, LengthM: 5.5, DepthM: 2.9, HeightM: 2.5}
	for field, spoil := range map[string]func(*load.WindIn){
		"qp_kn_m2":        func(in *load.WindIn) { in.QpKNM2 = 0 },
		"length_m":        func(in *load.WindIn) { in.LengthM = math.NaN() },
		"depth_m":         func(in *load.WindIn) { in.DepthM = 0.1 },
		"height_m":        func(in *load.WindIn) { in.HeightM = 80 },
		"parapet_m":       func(in *load.WindIn) { in.ParapetM = ptr(-1.0) },
		"opening":         func(in *load.WindIn) { in.Opening = ptr("window") },
		"dead_kn_m2":      func(in *load.WindIn) { in.DeadKNM2 = ptr(-1.0) },
		"strap_spacing_m": func(in *load.WindIn) { in.Spacing = ptr(2.5) },
		"set":             func(in *load.WindIn) { in.Set = ptr("XX") },
	} {
		in := good
		spoil(&in)
		_, err := load.ReckonWind(in)
		var d *calc.DomainError
		if assert.ErrorAs(t, err, &d, field) {
			assert.Equal(t, field, d.Field)
		}
	}
}

func TestReckonPressure(t *testing.T) {
	t.Parallel()
	out, err := load.ReckonPressure(load.PressureIn{VbMS: 26, Terrain: "III", HeightM: 8})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.659, out.QpKNM2, 6e-3) // Steel Buildings in Europe, Part 3, p. 3-48
	assert.Equal(t, "EN 1991-1-4, recommended values", out.Follows)
	_, err = load.ReckonPressure(load.PressureIn{VbMS: 26, Terrain: "III", HeightM: 8, Orographic: ptr(0.0)})
	assert.Error(t, err)
	uk, err := load.ReckonPressure(load.PressureIn{VbMS: 22, Terrain: "town", HeightM: 3, Annex: ptr("UK"), AltitudeM: ptr(100.0), Orographic: ptr(1.1)})
	require.NoError(t, err)
	assert.InEpsilon(t, 24.2, uk.VbMS, 1e-12)
}

func finite(t *testing.T, vs ...float64) {
	t.Helper()
	for _, v := range vs {
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
	}
}

func FuzzReckonSnow(f *testing.F) {
	f.Add(0.65, 3.0, 80.0, 3.0, 40.0, 10.0, 8.5, 0.0)
	f.Add(0.0, 6.5, 0.0, 0.05, 0.1, 200.0, 45.0, 0.4)
	f.Add(math.NaN(), -1.0, 1e9, math.Inf(1), 0.0, 0.0, -5.0, 1e-9)
	f.Fuzz(func(t *testing.T, sk, zone, altitude, step, lower, upper, pitch, parapet float64) {
		in := load.SnowIn{Zone: &zone, AltitudeM: &altitude, StepHeightM: &step, LowerWidthM: &lower, UpperWidthM: &upper,
			UpperPitchDeg: &pitch, ParapetM: &parapet, ParapetAwayM: &lower}
		if sk != 0 {
			in.SkKNM2 = &sk
		}
		out, err := load.ReckonSnow(in)
		if err != nil {
			var d *calc.DomainError
			require.ErrorAs(t, err, &d)
			return
		}
		finite(t, out.SkKNM2, out.Mu2, out.DriftLengthM, out.UndriftedKNM2, out.DriftKNM2, out.EdgeKNM2)
		require.GreaterOrEqual(t, out.DriftKNM2, out.UndriftedKNM2*(1-1e-12))
		for _, b := range out.Others {
			finite(t, b.Mu, b.LengthM, b.PeakKNM2, b.EdgeKNM2)
			require.GreaterOrEqual(t, b.EdgeKNM2, -1e-12)
		}
	})
}

func FuzzReckonWind(f *testing.F) {
	f.Add(0.7, 5.5, 2.9, 2.5, 0.0, 0.2, 2.0)
	f.Add(5.0, 0.5, 100.0, 50.0, 5.0, 0.0, 0.2)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 1e300, 5e-324, 0.0)
	f.Fuzz(func(t *testing.T, qp, length, depth, height, parapet, dead, spacing float64) {
		out, err := load.ReckonWind(load.WindIn{QpKNM2: qp, LengthM: length, DepthM: depth, HeightM: height, ParapetM: &parapet, DeadKNM2: &dead, Spacing: &spacing})
		if err != nil {
			var d *calc.DomainError
			require.ErrorAs(t, err, &d)
			return
		}
		finite(t, out.TotalUpliftKN, *out.NetUpliftKN, *out.Straps.CornerKN, *out.Straps.MiddleKN)
		require.Positive(t, out.TotalUpliftKN)
		for _, z := range out.Zones {
			require.GreaterOrEqual(t, z.AreaM2, 0.0)
			require.Positive(t, z.UpliftKNM2)
		}
	})
}

func BenchmarkReckonSnow(b *testing.B) {
	in := load.SnowIn{Zone: ptr(3.0), AltitudeM: ptr(80.0), StepHeightM: ptr(2.7), LowerWidthM: ptr(3.0), UpperWidthM: ptr(8.0)}
	for b.Loop() {
		if _, err := load.ReckonSnow(in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReckonWind(b *testing.B) {
	in := load.WindIn{QpKNM2: 0.7, LengthM: 5.5, DepthM: 2.9, HeightM: 2.5, DeadKNM2: ptr(0.2)}
	for b.Loop() {
		if _, err := load.ReckonWind(in); err != nil {
			b.Fatal(err)
		}
	}
}
