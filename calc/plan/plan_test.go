package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
)

func mm(x float64) *unit.Length { l := unit.Length(x); return &l }
func num(x float64) *float64    { return &x }

// fourFree is a detached garage with four free edges; threeWalls a roof between
// three walls. Both are invented; what is expected of them is worked by hand in
// the comments beside it.
func fourFree() plan.Inputs {
	return plan.Inputs{
		Use: "unheated", Hands: 2, Length: mm(5500), Depth: mm(2900), Edges: []string{"gutter", "verge", "verge", "verge"}, ClearSpan: mm(2600), Drop: mm(73),
		WallAbove: mm(0), Altitude: num(80), SnowZone: "2", Plate: "on-wall", PlateWidth: mm(100), PlateHeight: mm(50),
		BoardLength: mm(2400), BoardWidth: mm(1200), MaxCentres: mm(410), Grade: "C16", JoistB: mm(47), JoistH: mm(145), JoistFix: "skew-strap",
		BoardThick: mm(18), Noggins: true, Fascia: mm(18), Batten: mm(38), Trim: mm(10), GutterSize: mm(112), TrimStock: []unit.Length{2500, 3000},
	}
}

func threeWalls() plan.Inputs {
	in := fourFree()
	in.Length, in.Depth, in.Edges = mm(3200), mm(5400), []string{"gutter", "wall", "wall", "wall"}
	in.Drop = mm(135)
	return in
}

func TestFourFreeEdgesByHand(t *testing.T) {
	p := plan.Reckon(fourFree(), nil)
	require.Empty(t, p.Faults)
	assert.InDelta(t, 15.95, p.Area.In(unit.SquareMetre), 1e-9) // 5.5 x 2.9
	assert.Equal(t, calc.Within, p.Fall.Status)                 // 2900/73 = 39.7, and 72.5 rounds to 73
	// 2400 + 3 = 2403 over 6 bays, since 2403/410 = 5.9
	assert.InDelta(t, 400.5, float64(p.Joists.Centres), 1e-9)
	assert.Equal(t, 15, p.Joists.Count)
	assert.InDelta(t, 22, float64(p.Joists.JointBearing), 1e-9) // (47 - 3)/2
	// 150 beyond each free edge, up to the supplier's 100
	assert.EqualValues(t, 5800, p.Sheet.Length)
	assert.EqualValues(t, 3200, p.Sheet.Width)
	assert.InDelta(t, 13.52, p.Field.In(unit.SquareMetre), 1e-9)      // 5.2 x 2.6
	assert.InDelta(t, 4.11, p.ContactArea.In(unit.SquareMetre), 1e-9) // 15.95 - 13.52 + 16.8 x 0.1
	assert.EqualValues(t, 30, p.Drip.Drip)                            // 38 + 10 - 18
	assert.Equal(t, 4, p.Trims.Corners)
	assert.Zero(t, p.Trims.Ends)
	// 5.5 m from 3.0 + 2.5: (3000/300 + 1) + (ceil(2500/300) + 1) = 11 + 10
	assert.Equal(t, 21, p.Trims.Edges[0].Nails)
	assert.Nil(t, p.Bar)
	assert.Nil(t, p.Lead)
}

func TestThreeWallsByHand(t *testing.T) {
	p := plan.Reckon(threeWalls(), nil)
	require.Empty(t, p.Faults)
	// walls want 150 + 50 + 50 = 250: 3.2 + 0.5 and 5.4 + 0.15 + 0.25
	assert.EqualValues(t, 3700, p.Sheet.Length)
	assert.EqualValues(t, 5800, p.Sheet.Width)
	assert.InDelta(t, 14.79, p.Field.In(unit.SquareMetre), 1e-9)      // 2.9 x 5.1
	assert.InDelta(t, 4.91, p.ContactArea.In(unit.SquareMetre), 1e-9) // 2.49 + 14.0 x 0.15 + 3.2 x 0.1
	assert.Equal(t, []int{28, 17, 28}, p.Bar.Screws)                  // ceil((5400-100)/200)+1, ceil((3200-100)/200)+1
	pieces := []int{}
	for _, r := range p.Lead.Runs {
		pieces = append(pieces, r.Pieces)
	}
	assert.Equal(t, []int{4, 3, 4}, pieces) // ceil((5400-100)/1400), ceil((3200-100)/1400)
	assert.Equal(t, 2, p.Trims.Ends)
	assert.Zero(t, p.Trims.Corners)
	assert.Equal(t, 2, p.Patches, "where the walls meet the gutter; the back corners are folded")
}

