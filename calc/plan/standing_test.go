package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/setout"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

func taped(xs ...float64) []unit.Length {
	var out []unit.Length
	for _, x := range xs {
		out = append(out, unit.Length(x))
	}
	return out
}

// Joists stand at 600; boards are 2440. The first joint lies at 2440 + 1.5 =
// 2441.5, which is 41.5 past the joist at 2400.
func TestJoistsThatStandAtOtherCentres(t *testing.T) {
	in := oneWall()
	in.BoardLength, in.BoardWidth = mm(2440), mm(1220)
	in.OldJoists, in.Measured = true, taped(24, 600, 1200, 1800, 2400, 3000, 3600, 4177)
	p := plan.Reckon(in, nil)
	require.Empty(t, p.Faults)
	require.NotNil(t, p.Standing)
	require.Len(t, p.Standing.Missed, 1)
	m := p.Standing.Missed[0]
	assert.InDelta(t, 2441.5, float64(m.Joint), 1e-9)
	assert.InDelta(t, 41.5, float64(m.Offset), 1e-9)
	assert.Equal(t, 4, m.Joist)
	require.NotEmpty(t, p.Standing.Options)
	for i := 1; i < len(p.Standing.Options); i++ {
		assert.LessOrEqual(t, p.Standing.Options[i-1].Cost, p.Standing.Options[i].Cost, "the cheapest first")
	}
	assert.EqualValues(t, 600, p.Joists.Centres, "the joists are judged at the widest bay they stand at")
	assert.Equal(t, 8, p.Joists.Count)
	_, ordered := p.Lengths[takeoff.JoistTimber]
	assert.False(t, ordered, "nothing is bought that stands already")
	// No board end misses: every joint is on a joist as it stands.
	for _, row := range p.Deck.Rows {
		x := 0.0
		for i, l := range row.Lengths[:len(row.Lengths)-1] {
			x += float64(l) + 3*math.Min(float64(i), 1)
			onJoist := false
			for _, c := range in.Measured {
				onJoist = onJoist || math.Abs(x+1.5-float64(c)) < 1
			}
			assert.True(t, onJoist, "row %v: a joint at %v", row.Lengths, x)
		}
	}

	in.JoistCure = "module" // moved on to 407.2
	p = plan.Reckon(in, nil)
	assert.Greater(t, len(p.Joists.Marks), 8)
}

// Within the tolerance of 4 mm a whole board still bears, and nothing is asked;
// 9 mm off leaves 22 - 9 = 13 mm on one side.
func TestNewJoistsAreCheckedOneByOne(t *testing.T) {
	in := oneWall()
	marks := plan.Reckon(in, nil).Joists.Marks
	whole := plan.Reckon(in, nil).Deck
	in.Measured = append([]unit.Length(nil), marks...)
	in.Measured[6] += 3 // 2402 is the first joint
	p := plan.Reckon(in, nil)
	require.NotNil(t, p.Standing)
	assert.Empty(t, p.Standing.Missed)
	assert.Equal(t, whole.Rows, p.Deck.Rows, "a joist within the tolerance changes no board")

	in.Measured[6] += 6
	p = plan.Reckon(in, nil)
	require.Len(t, p.Standing.Missed, 1)
	assert.InDelta(t, 13, float64(p.Standing.Missed[0].Bearing.Least()), 1e-9)
	assert.NotEmpty(t, p.Standing.Options)
}

