package timber_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/timber"
)

func ptr[T any](v T) *T { return &v }

func ask() timber.SpanIn {
	return timber.SpanIn{Method: "ec5", BMM: 47, HMM: 170, Grade: "C24", CentresMM: 400, DeadKNM2: 0.4}
}

func TestReckonSpanSaysWhatItUsed(t *testing.T) {
	t.Parallel()
	out, err := timber.ReckonSpan(ask())
	require.NoError(t, err)
	assert.Equal(t, timber.SpanBasis{Formula: timber.ID, Method: "ec5", Grade: "C24", Edition: "2016", ImposedKNM2: 0.6, PointKN: 0.9,
		BearingMM: 50, ServiceClass: 2, LoadDuration: "short", FinalLimit: 250}, out.Used)
	assert.InEpsilon(t, 420*9.80665*47*170*1e-9, out.OwnWeightKNM, 1e-12)
	assert.Equal(t, out.MaxClearSpanMM, out.JudgedSpanMM)
	assert.Equal(t, "close", out.Status, "at its longest a joist is used up")
	assert.InDelta(t, 1, out.Utilisation[out.GovernedBy], 1e-4)

	bs := ask()
	bs.Method = "bs5268"
	out, err = timber.ReckonSpan(bs)
	require.NoError(t, err)
	assert.Equal(t, 0.75, out.Used.ImposedKNM2)
	assert.Empty(t, out.Used.Edition)
}

func TestReckonSpanJudgesTheGivenSpan(t *testing.T) {
	t.Parallel()
	in := ask()
	longest, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	for _, c := range []struct {
		share  float64
		status string
	}{{0.7, "within"}, {0.995, "close"}, {1.01, "over"}} {
		in.ClearMM = ptr(c.share * longest.MaxClearSpanMM)
		out, err := timber.ReckonSpan(in)
		require.NoError(t, err)
		assert.Equal(t, c.status, out.Status)
		assert.Equal(t, longest.MaxClearSpanMM, out.MaxClearSpanMM)
		for name, u := range out.Utilisation {
			assert.True(t, u >= 0 && !math.IsInf(u, 0), name)
		}
		for _, r := range out.Conditions {
			assert.InDelta(t, r.Demand/r.Limit, out.Utilisation[r.Name], 1e-12)
		}
	}
}

func TestReckonSpanZeroIsNotLeftOut(t *testing.T) {
	t.Parallel()
	in := ask()
	with, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	in.PointKN, in.ImposedKNM2 = ptr(0.0), ptr(0.0)
	without, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	assert.Greater(t, without.MaxClearSpanMM, with.MaxClearSpanMM)
	assert.Zero(t, without.Used.PointKN)
	assert.Zero(t, without.Used.ImposedKNM2)
}

func TestReckonSpanWithoutASpan(t *testing.T) {
	t.Parallel()
	in := ask()
	in.ImposedKNM2, in.SnowKNM2, in.BearingMM = ptr(10.0), ptr(20.0), ptr(20.0)
	in.BMM, in.CentresMM = 20, 1200
	out, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	assert.Zero(t, out.MaxClearSpanMM, "none passes")
	assert.Equal(t, "over", out.Status)
	assert.Equal(t, 340.0, out.JudgedSpanMM, "the shortest the formulas hold for")
}