// A plan must not depend on what was worked out before it.
func TestReckonFromAnEarlierPlanIsTheSame(t *testing.T) {
	before := plan.Reckon(fourFree(), nil)
	for name, in := range map[string]plan.Inputs{"same": fourFree(), "other": threeWalls()} {
		fresh, from := plan.Reckon(in, nil), plan.Reckon(in, before)
		assert.Equal(t, fresh.Figures(), from.Figures(), name)
		assert.Equal(t, fresh.Bill, from.Bill, name)
		assert.Equal(t, fresh.Span, from.Span, name)
	}
}

func TestDiffNamesWhatMoved(t *testing.T) {
	a := fourFree()
	b := fourFree()
	b.MaxCentres = mm(601)
	moved := map[string]plan.Change{}
	for _, c := range plan.Diff(plan.Reckon(a, nil), plan.Reckon(b, nil)) {
		moved[c.Key] = c
	}
	require.Contains(t, moved, "joist-centres")
	assert.Equal(t, []float64{400.5}, moved["joist-centres"].Old.Nums)
	assert.Equal(t, []float64{600.8}, moved["joist-centres"].New.Nums) // 2403/4 = 600.75
	assert.NotContains(t, moved, "sheet-length", "the sheet does not hang on the joists")
	assert.Empty(t, plan.Diff(plan.Reckon(a, nil), plan.Reckon(fourFree(), nil)))
}

// What is not known leaves its part nil and never fails.
func TestMissingInputsLeavePartsNil(t *testing.T) {
	p := plan.Reckon(plan.Inputs{}, nil)
	assert.Empty(t, p.Figures())
	assert.Empty(t, p.Faults)
	in := fourFree()
	in.Altitude = nil
	p = plan.Reckon(in, nil)
	assert.Nil(t, p.Snow)
	assert.Nil(t, p.Span, "a joist judged without its snow would look stronger than it is")
}

func TestOutOfSquareAndWalked(t *testing.T) {
	in := fourFree()
	in.Shape = "four-sided"
	in.Sides = &[4]unit.Length{5500, 2900, 5500, 2900}
	in.Diagonals = &[2]unit.Length{6249, 6187} // 35 mm to the right over 2900: sqrt(5535² + 2900²), sqrt(5465² + 2900²)
	p := plan.Reckon(in, nil)
	require.NotNil(t, p.Outline)
	assert.InDelta(t, 35, float64(*p.Skew), 1)
	assert.Less(t, float64(*p.Misclosure), 2.0)
	require.Empty(t, p.Faults)
	assert.NotNil(t, p.Deck)
	assert.NotNil(t, p.Sheet)

	in = fourFree()
	in.Shape, in.Length, in.Depth, in.Edges = "walked", nil, nil, nil
	for _, s := range []struct {
		l    float64
		turn geom.Turn
		k    geom.Kind
	}{{5000, "right", "gutter"}, {4800, "right", "verge"}, {2200, "right", "verge"}, {1800, "left", "verge"}, {2800, "right", "verge"}, {3000, "right", "verge"}} {
		in.Walk = append(in.Walk, geom.Step{Length: unit.Length(s.l), Turn: s.turn, Kind: s.k})
	}
	p = plan.Reckon(in, nil)
	require.NotNil(t, p.Outline)
	assert.InDelta(t, 18.96, p.Area.In(unit.SquareMetre), 1e-6) // 5.0 x 3.0 + 2.2 x 1.8
	assert.Equal(t, 2, p.Deck.Parts)
	assert.NotNil(t, p.Bill)
	for _, f := range p.Figures() {
		for _, n := range f.Nums {
			assert.False(t, math.IsNaN(n) || math.IsInf(n, 0), f.Key)
		}
	}
}

func BenchmarkReckon(b *testing.B) {
	for name, in := range map[string]plan.Inputs{"four free edges": fourFree(), "three walls": threeWalls()} {
		b.Run(name+"/from nothing", func(b *testing.B) {
			for b.Loop() {
				plan.Reckon(in, nil)
			}
		})
		b.Run(name+"/after an answer", func(b *testing.B) {
			before := plan.Reckon(in, nil)
			for b.Loop() {
				plan.Reckon(in, before)
			}
		})
	}
}
