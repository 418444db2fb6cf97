package fixings_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// The trade's own case: an anchor that holds 40 in a 75 mm plate is sunk 35,
// and 40 stays, more than 38 and than half of 75.
func TestFitAnchorSunk(t *testing.T) {
	t.Parallel()
	p := fixings.Packet{Diameter: 10, Length: 130, MaxFixture: 40, Embedment: 70}
	fit, err := fixings.FitAnchor(p, 75, 0)
	require.NoError(t, err)
	assert.Equal(t, fixings.Fit{Sink: 35, Left: 40, Length: 123, LongOK: true}, fit) // 40 + 3 + 10 + 70
	fit, err = fixings.FitAnchor(p, 38, 0)
	require.NoError(t, err)
	assert.Equal(t, fixings.Fit{Left: 38, Length: 121, LongOK: true}, fit)
}

func TestFitAnchorTooThick(t *testing.T) {
	t.Parallel()
	p := fixings.Packet{Diameter: 10, Length: 130, MaxFixture: 40, Embedment: 70}
	// 100 mm: sinking 60 would leave 40, less than half: a longer anchor, 183 mm.
	fit, err := fixings.FitAnchor(p, 100, 0)
	require.NoError(t, err)
	assert.Equal(t, fixings.Fit{Left: 100, NeedsLong: true, Length: 183}, fit)
	// 47 mm on a 5 mm packer: sinking 12 would leave 35, less than 38.
	fit, err = fixings.FitAnchor(p, 47, 5)
	require.NoError(t, err)
	assert.True(t, fit.NeedsLong)
	assert.Equal(t, unit.Length(47+5+3+10+70), fit.Length)
	// Holds 40, the timber is 38: fits the packet, yet 120 mm is too short.
	p.Length = 120
	fit, err = fixings.FitAnchor(p, 38, 0)
	require.NoError(t, err)
	assert.False(t, fit.NeedsLong)
	assert.False(t, fit.LongOK)
}

func TestFitAnchorShape(t *testing.T) {
	t.Parallel()
	for timber := 19.0; timber <= 150; timber++ {
		last := math.Inf(1)
		for hold := 20.0; hold <= 160; hold += 5 {
			fit, err := fixings.FitAnchor(fixings.Packet{Diameter: 10, Length: 300, MaxFixture: unit.Length(hold), Embedment: 70}, unit.Length(timber), 0)
			require.NoError(t, err)
			require.InDelta(t, timber, float64(fit.Sink+fit.Left), 1e-9)
			if !fit.NeedsLong {
				require.LessOrEqual(t, float64(fit.Sink), last)
				require.LessOrEqual(t, float64(fit.Left), hold)
				last = float64(fit.Sink)
			}
			if fit.Sink > 0 {
				require.GreaterOrEqual(t, float64(fit.Left), math.Max(38, timber/2))
			}
		}
	}
}

func TestAnchorDomain(t *testing.T) {
	t.Parallel()
	for field, change := range map[string]func(p *fixings.Packet, timber, packer *unit.Length){
		"anchor_d_mm":      func(p *fixings.Packet, _, _ *unit.Length) { p.Diameter = 4 },
		"anchor_length_mm": func(p *fixings.Packet, _, _ *unit.Length) { p.Length = 0 },
		"max_fixture_mm":   func(p *fixings.Packet, _, _ *unit.Length) { p.MaxFixture = 0 },
		"embedment_mm":     func(p *fixings.Packet, _, _ *unit.Length) { p.Embedment = unit.Length(math.NaN()) },
		"timber_b_mm":      func(_ *fixings.Packet, timber, _ *unit.Length) { *timber = 18 },
		"packer_mm":        func(_ *fixings.Packet, _, packer *unit.Length) { *packer = 51 },
	} {
		p, timber, packer := fixings.Packet{Diameter: 10, Length: 130, MaxFixture: 40, Embedment: 70}, unit.Length(47), unit.Length(0)
		change(&p, &timber, &packer)
		_, err := fixings.FitAnchor(p, timber, packer)
		assertDomain(t, err, field)
	}
	_, _, err := fixings.BrickBehind(49, 70)
	assertDomain(t, err, "wall_mm")
	_, _, err = fixings.BrickBehind(102.5, 29)
	assertDomain(t, err, "embedment_mm")
	_, err = fixings.BoltDistances(5)
	assertDomain(t, err, "anchor_d_mm")
	_, err = fixings.ResinVolume(-1, 12, 70)
	assertDomain(t, err, "count")
	_, err = fixings.ResinVolume(1, 5, 70)
	assertDomain(t, err, "hole_d_mm")
	_, err = fixings.ResinVolume(1, 12, 29)
	assertDomain(t, err, "hole_depth_mm")
}

// Half a brick is 102.5: 70 mm leaves 32.5, 75 leaves 27.5.
func TestBrickBehind(t *testing.T) {
	t.Parallel()
	left, enough, err := fixings.BrickBehind(102.5, 70)
	require.NoError(t, err)
	assert.InDelta(t, 32.5, float64(left), 1e-9)
	assert.True(t, enough)
	_, enough, err = fixings.BrickBehind(102.5, 75)
	require.NoError(t, err)
	assert.False(t, enough)
}

// LVL Handbook (Finnish Woodworking Industries, 2025) Table 5.3 at α = 90°.
func TestBoltDistances(t *testing.T) {
	t.Parallel()
	d, err := fixings.BoltDistances(10)
	require.NoError(t, err)
	assert.Equal(t, fixings.Distances{Between: 40, End: 70, Loaded: 40, Far: 30}, d)
}

// By hand: 10 holes of 12 x 70: 10·113.097·70·1.3 = 102 919 mm³.
func TestResinVolume(t *testing.T) {
	t.Parallel()
	v, err := fixings.ResinVolume(10, 12, 70)
	require.NoError(t, err)
	assert.InDelta(t, 102919, float64(v), 1)
}