func TestReckonSpanDomain(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for _, c := range []struct {
		field string
		spoil func(*timber.SpanIn)
	}{
		{"method", func(in *timber.SpanIn) { in.Method = "" }},
		{"method", func(in *timber.SpanIn) { in.Method = "ec9" }},
		{"grade", func(in *timber.SpanIn) { in.Grade = "C99" }},
		{"grade", func(in *timber.SpanIn) { in.Grade = "" }},
		{"grade", func(in *timber.SpanIn) { in.Method = "bs5268"; in.Grade = "TR26" }},
		{"b_mm", func(in *timber.SpanIn) { in.BMM = 19.9 }},
		{"b_mm", func(in *timber.SpanIn) { in.BMM = 150.1 }},
		{"h_mm", func(in *timber.SpanIn) { in.HMM = nan }},
		{"h_mm", func(in *timber.SpanIn) { in.HMM = math.Inf(1) }},
		{"centres_mm", func(in *timber.SpanIn) { in.CentresMM = 0 }},
		{"dead_kn_m2", func(in *timber.SpanIn) { in.DeadKNM2 = -0.1 }},
		{"imposed_kn_m2", func(in *timber.SpanIn) { in.ImposedKNM2 = ptr(-1.0) }},
		{"point_kn", func(in *timber.SpanIn) { in.PointKN = ptr(nan) }},
		{"snow_kn_m2", func(in *timber.SpanIn) { in.SnowKNM2 = ptr(21.0) }},
		{"bearing_mm", func(in *timber.SpanIn) { in.BearingMM = ptr(0.0) }},
		{"bearing_mm", func(in *timber.SpanIn) { in.BearingMM = ptr(10.0) }},
		{"clear_span_mm", func(in *timber.SpanIn) { in.ClearMM = ptr(339.0) }},
		{"clear_span_mm", func(in *timber.SpanIn) { in.ClearMM = ptr(nan) }},
		{"clear_span_mm", func(in *timber.SpanIn) { in.ClearMM = ptr(-2600.0) }},
		{"deflection_limit", func(in *timber.SpanIn) { in.DeflectionLimit = ptr(0.0) }},
		{"deflection_limit", func(in *timber.SpanIn) { in.DeflectionLimit = ptr(50.0) }},
		{"drift_length_mm", func(in *timber.SpanIn) { in.DriftKNM2 = ptr(2.0) }},
		{"drift_kn_m2", func(in *timber.SpanIn) { in.DriftKNM2, in.DriftLengthMM = ptr(-2.0), ptr(5000.0) }},
		{"tail_mm", func(in *timber.SpanIn) { in.TailMM = ptr(-1.0) }},
		{"clear_span_mm", func(in *timber.SpanIn) { in.TailMM, in.ClearMM = ptr(600.0), ptr(2000.0) }},
		{"service_class", func(in *timber.SpanIn) { in.ServiceClass = ptr(0) }},
		{"service_class", func(in *timber.SpanIn) { in.ServiceClass = ptr(4) }},
		{"load_duration", func(in *timber.SpanIn) { in.LoadDuration = ptr("brief") }},
		{"load_duration", func(in *timber.SpanIn) { in.LoadDuration = ptr("") }},
		{"edition", func(in *timber.SpanIn) { in.Edition = ptr("1995") }},
		{"edition", func(in *timber.SpanIn) { in.Edition = ptr("") }},
		{"psi2", func(in *timber.SpanIn) { in.Psi2 = ptr(1.5) }},
		{"extra_kn", func(in *timber.SpanIn) { in.ExtraKN = ptr(-1.0) }},
		{"extra_to_mm", func(in *timber.SpanIn) { in.ExtraKN, in.ExtraFromMM, in.ExtraToMM = ptr(1.0), ptr(500.0), ptr(400.0) }},
		// what belongs to another method
		{"duration_factor", func(in *timber.SpanIn) { in.DurationFactor = ptr(1.25) }},
		{"wet", func(in *timber.SpanIn) { in.Wet = ptr(true) }},
		{"edition", func(in *timber.SpanIn) { in.Method = "bs5268"; in.Edition = ptr("2009") }},
		{"unbraced_mm", func(in *timber.SpanIn) { in.Method = "bs5268"; in.UnbracedMM = ptr(600.0) }},
		// nds has neither a default load nor sizes between the dressed ones
		{"imposed_kn_m2", func(in *timber.SpanIn) { in.Method = "nds"; in.Grade = "DF-L #2" }},
		{"h_mm", func(in *timber.SpanIn) {
			in.Method = "nds"
			in.Grade = "DF-L #2"
			in.BMM = 38
			in.ImposedKNM2 = ptr(1.0)
		}},
		{"b_mm", func(in *timber.SpanIn) {
			in.Method = "nds"
			in.Grade = "DF-L #2"
			in.BMM = 90
			in.ImposedKNM2 = ptr(1.0)
		}},
		{"grade", func(in *timber.SpanIn) {
			in.Method, in.Grade, in.BMM, in.HMM, in.ImposedKNM2 = "nds", "DF-L #9", 38, 184, ptr(1.0)
		}},
	} {
		in := ask()
		c.spoil(&in)
		_, err := timber.ReckonSpan(in)
		var d *calc.DomainError
		if assert.ErrorAs(t, err, &d, c.field) {
			assert.Equal(t, c.field, d.Field)
			assert.NotEmpty(t, d.Wanted)
		}
	}
	// Edges that are inside.
	in := ask()
	in.ClearMM = ptr(340.0)
	_, err := timber.ReckonSpan(in)
	assert.NoError(t, err)
	in.ClearMM = ptr(20000.0)
	_, err = timber.ReckonSpan(in)
	assert.NoError(t, err)
}

