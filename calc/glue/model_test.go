package glue_test

import (
	"testing"

	"chargehand/calc/glue"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The vectors below are our own planning model's, worked by hand when the model
// was written down. They guard against change; they are no evidence that real
// glue behaves so.
func TestWindowRegressionOfOwnModel(t *testing.T) {
	t.Parallel()
	cases := []struct {
		label, ts, ta float64
		wind          glue.Wind
		damp          glue.Damp
		sub           glue.Substrate
		w, p, v       float64 // min, as printed: to 0.1 unless whole
		tol           float64
		cap           glue.Cap
	}{
		{20, 20, 20, glue.Calm, glue.Normal, glue.Board, 20.0, 20.0, 21.3, 0.06, ""},
		{20, 21, 20, glue.Breeze, glue.Normal, glue.Board, 14.0, 14.0, 14.2, 0.06, ""},
		{20, 26, 21, glue.Breeze, glue.Normal, glue.Board, 9.6, 9.9, 9.6, 0.06, ""},
		{15, 28, 22, glue.Breeze, glue.Normal, glue.Board, 6.4, 6.5, 6.4, 0.06, ""},
		{20, 34, 27, glue.Breeze, glue.Dry, glue.Thirsty, 3.9, 3.9, 5.1, 0.06, ""},
		{20, 40, 28, glue.Breeze, glue.Normal, glue.Board, 3.8, 3.8, 4.1, 0.06, ""},
		{20, 50, 33, glue.Breeze, glue.Dry, glue.Board, 1.6, 1.6, 2.1, 0.06, ""},
		{25, 16, 16, glue.Windy, glue.Normal, glue.Board, 15.4, 16.5, 15.4, 0.06, ""},
		{20, 27, 26, glue.Calm, glue.Normal, glue.Board, 12.3, 12.3, 15.6, 0.06, ""},
		{20, 12, 12, glue.Breeze, glue.Normal, glue.Board, 20.0, 26.1, 21.5, 0.06, glue.LabelCap},
		{20, 22, 8, glue.Windy, glue.Humid, glue.Board, 6.5, 10.9, 6.5, 0.06, ""},
		{20, 20, 8, glue.Breeze, glue.Humid, glue.Sealed, 13.5, 22.5, 13.5, 0.06, ""},
		{20, 10, 10, glue.Calm, glue.Humid, glue.Board, 20.0, 50, 38, 0.5, glue.LabelCap},
	}
	for _, c := range cases {
		u, err := c.wind.Speed()
		require.NoError(t, err)
		rh, err := c.damp.RH()
		require.NoError(t, err)
		got, err := glue.Window(glue.WetInput{
			Label:     glue.Label{Point: glue.Point{Time: unit.Minutes(c.label), Temperature: 20}},
			Surface:   unit.Celsius(c.ts),
			Air:       unit.Celsius(c.ta),
			RH:        rh,
			Wind:      u,
			Substrate: c.sub,
		})
		require.NoError(t, err)
		assert.Empty(t, got.Stop, "%+v", c)
		assert.InDelta(t, c.w, float64(got.Usable), 0.06, "W of %+v", c)
		assert.InDelta(t, c.p, float64(got.ByPocket), c.tol, "P of %+v", c)
		assert.InDelta(t, c.v, float64(got.ByEvaporation), c.tol, "V of %+v", c)
		assert.Equal(t, c.cap, got.Cap, "%+v", c)
	}
}

func TestBatchRegressionOfOwnModel(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ w, solo, pair, two float64 }{
		{3, 0, 0, 0},
		{5, 1.1, 1.5, 2.2},
		{7.5, 2.0, 3.2, 4.9},
		{10, 3.0, 5.0, 7.5},
		{13, 4.1, 7.1, 10.6},
		{20, 6.8, 12.0, 18.0},
		{30, 10.6, 19.0, 28.5},
	} {
		for _, hands := range []struct {
			n, rollers int
			want       float64
		}{{1, 1, c.solo}, {2, 1, c.pair}, {2, 2, c.two}} {
			got, err := glue.Batch(glue.BatchInput{
				Window: unit.Minutes(c.w), Factor: glue.AfterGood, Hands: hands.n, Rollers: hands.rollers, WayOff: true,
			})
			require.NoError(t, err)
			assert.InDelta(t, hands.want, got.Area.In(unit.SquareMetre), 0.0501, "W %g, %d hands, %d rollers", c.w, hands.n, hands.rollers)
			if hands.want == 0 {
				assert.Equal(t, glue.AreaSmall, got.NoGo)
			}
		}
	}
}

func TestContactRegressionOfOwnModel(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ tf, dry, dead, tol float64 }{
		{5, 33, 83, 0.5}, {10, 26, 68, 0.51}, {20, 15, 45, 0.5}, {28, 10, 33, 0.5},
		{35, 7, 24, 0.5}, {45, 4, 16, 0.5}, {55, 2.3, 11, 0.5},
	} {
		f := glue.Face{Surface: unit.Celsius(c.tf)}
		got, err := glue.Contact(glue.ContactInput{Temperature: 20, A: f, B: f})
		require.NoError(t, err)
		assert.InDelta(t, c.dry, float64(got.A.Ready), c.tol, "dry at %g", c.tf)
		assert.InDelta(t, c.dead, float64(got.A.Dead), c.tol, "dead at %g", c.tf)
	}
	// Wall 10 °C, rubber 45 °C.
	got, err := glue.Contact(glue.ContactInput{Temperature: 20, A: glue.Face{Surface: 10}, B: glue.Face{Surface: 45}})
	require.NoError(t, err)
	assert.True(t, got.Empty)
	assert.InDelta(t, 25.5, float64(got.From), 0.05)
	assert.InDelta(t, 13.1, float64(got.Until), 0.05)
	assert.Equal(t, glue.FaceA, got.First)
	assert.InDelta(t, 21.5, float64(got.Wait), 0.05)
	assert.InDelta(t, 12.4, float64(got.LeastWait), 0.05)
	assert.False(t, got.NeverOpens)
}
