package takeoff_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Nothing known: only what every roof uses up, and every other line is named.
func TestListOfNothing(t *testing.T) {
	t.Parallel()
	bill, err := takeoff.List(takeoff.Input{})
	require.NoError(t, err)
	for _, l := range bill.Lines {
		assert.Equal(t, takeoff.Sundry, l.Where, l.Key)
	}
	seen := map[takeoff.Key]bool{}
	for _, k := range bill.Missing {
		assert.False(t, seen[k], "%s named twice", k)
		seen[k] = true
	}
	for _, in := range []takeoff.Input{fourFreeEdges(), threeWalls()} {
		full, err := takeoff.List(in)
		require.NoError(t, err)
		for _, l := range full.Lines {
			if l.Where != takeoff.Sundry && l.Key != takeoff.Patination {
				assert.True(t, seen[l.Key], "%s is not named as missing", l.Key)
			}
		}
	}
}

func TestListNamesWhatIsMissing(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		change func(*takeoff.Input)
		want   []takeoff.Key
	}{
		{func(in *takeoff.Input) { in.PlateRuns = nil }, []takeoff.Key{takeoff.PlateTimber}},
		{func(in *takeoff.Input) { in.AnchorRuns = nil }, []takeoff.Key{takeoff.Anchors, takeoff.Resin}},
		{func(in *takeoff.Input) { in.ResinHole = nil }, []takeoff.Key{takeoff.Resin}},
		{func(in *takeoff.Input) { in.ResinHole, in.NoResin = nil, true }, nil},
		{func(in *takeoff.Input) { in.HangerHoles = nil }, []takeoff.Key{takeoff.HangerNails}},
		{func(in *takeoff.Input) { in.HangerEnds = nil }, []takeoff.Key{takeoff.Hangers, takeoff.HangerNails}},
		{func(in *takeoff.Input) { in.PlateEnds = nil }, []takeoff.Key{takeoff.Clips, takeoff.SkewNails}},
		{func(in *takeoff.Input) { in.DeckEdge = "" }, []takeoff.Key{takeoff.DeckScrews}},
		{func(in *takeoff.Input) { in.Upstands = nil }, []takeoff.Key{takeoff.UpstandBoard, takeoff.UpstandPlugs}},
		{func(in *takeoff.Input) { in.Patches = nil }, []takeoff.Key{takeoff.Primer, takeoff.Patches}},
		{func(in *takeoff.Input) { in.Pipes = nil }, []takeoff.Key{takeoff.Primer, takeoff.Patches}},
		{func(in *takeoff.Input) { in.BarRuns = nil }, []takeoff.Key{takeoff.EdgeSealant, takeoff.WaterStop, takeoff.Bar, takeoff.BarScrews}},
		{func(in *takeoff.Input) { in.PatchEdge = nil }, []takeoff.Key{takeoff.EdgeSealant}},
		{func(in *takeoff.Input) { in.Trims = nil }, []takeoff.Key{takeoff.Trim, takeoff.TrimNails}},
		{func(in *takeoff.Input) { in.GutterRuns = nil }, []takeoff.Key{takeoff.Gutter, takeoff.StopEnds, takeoff.Brackets}},
		{func(in *takeoff.Input) { in.LeadRuns = nil }, []takeoff.Key{takeoff.LeadSheet, takeoff.LeadClips}},
		{func(in *takeoff.Input) { in.ChaseRuns = nil }, []takeoff.Key{takeoff.Wedges, takeoff.ChaseSealant}},
		{func(in *takeoff.Input) { in.Deck = nil }, []takeoff.Key{takeoff.Cover}},
		{func(in *takeoff.Input) { in.Rubbish = nil }, []takeoff.Key{takeoff.Skip}},
	} {
		in := threeWalls()
		c.change(&in)
		bill, err := takeoff.List(in)
		require.NoError(t, err)
		assert.ElementsMatch(t, c.want, bill.Missing)
		for _, l := range bill.Lines {
			assert.NotContains(t, c.want, l.Key)
		}
	}
}