// Loads that no roof has are refused where the search would not end.
func TestNothingToCarry(t *testing.T) {
	t.Parallel()
	_, _, err := timber.MaxClearSpan(timber.Joist{Method: timber.NDS, Section: timber.Section{B: 38.1, H: 285.75}, Grade: "DF-L SS", Centres: 300, NoImposed: true, Snow: 1e-9})
	var d *calc.DomainError
	assert.ErrorAs(t, err, &d)
}

func TestCeilingAndExtra(t *testing.T) {
	t.Parallel()
	in := ask()
	with, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	in.Ceiling = ptr(false)
	without, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	assert.Greater(t, without.MaxClearSpanMM, with.MaxClearSpanMM)
	assert.Equal(t, 150.0, without.Used.FinalLimit)
	in = ask()
	in.ExtraKN, in.ExtraFromMM, in.ExtraToMM = ptr(0.5), ptr(800.0), ptr(1600.0)
	loaded, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	assert.Less(t, loaded.MaxClearSpanMM, with.MaxClearSpanMM)
	in = ask()
	in.TailMM = ptr(300.0)
	tail, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	assert.Contains(t, tail.Utilisation, timber.TailEnd)
	in.DeflectionLimit = ptr(600.0)
	strict, err := timber.ReckonSpan(in)
	require.NoError(t, err)
	assert.Less(t, strict.MaxClearSpanMM, tail.MaxClearSpanMM)
	assert.Equal(t, timber.Instant, strict.GovernedBy)
}

func FuzzReckonSpan(f *testing.F) {
	f.Add("ec5", "C16", 47.0, 145.0, 400.0, 0.25, 0.6, 0.9, 0.0, 2600.0, 50.0, 0.0, 0.0, 0.0)
	f.Add("bs5268", "C24", 38.0, 97.0, 600.0, 0.75, 0.75, 0.9, 1.2, 1800.0, 75.0, 360.0, 0.0, 0.0)
	f.Add("nds", "DF-L #2", 38.1, 184.15, 406.4, 0.479, 0.958, 0.0, 0.0, 3000.0, 38.0, 240.0, 0.0, 0.0)
	f.Add("ec5", "C24", 75.0, 220.0, 600.0, 0.4, 0.6, 0.9, 0.5, 3200.0, 90.0, 0.0, 3.2, 300.0)
	f.Add("", "", math.NaN(), math.Inf(1), -1.0, 1e300, -1e300, 5e-324, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, method, grade string, b, h, centres, dead, imposed, point, snow, clear, bearing, limit, drift, tail float64) {
		in := timber.SpanIn{Method: method, Grade: grade, BMM: b, HMM: h, CentresMM: centres, DeadKNM2: dead,
			ImposedKNM2: &imposed, PointKN: &point, SnowKNM2: &snow, BearingMM: &bearing, TailMM: &tail}
		if clear != 0 {
			in.ClearMM = &clear
		}
		if limit != 0 {
			in.DeflectionLimit = &limit
		}
		if drift != 0 {
			in.DriftKNM2, in.DriftLengthMM = &drift, ptr(5000.0)
		}
		out, err := timber.ReckonSpan(in)
		if err != nil {
			var d *calc.DomainError
			require.ErrorAs(t, err, &d)
			return
		}
		for _, v := range []float64{out.MaxClearSpanMM, out.JudgedSpanMM, out.DesignSpanMM, out.OwnWeightKNM, out.HoldKN, out.LastingSagMM, out.LastingFall} {
			require.True(t, v >= 0 && !math.IsInf(v, 0), "%+v", out)
		}
		for name, u := range out.Utilisation {
			require.True(t, u >= 0 && !math.IsInf(u, 0), "%s %v", name, u)
		}
	})
}
