package glue_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc"
	"chargehand/calc/glue"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Regression of our own model: half of a 13.6 m² field needs W of 19.8 alone and
// 12.5 for two; at the first-batch share 23.1 and 14.6; two on a roof without a
// way off at the outer edge get 4.3 m² from 13 min.
func TestBatchWorkedByHand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		hands  int
		factor float64
		w      unit.Minutes
	}{{1, glue.AfterGood, 19.8}, {2, glue.AfterGood, 12.6}, {1, glue.FirstBatch, 23.3}, {2, glue.FirstBatch, 14.7}} {
		p, err := glue.Batch(glue.BatchInput{Window: c.w, Factor: c.factor, Hands: c.hands, WayOff: true})
		require.NoError(t, err)
		assert.InDelta(t, 6.8, p.Area.In(unit.SquareMetre), 0.06, "%+v", c)
	}
	p, err := glue.Batch(glue.BatchInput{Window: 13, Factor: glue.AfterGood, Hands: 2})
	require.NoError(t, err)
	assert.InDelta(t, 4.3, p.Area.In(unit.SquareMetre), 0.05)
	assert.Equal(t, glue.OuterInward, p.Direction)
	// Fold 2.9 m: a strip of 2.4 m; fold 5.5 m: 1.3 m.
	for fold, want := range map[unit.Length]float64{2900: 2.4, 5500: 1.3} {
		p, err := glue.Batch(glue.BatchInput{Window: 13, Factor: glue.AfterGood, Hands: 2, WayOff: true, Fold: fold})
		require.NoError(t, err)
		assert.InDelta(t, want, p.Strip.In(unit.Metre), 0.05)
		assert.Equal(t, glue.FoldOutward, p.Direction)
	}
}

func TestBatchShape(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 12))
	area := func(in glue.BatchInput) unit.Area {
		p, err := glue.Batch(in)
		require.NoError(t, err)
		return p.Area
	}
	for range 2000 {
		in := glue.BatchInput{
			Window: unit.Minutes(40 * r.Float64()), Factor: 0.3 + 0.6*r.Float64(), Hands: 1 + r.IntN(3), WayOff: true,
			Roll: glue.Rate(0.3 + 2*r.Float64()), Lay: glue.Rate(0.3 + 2*r.Float64()), Turn: unit.Minutes(0.5 + 3*r.Float64()),
		}
		for _, more := range []func(*glue.BatchInput){
			func(b *glue.BatchInput) { b.Window += 2 },
			func(b *glue.BatchInput) { b.Factor += 0.1 },
			func(b *glue.BatchInput) { b.Roll *= 1.2 },
			func(b *glue.BatchInput) { b.Lay *= 1.2 },
			func(b *glue.BatchInput) { b.Turn *= 0.8 },
		} {
			better := in
			more(&better)
			require.GreaterOrEqual(t, area(better), area(in))
		}
		shut := in
		shut.WayOff = false
		require.LessOrEqual(t, area(shut), area(in))
		in.Fold, in.Field = 4000*unit.Millimetre, unit.Area(5+20*r.Float64())*unit.SquareMetre
		p, err := glue.Batch(in)
		require.NoError(t, err)
		if p.NoGo != "" {
			require.Zero(t, p.Area)
			continue
		}
		require.GreaterOrEqual(t, p.Batches, 2)
		require.LessOrEqual(t, float64(p.Each), float64(p.Area)+1e-3)
		require.InDelta(t, float64(in.Field), float64(p.Each)*float64(p.Batches), 1e-3)
		require.GreaterOrEqual(t, p.Strip, 400*unit.Millimetre)
	}
}

func TestTooShortToWorkIn(t *testing.T) {
	t.Parallel()
	p, err := glue.Batch(glue.BatchInput{Window: 0, Hands: 2, WayOff: true})
	require.NoError(t, err)
	assert.Equal(t, glue.AreaSmall, p.NoGo)
	p, err = glue.Batch(glue.BatchInput{Window: 8, Hands: 2, WayOff: true, Fold: 9000})
	require.NoError(t, err)
	assert.Equal(t, glue.StripNarrow, p.NoGo)
	assert.Zero(t, p.Area)
}

func TestBatchRefuses(t *testing.T) {
	t.Parallel()
	for field, spoil := range map[string]func(*glue.BatchInput){
		"hands":       func(in *glue.BatchInput) { in.Hands = 0 },
		"rollers":     func(in *glue.BatchInput) { in.Rollers = 3 },
		"window_min":  func(in *glue.BatchInput) { in.Window = unit.Minutes(math.NaN()) },
		"factor":      func(in *glue.BatchInput) { in.Factor = 1.1 },
		"roll_m2_min": func(in *glue.BatchInput) { in.Roll = 7 },
		"lay_m2_min":  func(in *glue.BatchInput) { in.Lay = -1 },
		"turn_min":    func(in *glue.BatchInput) { in.Turn = 31 },
		"field_m2":    func(in *glue.BatchInput) { in.Field = -1 },
		"fold_mm":     func(in *glue.BatchInput) { in.Fold = 400 },
	} {
		in := glue.BatchInput{Window: 13, Hands: 2}
		spoil(&in)
		_, err := glue.Batch(in)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, field)
		assert.Equal(t, field, domain.Field)
	}
	for _, in := range []glue.FieldInput{
		{Fold: 400, Depth: 2900, Batch: glue.BatchInput{Window: 13, Hands: 2}},
		{Fold: 5500, Depth: 400, Batch: glue.BatchInput{Window: 13, Hands: 2}},
		{Fold: 5500, Depth: 2900, Batch: glue.BatchInput{Window: 13, Hands: 4}},
	} {
		_, err := glue.Lay(in)
		require.Error(t, err)
	}
}