// A design's own numbers replace the spacing rules.
func TestListFromADesign(t *testing.T) {
	t.Parallel()
	in := threeWalls()
	in.AnchorRuns, in.Anchors = nil, ptr(28)
	in.StrapRuns, in.Straps = nil, ptr(8)
	bill, err := takeoff.List(in)
	require.NoError(t, err)
	assert.Empty(t, bill.Missing)
	assert.InDelta(t, 28, line(t, bill, takeoff.Anchors).Needed, 0)
	assert.InDelta(t, 3, line(t, bill, takeoff.Anchors).Waste, 0) // one to each ten begun
	assert.InDelta(t, 8, line(t, bill, takeoff.Straps).ToBuy, 0)
}

// Waste never costs a joint: 6.0 m of plate is one length of 6.0, not two.
func TestWasteNeverCostsAJoint(t *testing.T) {
	t.Parallel()
	in := threeWalls()
	in.PlateRuns = []unit.Length{6000, 5900, 6500}
	bill, err := takeoff.List(in)
	require.NoError(t, err)
	l := line(t, bill, takeoff.PlateTimber)
	// 6.0 → 6.0 with no waste; 5.9 → 6.0 with 0.1; 6.5 and a half-lap of 0.1 →
	// 4.2 + 3.0 with 0.33
	assert.InDelta(t, 18.5, l.Needed, 1e-9)
	assert.InDelta(t, 0+0.1+0.33, l.Waste, 1e-9)
	assert.InDelta(t, 19.2, l.ToBuy, 1e-9)
	assert.InDelta(t, l.ToBuy, l.Needed+l.Waste+l.LeftOver, 1e-9)
}

// Metres that add up are not enough when no roll has room for the last piece:
// 22 pieces of 1.01 m want 24 m by the metre with waste, but five fit in 6 m.
func TestLeadPiecesFitTheRolls(t *testing.T) {
	t.Parallel()
	in := threeWalls()
	in.LeadRuns = nil
	for range 22 {
		in.LeadRuns = append(in.LeadRuns, takeoff.LeadRun{Run: 1010, Width: 150, Density: 20.4})
	}
	bill, err := takeoff.List(in)
	require.NoError(t, err)
	l := line(t, bill, takeoff.LeadSheet)
	assert.InDelta(t, 22.22, l.Needed, 1e-9)
	assert.InDelta(t, 27, l.ToBuy, 1e-9) // four of 6 hold 20, one of 3 holds 2
	assert.InDelta(t, l.ToBuy, l.Needed+l.Waste+l.LeftOver, 1e-9)

	in.Packs = map[takeoff.Key][]takeoff.PackSize{takeoff.LeadSheet: tins(1)}
	_, err = takeoff.List(in)
	assertDomain(t, err, "packs")
}

// A 240 roll is not cut from a 150 one: a line for each width, and a price told
// for lead then belongs to neither.
func TestLeadOfTwoWidths(t *testing.T) {
	t.Parallel()
	in := threeWalls()
	in.LeadRuns[1].Width = 240
	in.Packs = map[takeoff.Key][]takeoff.PackSize{takeoff.LeadSheet: priced(3, 4000, 6, 7800)}
	bill, err := takeoff.List(in)
	require.NoError(t, err)
	var lead []takeoff.Line
	for _, l := range bill.Lines {
		if l.Key == takeoff.LeadSheet {
			lead = append(lead, l)
		}
	}
	require.Len(t, lead, 2)
	assert.InDelta(t, 11.4, lead[0].Needed, 1e-9) // 5.4 and 5.4 in four pieces each
	assert.InDelta(t, 3.4, lead[1].Needed, 1e-9)  // 3.2 in three
	assert.Equal(t, []unit.Length{240}, lead[1].Size)
	assert.InDelta(t, 3.4*0.24*20.4, float64(lead[1].Mass), 1e-9)
	assert.Nil(t, lead[0].Cost)

	in.LeadRuns[1].Width = 150
	bill, err = takeoff.List(in)
	require.NoError(t, err)
	assert.Equal(t, takeoff.Money(3*7800), *line(t, bill, takeoff.LeadSheet).Cost)
}