// One joist of eight lies 7 under the string: it gets 7 of packing, and its
// neighbours nothing.
func TestALowJoistIsNamedWithItsPacker(t *testing.T) {
	in := oneWall()
	in.OldJoists, in.Measured = true, taped(24, 600, 1200, 1800, 2400, 3000, 3600, 4177)
	in.Levels = taped(0, 0, 0, 7, 0, 0, 0, 0)
	l := plan.Reckon(in, nil).Levels
	require.NotNil(t, l)
	require.Len(t, l.Low, 1)
	assert.Equal(t, 3, l.Low[0].Joist)
	assert.InDelta(t, 7, float64(l.Low[0].By), 1e-6)
	assert.False(t, l.OK)

	// The same below a level line: 75 of fall, 300 down at the gutter, 225 at the back.
	in.Levels = append(taped(300, 300, 300, 307, 300, 300, 300, 300), taped(225, 225, 225, 232, 225, 225, 225, 225)...)
	l = plan.Reckon(in, nil).Levels
	require.Len(t, l.Low, 1)
	assert.Equal(t, 3, l.Low[0].Joist)
	in.Levels = append(taped(300, 300, 300, 300, 300, 300, 300, 300), taped(225, 225, 225, 225, 225, 225, 225, 225)...)
	assert.True(t, plan.Reckon(in, nil).Levels.OK)

	in.Levels = taped(1, 2, 3)
	assert.Nil(t, plan.Reckon(in, nil).Levels, "three numbers for eight joists say nothing")
}

// 35 mm out over 2900: joists square to the gutter from its left end at
// k·400.5 - 1.5, on the same square line 35 further left along the back; the
// square's diagonal is the root of 5500² + 2900² = 6218.
func TestARoofOutOfSquareIsMarkedAtBothEnds(t *testing.T) {
	in := fourFree()
	in.Shape = "four-sided"
	in.Sides = &[4]unit.Length{5500, 2900, 5500, 2900}
	in.Diagonals = &[2]unit.Length{6249, 6187}
	p := plan.Reckon(in, nil)
	require.Empty(t, p.Faults)
	s := p.Joists.Skewed
	require.NotNil(t, s)
	assert.InDelta(t, math.Hypot(5500, 2900), float64(s.Diagonal), 2)
	first := s.Joists[0]
	assert.InDelta(t, 399, float64(first.Low), 1e-6)
	assert.InDelta(t, 399-35, float64(first.High), 1)
	assert.Equal(t, len(s.Joists)+2, p.Joists.Count, "and one along each flank")
	assert.NotNil(t, p.Deck)
}

// The L has a leg of 2200 by 1800 behind 5000 by 3000. With a clear span of 2850
// the joists can't run the 4800 through: two parts meet on a bearer of 2200.
// With 4500 they do run through.
func TestAnLIsSetOutInItsParts(t *testing.T) {
	in := fourFree()
	in.Shape, in.Length, in.Depth, in.Edges, in.Drop, in.ClearSpan = "walked", nil, nil, nil, mm(120), mm(2850)
	in.Walk = []geom.Step{{Length: 5000, Turn: "right", Kind: "gutter"}, {Length: 4800, Turn: "right", Kind: "verge"}, {Length: 2200, Turn: "right", Kind: "verge"},
		{Length: 1800, Turn: "left", Kind: "verge"}, {Length: 2800, Turn: "right", Kind: "verge"}, {Length: 3000, Turn: "right", Kind: "verge"}}
	p := plan.Reckon(in, nil)
	require.Empty(t, p.Faults)
	require.Len(t, p.Joists.Parts, 2)
	require.Len(t, p.Joists.Junctions, 1)
	assert.Equal(t, setout.Bearer, p.Joists.Junctions[0].Support)
	n := 0
	for _, q := range p.Joists.Parts {
		assert.InDelta(t, 23.5, float64(q.Plan.Marks[0]), 1e-9, "each part has its own datum")
		n += len(q.Plan.Marks)
	}
	assert.Equal(t, n, p.Joists.Count)
	assert.Equal(t, 2, p.Deck.Parts)

	in.JoistWay = "short"
	p = plan.Reckon(in, nil)
	require.Empty(t, p.Faults)
	var across int
	for _, q := range p.Joists.Parts {
		if q.Joists == geom.AlongGutterAxis {
			across++
		}
	}
	require.NotEmpty(t, p.Joists.Parts)
	assert.NotNil(t, p.Deck, "%d parts have joists along the gutter", across)

	in.JoistWay, in.ClearSpan = "", mm(4500)
	p = plan.Reckon(in, nil)
	assert.Nil(t, p.Joists.Parts)
	assert.EqualValues(t, 4800+150, p.Joists.Each)
}