func TestReckonBatch(t *testing.T) {
	t.Parallel()
	f, fold, field := 0.7, 2900.0, 13.6
	out, err := glue.ReckonBatch(glue.BatchIn{WindowMin: 13, Hands: 2, Factor: &f, FoldMM: &fold, FieldM2: &field})
	require.NoError(t, err)
	assert.InDelta(t, 7.1, out.AreaM2, 1e-9)
	assert.InDelta(t, 2448, *out.StripMM, 0.5)
	assert.Equal(t, 2, *out.Batches)
	assert.Equal(t, "fold_outward", out.Direction)
	assert.InDelta(t, 9.1, out.OldestMin, 1e-9)
	assert.Equal(t, []string{"way_off_outer"}, out.Assumed)

	no := false
	out, err = glue.ReckonBatch(glue.BatchIn{WindowMin: 13, Hands: 2, WayOffOuter: &no})
	require.NoError(t, err)
	assert.Equal(t, "outer_inward", out.Direction)
	assert.Equal(t, []string{"factor"}, out.Assumed)

	out, err = glue.ReckonBatch(glue.BatchIn{WindowMin: 3, Hands: 1})
	require.NoError(t, err)
	assert.Equal(t, "area_small", *out.Stop)
	assert.Zero(t, out.AreaM2)
	assert.Nil(t, out.Batches)

	zero, none, five := 0.0, 0, 5
	for field, in := range map[string]glue.BatchIn{
		"hands":       {WindowMin: 13, Hands: 4},
		"rollers":     {WindowMin: 13, Hands: 1, Rollers: &none},
		"rollers ":    {WindowMin: 13, Hands: 3, Rollers: &five},
		"window_min":  {WindowMin: -1, Hands: 1},
		"factor":      {WindowMin: 13, Hands: 1, Factor: &zero},
		"field_m2":    {WindowMin: 13, Hands: 1, FieldM2: &zero},
		"fold_mm":     {WindowMin: 13, Hands: 1, FoldMM: &zero},
		"roll_m2_min": {WindowMin: 13, Hands: 1, RollM2Min: &zero},
		"lay_m2_min":  {WindowMin: 13, Hands: 1, LayM2Min: &zero},
		"turn_min":    {WindowMin: 13, Hands: 1, TurnMin: &zero},
	} {
		_, err := glue.ReckonBatch(in)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, field)
		assert.Equal(t, field[:len(domain.Field)], domain.Field)
	}
}

func FuzzReckonBatch(f *testing.F) {
	f.Add(13.0, 2, 0.7, 13.6, 2900.0)
	f.Add(0.0, 1, 1.0, 0.1, 500.0)
	f.Add(480.0, 3, 0.1, 1000.0, 30000.0)
	f.Add(math.NaN(), -1, math.Inf(1), -5.0, 0.0)
	f.Fuzz(func(t *testing.T, w float64, hands int, factor, field, fold float64) {
		out, err := glue.ReckonBatch(glue.BatchIn{WindowMin: w, Hands: hands, Factor: &factor, FieldM2: &field, FoldMM: &fold})
		if err != nil {
			return
		}
		if (out.AreaM2 == 0) != (out.Stop != nil) {
			t.Fatalf("nothing to spread wants a reason: %+v", out)
		}
		if out.Stop == nil && !(out.AreaM2 >= 1 && *out.StripMM >= 400 && *out.Batches >= 2 && out.OldestMin <= w+1e-9) {
			t.Fatalf("%+v", out)
		}
	})
}

func BenchmarkLay(b *testing.B) {
	in := glue.FieldInput{Fold: 5500, Depth: 2900, Batch: glue.BatchInput{Window: 13, Hands: 2}}
	for b.Loop() {
		if _, err := glue.Lay(in); err != nil {
			b.Fatal(err)
		}
	}
}

func ExampleLay() {
	plan, err := glue.Lay(glue.FieldInput{
		Fold: 5500, Depth: 2900, Batch: glue.BatchInput{Window: 13, Factor: glue.AfterGood, Hands: 2},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range plan.Strips {
		fmt.Printf("%s half: roll %.0f to %.0f mm, %s, oldest %.1f min, off by %s\n",
			s.Half, float64(s.Start), float64(s.End), s.Direction, float64(s.Oldest), s.RollerWay)
	}
	// Output:
	// far half: roll 725 to 1450 mm, outer_inward, oldest 8.6 min, off by ladder
	// far half: roll 0 to 725 mm, outer_inward, oldest 8.6 min, off by ladder
	// near half: roll 1450 to 2175 mm, fold_outward, oldest 6.0 min, off by ladder
	// near half: roll 2175 to 2900 mm, fold_outward, oldest 6.0 min, off by ladder
}