// A trim whose last piece would be a sliver takes some off the piece before.
func TestTrimNailsOfASliver(t *testing.T) {
	t.Parallel()
	in := threeWalls()
	in.Trims = []takeoff.TrimEdge{{Run: 5020}} // 2.5 + 3.0 → 3000 and 2020
	bill, err := takeoff.List(in)
	require.NoError(t, err)
	assert.InDelta(t, 11+8, line(t, bill, takeoff.TrimNails).Needed, 0)
	in.Trims = []takeoff.TrimEdge{{Run: 5020}}
	in.Packs = map[takeoff.Key][]takeoff.PackSize{takeoff.Trim: tins(5)} // 5.0 + 0.02 → 4.92 + 0.10
	bill, err = takeoff.List(in)
	require.NoError(t, err)
	assert.InDelta(t, 18+2, line(t, bill, takeoff.TrimNails).Needed, 0) // 4920/300 = 16.4 → 17 + 1
}

func TestListPricesAndGroups(t *testing.T) {
	t.Parallel()
	in := threeWalls()
	in.Packs = map[takeoff.Key][]takeoff.PackSize{
		takeoff.Gutter:       priced(2, 700, 4, 1200),
		takeoff.StopEnds:     priced(1, 150),
		takeoff.Brackets:     priced(1, 120),
		takeoff.Outlets:      priced(1, 450),
		takeoff.Downpipe:     priced(2.5, 900),
		takeoff.JoistTimber:  priced(3.3, 1400),
		takeoff.Sheet:        priced(1, 1050),
		takeoff.UpstandBoard: priced(1, 800),
		takeoff.Gloves:       priced(1, 300),
	}
	bill, err := takeoff.List(in)
	require.NoError(t, err)
	assert.Nil(t, bill.Cost)
	assert.Equal(t, takeoff.Money(17*1400), *line(t, bill, takeoff.JoistTimber).Cost)
	assert.Equal(t, takeoff.Money(22533), *line(t, bill, takeoff.Sheet).Cost)       // 21.46 · 10.50
	assert.Equal(t, takeoff.Money(2193), *line(t, bill, takeoff.UpstandBoard).Cost) // 2.7412 · 8.00
	rain := takeoff.Money(1200 + 2*150 + 5*120 + 450 + 900)
	assert.Equal(t, rain+17*1400+22533+2193+300, bill.Priced)
	groups := bill.Groups()
	n := 0
	for _, g := range groups {
		n += len(g.Lines)
		for _, l := range g.Lines {
			assert.Equal(t, g.Where, l.Where)
		}
		if g.Where == takeoff.Rainwater {
			assert.Equal(t, rain, *g.Cost)
		} else {
			assert.Nil(t, g.Cost, g.Where)
		}
	}
	assert.Equal(t, len(bill.Lines), n)

	in.Packs[takeoff.Gloves] = priced(1, -5)
	_, err = takeoff.List(in)
	assertDomain(t, err, "packs")
}

