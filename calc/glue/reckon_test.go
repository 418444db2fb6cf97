package glue_test

import (
	"testing"

	"chargehand/calc"
	"chargehand/calc/glue"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ptr[T any](v T) *T { return &v }

// askWet is complete: nothing needs assuming.
func askWet() glue.WindowIn {
	return glue.WindowIn{
		Method: "wet", LabelMin: ptr(20.0), LabelC: ptr(20.0), SurfaceC: 21, AirC: ptr(20.0),
		Damp: ptr("normal"), Wind: ptr("breeze"), Substrate: ptr("board"),
	}
}

func TestReckonWindowWet(t *testing.T) {
	t.Parallel()
	out, err := glue.ReckonWindow(askWet())
	require.NoError(t, err)
	assert.InDelta(t, 14.0, out.WindowMin, 0.05)
	assert.InDelta(t, 14.0, *out.By.PocketMin, 0.05)
	assert.InDelta(t, 14.2, *out.By.EvaporationMin, 0.05)
	assert.Nil(t, out.Stop)
	assert.Nil(t, out.ReadyMin)
	assert.Empty(t, out.Assumed)

	// Measured values where the taps stand give the same.
	in := askWet()
	in.Damp, in.Wind, in.RHPct, in.WindMS = nil, nil, ptr(55.0), ptr(2.0)
	measured, err := glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Equal(t, out, measured)
}

// What is not known is taken at its cautious end, and said.
func TestReckonWindowUnknownIsCautiousAndSaid(t *testing.T) {
	t.Parallel()
	known, err := glue.ReckonWindow(askWet())
	require.NoError(t, err)
	for name, forget := range map[string]func(*glue.WindowIn){
		"rh_pct":    func(in *glue.WindowIn) { in.Damp = nil },
		"wind":      func(in *glue.WindowIn) { in.Wind = nil },
		"label_min": func(in *glue.WindowIn) { in.LabelMin = nil },
	} {
		in := askWet()
		forget(&in)
		out, err := glue.ReckonWindow(in)
		require.NoError(t, err, name)
		assert.Equal(t, []string{name}, out.Assumed)
		assert.Less(t, out.WindowMin, known.WindowMin, name)
	}
	// Unknown humidity is dry for the window and damp for the dew margin: 8 °C
	// at 80 % has a dew point of 4.8 °C.
	in := askWet()
	in.Damp, in.AirC, in.SurfaceC = nil, ptr(8.0), 7
	out, err := glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Equal(t, "dew_margin", *out.Stop)
	assert.Zero(t, out.WindowMin)
	assert.Equal(t, []string{"surface_low"}, out.Cautions)
}

func TestReckonWindowUpperNumberNeedsASquareOfToday(t *testing.T) {
	t.Parallel()
	in := askWet()
	in.SurfaceC, in.AirC, in.MaxMin = 12, ptr(12.0), ptr(30.0)
	out, err := glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Equal(t, 20.0, out.WindowMin)
	assert.Equal(t, "label", *out.Cap)
	in.JobFactor = ptr(1.2)
	out, err = glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.InDelta(t, 1.2*21.5, out.WindowMin, 0.1)
	in.SquareToday = ptr(false)
	out, err = glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Equal(t, 20.0, out.WindowMin, "a factor of another day may shorten, not lengthen")
	in.JobFactor = ptr(0.5)
	out, err = glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.InDelta(t, 0.5*21.5, out.WindowMin, 0.1)
}

func TestReckonWindowContact(t *testing.T) {
	t.Parallel()
	in := glue.WindowIn{Method: "contact", LabelMin: ptr(15.0), MaxMin: ptr(45.0), LabelC: ptr(20.0), SurfaceC: 10, OtherSurfaceC: ptr(45.0), Wind: ptr("calm")}
	out, err := glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Zero(t, out.WindowMin)
	assert.Equal(t, "empty", *out.Stop)
	assert.InDelta(t, 25.5, *out.ReadyMin, 0.05)
	assert.InDelta(t, 16.3, *out.DeadMin, 0.05)
	assert.InDelta(t, 13.1, *out.PressByMin, 0.05)
	assert.Equal(t, "surface", *out.CoatFirst)
	assert.InDelta(t, 21.5, *out.WaitMin, 0.05)
	assert.InDelta(t, 12.4, *out.LeastWaitMin, 0.05)
	assert.Equal(t, []string{"dew_margin"}, out.Assumed)
	assert.Equal(t, []string{"surface_high"}, out.Cautions)

	in.SurfaceC, in.OtherSurfaceC = 20, nil
	out, err = glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.InDelta(t, 0.8*45-15, out.WindowMin, 1e-9)
	assert.Equal(t, []string{"other_surface_c", "dew_margin"}, out.Assumed)
	assert.Nil(t, out.CoatFirst)

	in.LabelMin, in.MaxMin, in.Wind = nil, nil, nil
	out, err = glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Equal(t, []string{"wind", "label_min", "max_min", "other_surface_c", "dew_margin"}, out.Assumed)

	// Damp bloom: solvent needs 5 K, and 20 °C at 80 % has a dew point of 16.4 °C.
	in.AirC, in.Damp = ptr(20.0), ptr("damp")
	out, err = glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Equal(t, "dew_margin", *out.Stop)
	assert.Zero(t, out.WindowMin)

	in.Damp = nil
	in.Film, in.LabelMin, in.MaxMin, in.SurfaceC = ptr("thick"), ptr(20.0), ptr(30.0), 30
	out, err = glue.ReckonWindow(in)
	require.NoError(t, err)
	assert.Equal(t, "never_opens", *out.Stop)
}

func TestReckonWindowRefuses(t *testing.T) {
	t.Parallel()
	contact := func() glue.WindowIn { return glue.WindowIn{Method: "contact", SurfaceC: 20} }
	for name, c := range map[string]struct {
		in    glue.WindowIn
		spoil func(*glue.WindowIn)
	}{
		"method":          {askWet(), func(in *glue.WindowIn) { in.Method = "spray" }},
		"air_c":           {askWet(), func(in *glue.WindowIn) { in.AirC = nil }},
		"substrate":       {askWet(), func(in *glue.WindowIn) { in.Substrate = nil }},
		"substrate/foil":  {askWet(), func(in *glue.WindowIn) { in.Substrate = ptr("foil") }},
		"other_surface_c": {askWet(), func(in *glue.WindowIn) { in.OtherSurfaceC = ptr(20.0) }},
		"film":            {askWet(), func(in *glue.WindowIn) { in.Film = ptr("thin") }},
		"damp":            {askWet(), func(in *glue.WindowIn) { in.RHPct = ptr(50.0) }},
		"damp/word":       {askWet(), func(in *glue.WindowIn) { in.Damp = ptr("soggy") }},
		"wind":            {askWet(), func(in *glue.WindowIn) { in.WindMS = ptr(2.0) }},
		"wind/word":       {askWet(), func(in *glue.WindowIn) { in.Wind = ptr("gale") }},
		"job_factor":      {askWet(), func(in *glue.WindowIn) { in.JobFactor = ptr(0.0) }},
		"max_min":         {askWet(), func(in *glue.WindowIn) { in.MaxMin = ptr(0.0) }},
		"label2_c":        {askWet(), func(in *glue.WindowIn) { in.Label2Min = ptr(10.0) }},
		"label2_min":      {askWet(), func(in *glue.WindowIn) { in.Label2C = ptr(30.0) }},
		"surface_c":       {askWet(), func(in *glue.WindowIn) { in.SurfaceC = 200 }},
		"rh_pct":          {askWet(), func(in *glue.WindowIn) { in.Damp, in.RHPct = nil, ptr(140.0) }},
		"label_min":       {contact(), func(in *glue.WindowIn) { in.LabelMin = ptr(0.0) }},
		"max_min/contact": {contact(), func(in *glue.WindowIn) { in.MaxMin = ptr(0.0) }},
		"rh_pct/contact":  {contact(), func(in *glue.WindowIn) { in.AirC, in.RHPct = ptr(20.0), ptr(140.0) }},
		"air_c/contact":   {contact(), func(in *glue.WindowIn) { in.AirC, in.RHPct = ptr(99.0), ptr(40.0) }},
		"damp/contact":    {contact(), func(in *glue.WindowIn) { in.Damp = ptr("soggy") }},
		"film/contact":    {contact(), func(in *glue.WindowIn) { in.Film = ptr("dripping") }},
		"job_factor/dry":  {contact(), func(in *glue.WindowIn) { in.JobFactor = ptr(1.0) }},
	} {
		c.spoil(&c.in)
		_, err := glue.ReckonWindow(c.in)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, name)
		assert.Equal(t, domain.Field, name[:min(len(name), len(domain.Field))], name)
		assert.NotEmpty(t, domain.Wanted, name)
	}
}