// Needed and waste and what is left are what is bought, on every line of roofs
// of many sizes; and no line is needed less on a longer roof.
func TestListAddsUp(t *testing.T) {
	t.Parallel()
	last := map[takeoff.Key]float64{}
	for l := 1500.0; l <= 9000; l += 137.3 {
		in := threeWalls()
		long := unit.Length(l)
		in.PlateRuns = []unit.Length{long, long}
		in.AnchorRuns, in.DPCRuns, in.StrapRuns, in.LateralRuns = in.PlateRuns, in.PlateRuns, in.PlateRuns, in.PlateRuns
		in.Battens, in.Fascias, in.GutterRuns, in.BarRuns, in.ChaseRuns = in.PlateRuns, in.PlateRuns, in.PlateRuns, in.PlateRuns, in.PlateRuns
		in.Trims = []takeoff.TrimEdge{{Run: long, Mitres: 1}}
		in.Upstands = []takeoff.Upstand{{Run: long, Height: 178}}
		in.LeadRuns = []takeoff.LeadRun{{Run: long, Width: 150, Density: 20.4, Exposed: true}}
		in.Joists = []takeoff.Piece{{Count: 9, Length: long * 0.7}}
		in.FieldArea, in.ContactArea = ptr(long.By(2000)), ptr(long.By(500))
		in.PlateEnds = ptr(int(l / 100))
		bill, err := takeoff.List(in)
		require.NoError(t, err)
		require.Empty(t, bill.Missing)
		for _, line := range bill.Lines {
			require.InDelta(t, line.ToBuy, line.Needed+line.Waste+line.LeftOver, 1e-6, "%s at %g", line.Key, l)
			require.GreaterOrEqual(t, line.LeftOver, -1e-9, "%s at %g", line.Key, l)
			require.GreaterOrEqual(t, line.Waste, 0.0, "%s at %g", line.Key, l)
			require.GreaterOrEqual(t, line.Needed, last[line.Key]-1e-9, "%s at %g", line.Key, l)
			last[line.Key] = line.Needed
			total := 0.0
			for _, p := range line.Packs {
				total += p.Size * float64(p.Count)
			}
			if len(line.Packs) > 0 {
				require.InDelta(t, total, line.ToBuy, 1e-3, "%s at %g", line.Key, l)
			}
		}
	}
}

func TestListDomain(t *testing.T) {
	t.Parallel()
	long := []unit.Length{50001}
	for _, c := range []struct {
		field  string
		change func(*takeoff.Input)
	}{
		{"plate_runs_mm", func(in *takeoff.Input) { in.PlateRuns = long }},
		{"dpc_runs_mm", func(in *takeoff.Input) { in.DPCRuns = long }},
		{"anchor_runs_mm", func(in *takeoff.Input) { in.AnchorRuns = long }},
		{"anchors", func(in *takeoff.Input) { in.Anchors = ptr(-1) }},
		{"resin_hole_d_mm", func(in *takeoff.Input) { in.ResinHole.Diameter = 0 }},
		{"resin_hole_depth_mm", func(in *takeoff.Input) { in.ResinHole.Depth = 0 }},
		{"strap_runs_mm", func(in *takeoff.Input) { in.StrapRuns = long }},
		{"straps", func(in *takeoff.Input) { in.Straps = ptr(10001) }},
		{"lateral_runs_mm", func(in *takeoff.Input) { in.LateralRuns = long }},
		{"hanger_ends", func(in *takeoff.Input) { in.HangerEnds = ptr(-1) }},
		{"hanger_holes", func(in *takeoff.Input) { in.HangerHoles = ptr(101) }},
		{"plate_ends", func(in *takeoff.Input) { in.PlateEnds = ptr(1001) }},
		{"joists", func(in *takeoff.Input) { in.Joists[0].Length = 7201 }},
		{"joists", func(in *takeoff.Input) { in.Joists[0].Count = -1 }},
		{"joists", func(in *takeoff.Input) { in.JoistStep, in.Joists[0].Length = 5000, 5001 }},
		{"joist_step_mm", func(in *takeoff.Input) { in.JoistStep = -1 }},
		{"noggins", func(in *takeoff.Input) { in.Noggins[0].Length = 0 }},
		{"strutting", func(in *takeoff.Input) { in.Strutting = []takeoff.Piece{{Count: -1, Length: 300}} }},
		{"firrings", func(in *takeoff.Input) { in.Firrings = []takeoff.Piece{{Count: -1, Length: 300}} }},
		{"boards", func(in *takeoff.Input) { in.Boards = ptr(-1) }},
		{"deck_screws", func(in *takeoff.Input) { in.DeckScrews = ptr(-1) }},
		{"deck_area_m2", func(in *takeoff.Input) { in.DeckArea = ptr(unit.Area(math.NaN())) }},
		{"corners", func(in *takeoff.Input) { in.Corners = -1 }},
		{"battens_mm", func(in *takeoff.Input) { in.Battens = long }},
		{"fascias_mm", func(in *takeoff.Input) { in.Fascias = long }},
		{"upstands", func(in *takeoff.Input) { in.Upstands[0].Height = 0 }},
		{"sheet_length_mm", func(in *takeoff.Input) { in.Sheet = &takeoff.Size{Length: 0, Width: 3000} }},
		{"sheet_width_mm", func(in *takeoff.Input) { in.Sheet = &takeoff.Size{Length: 3000, Width: 0} }},
		{"field_m2", func(in *takeoff.Input) { in.FieldArea = ptr(-unit.SquareMetre) }},
		{"field_rate_m2_l", func(in *takeoff.Input) { in.FieldRate = 0.1 }},
		{"contact_m2", func(in *takeoff.Input) { in.ContactArea = ptr(1001 * unit.SquareMetre) }},
		{"contact_rate_m2_l", func(in *takeoff.Input) { in.ContactRate = -1 }},
		{"patches", func(in *takeoff.Input) { in.Patches[0].Count = -1 }},
		{"patches", func(in *takeoff.Input) { in.Patches[0].Width = -1 }},
		{"pipes", func(in *takeoff.Input) { in.Pipes = ptr(-1) }},
		{"patch_edge_mm", func(in *takeoff.Input) { in.PatchEdge = ptr(unit.Length(-1)) }},
		{"bar_runs_mm", func(in *takeoff.Input) { in.BarRuns = []unit.Length{60} }},
		{"cartridge_run_mm", func(in *takeoff.Input) { in.CartridgeRun = 500 }},
		{"trims", func(in *takeoff.Input) { in.Trims[0].Mitres = -1 }},
		{"trims", func(in *takeoff.Input) { in.Trims[0].Run = 20 }},
		{"trim_corners", func(in *takeoff.Input) { in.TrimCorners = ptr(-1) }},
		{"trim_ends", func(in *takeoff.Input) { in.TrimEnds = ptr(-1) }},
		{"gutter_runs_mm", func(in *takeoff.Input) { in.GutterRuns = long }},
		{"outlets", func(in *takeoff.Input) { in.Outlets = ptr(-1) }},
		{"downpipe_mm", func(in *takeoff.Input) { in.Downpipe = ptr(unit.Length(-5)) }},
		{"lead", func(in *takeoff.Input) { in.LeadRuns[0].Run = 100 }},
		{"lead", func(in *takeoff.Input) { in.LeadRuns[0].Width = 0 }},
		{"lead", func(in *takeoff.Input) { in.LeadRuns[0].Density = 0 }},
		{"lead", func(in *takeoff.Input) { in.LeadRuns[0].Lap = 20 }},
		{"chase_runs_mm", func(in *takeoff.Input) { in.ChaseRuns = []unit.Length{20} }},
		{"deck_length_mm", func(in *takeoff.Input) { in.Deck = &takeoff.Size{Length: 0, Width: 1000} }},
		{"deck_width_mm", func(in *takeoff.Input) { in.Deck = &takeoff.Size{Length: 1000, Width: 51000} }},
		{"batches", func(in *takeoff.Input) { in.Batches = ptr(-1) }},
		{"tower_days", func(in *takeoff.Input) { in.TowerDays = ptr(math.Inf(1)) }},
		{"rubbish_m3", func(in *takeoff.Input) { in.Rubbish = ptr(-unit.CubicMetre) }},
		{"packs", func(in *takeoff.Input) { in.Packs = map[takeoff.Key][]takeoff.PackSize{takeoff.DeckScrews: tins(0)} }},
		{"packs", func(in *takeoff.Input) { in.Packs = map[takeoff.Key][]takeoff.PackSize{takeoff.Gutter: tins(-1)} }},
		{"packs", func(in *takeoff.Input) { in.Packs = map[takeoff.Key][]takeoff.PackSize{takeoff.Primer: tins(-1)} }},
	} {
		in := threeWalls()
		c.change(&in)
		_, err := takeoff.List(in)
		assertDomain(t, err, c.field)
	}
}

func BenchmarkList(b *testing.B) {
	in := threeWalls()
	for b.Loop() {
		_, _ = takeoff.List(in)
	}
}
