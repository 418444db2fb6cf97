package setout_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"chargehand/calc/setout"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shed is joists at a strict 400 under 2440 boards: the case of the joint that
// misses. Our own.
func shed() setout.Existing {
	in := setout.Existing{Joist: 47, JointGap: 3, MaxCentres: 410, Length: 5500, Depth: 2900, BoardLength: 2440, BoardWidth: 1220}
	for c := unit.Length(23.5); c < 5450; c += 400 {
		if c > 24 {
			c = unit.Length(math.Round(float64(c)/400) * 400)
		}
		in.Centres = append(in.Centres, c)
	}
	in.Centres = append(in.Centres, 5476.5)
	return in
}

func ways(options []setout.Option) (out []setout.Way) {
	for _, o := range options {
		out = append(out, o.Way)
	}
	return out
}

func TestJoistsThatStandAt400(t *testing.T) {
	options, err := setout.Choose(shed())
	require.NoError(t, err)
	got := ways(options)
	assert.ElementsMatch(t, []setout.Way{setout.Sister, setout.CutBoards, setout.Ladder, setout.Rearrange}, got)
	assert.NotContains(t, got, setout.AsTheyStand)
	for i := 1; i < len(options); i++ {
		assert.LessOrEqual(t, options[i-1].Cost, options[i].Cost)
	}
	fixed := shed()
	fixed.Fixed = true
	options, err = setout.Choose(fixed)
	require.NoError(t, err)
	assert.NotContains(t, ways(options), setout.Rearrange)

	// Dear boards send the cut boards to the end, dear work the noggins.
	dear := shed()
	dear.Prices = setout.Prices{Board: 1000, Hour: 1}
	options, err = setout.Choose(dear)
	require.NoError(t, err)
	cheapest, most := options[0], options[len(options)-1]
	assert.LessOrEqual(t, cheapest.Boards, most.Boards)
}

func TestJoistsOnTheModuleNeedNothing(t *testing.T) {
	in := shed()
	p, err := setout.Joists(garage(2440, 410))
	require.NoError(t, err)
	in.Centres = p.Marks
	options, err := setout.Choose(in)
	require.NoError(t, err)
	require.NotEmpty(t, options)
	assert.Equal(t, setout.AsTheyStand, options[0].Way)
	assert.NotContains(t, ways(options), setout.Rearrange)
}

// Whatever stands, every option bears, keeps pieces within a board, staggers
// its rows and covers the deck.
func TestEveryOptionBears(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewSource(9))
	seen := map[setout.Way]int{}
	for range 150 {
		in := setout.Existing{
			Joist: 47, JointGap: 3, MaxCentres: 450, Length: unit.Length(3000 + r.Intn(4000)), Depth: unit.Length(1000 + r.Intn(3000)),
			BoardLength: []unit.Length{2400, 2440, 2500}[r.Intn(3)], BoardWidth: 1220,
		}
		for c := unit.Length(23.5); c < in.Length-100; c += unit.Length(380 + r.Intn(60)) {
			in.Centres = append(in.Centres, c)
		}
		in.Centres = append(in.Centres, in.Length-23.5)
		options, err := setout.Choose(in)
		require.NoError(t, err)
		for _, o := range options {
			seen[o.Way]++
			assertBears(t, in, o)
		}
	}
	for _, w := range []setout.Way{setout.CutBoards, setout.Sister, setout.Ladder, setout.Rearrange} {
		require.Greater(t, seen[w], 10, w)
	}
}

func assertBears(t *testing.T, in setout.Existing, o setout.Option) {
	t.Helper()
	centres := in.Centres
	if o.Way == setout.Rearrange {
		centres = o.Marks
	}
	for k, joints := range o.Rows {
		if k == 1 && in.Depth <= in.BoardWidth {
			require.Empty(t, joints)
			continue
		}
		from := unit.Length(0)
		for i := 0; i <= len(joints); i++ {
			to := in.Length
			if i < len(joints) {
				to = joints[i] - in.JointGap/2
			}
			require.LessOrEqual(t, float64(to-from), float64(in.BoardLength)+1e-9, "%s %+v", o.Way, in)
			if i < len(joints) {
				from = joints[i] + in.JointGap/2
				require.True(t, served(in, o, centres, joints[i]), "%s joint %v of %v", o.Way, joints[i], centres)
			}
		}
		for _, x := range joints {
			for _, y := range o.Rows[1-k] {
				require.GreaterOrEqual(t, math.Abs(float64(x-y)), 400.0)
			}
		}
	}
	require.GreaterOrEqual(t, float64(o.Boards)*float64(in.BoardLength), float64(in.Length)*math.Ceil(float64(in.Depth/in.BoardWidth))*0.99)
}

// served looks for a joist, a joist with its batten, or a bearer under a joint.
func served(in setout.Existing, o setout.Option, centres []unit.Length, joint unit.Length) bool {
	for i, c := range centres {
		left, right := c-in.Joist/2, c+in.Joist/2
		for _, b := range o.Battens {
			if b.Joist == i && b.Beyond {
				right = c + in.Joist/2 + 47
			}
			if b.Joist == i && !b.Beyond {
				left = c - in.Joist/2 - 47
			}
		}
		if joint-in.JointGap/2-left >= 18-1e-6 && right-joint-in.JointGap/2 >= 18-1e-6 {
			return true
		}
	}
	for _, b := range o.Bearers {
		if b.Joint == joint {
			return true
		}
	}
	return false
}

func TestExistingRefusals(t *testing.T) {
	for field, change := range map[string]func(*setout.Existing){
		"measured_mm":     func(in *setout.Existing) { in.Centres = in.Centres[:2] },
		"length_mm":       func(in *setout.Existing) { in.Length = 5000 },
		"depth_mm":        func(in *setout.Existing) { in.Depth = 299 },
		"board_length_mm": func(in *setout.Existing) { in.BoardLength = 599 },
		"board_width_mm":  func(in *setout.Existing) { in.BoardWidth = 1301 },
		"batten_mm":       func(in *setout.Existing) { in.Batten = 24 },
		"work_min":        func(in *setout.Existing) { in.Work.Move = -1 },
		"price_board":     func(in *setout.Existing) { in.Prices.Board = math.NaN() },
	} {
		in := shed()
		change(&in)
		_, err := setout.Choose(in)
		assertField(t, err, field)
	}
}

func FuzzExisting(f *testing.F) {
	f.Add(int64(1), 5500.0, 2440.0, 47.0)
	f.Add(int64(2), 700.0, 600.0, 25.0)
	f.Fuzz(func(t *testing.T, seed int64, length, board, joist float64) {
		r := rand.New(rand.NewSource(seed))
		in := setout.Existing{
			Joist: unit.Length(joist), JointGap: 3, MaxCentres: 600, Length: unit.Length(length), Depth: 2900,
			BoardLength: unit.Length(board), BoardWidth: 1220,
		}
		for c := joist / 2; c < length && len(in.Centres) < 60; c += 100 + float64(r.Intn(500)) {
			in.Centres = append(in.Centres, unit.Length(c))
		}
		options, err := setout.Choose(in)
		if err != nil {
			return
		}
		for _, o := range options {
			require.False(t, math.IsNaN(o.Cost) || math.IsInf(o.Cost, 0) || o.Cost < 0)
			require.Positive(t, o.Boards)
		}
	})
}

func ExampleChoose() {
	in := setout.Existing{
		Centres: []unit.Length{24, 400, 800, 1200, 1600, 2000, 2400, 2800, 3200, 3600, 3976},
		Joist:   47, JointGap: 3, MaxCentres: 410, Length: 4000, Depth: 2440, BoardLength: 2440, BoardWidth: 1220,
	}
	options, _ := setout.Choose(in)
	for _, o := range options {
		fmt.Println(o.Way, "-", o.Boards, "boards")
	}
	// Output:
	// as they stand - 4 boards
	// cut boards - 4 boards
	// module - 4 boards
}

func BenchmarkChoose(b *testing.B) {
	in := shed()
	for b.Loop() {
		if _, err := setout.Choose(in); err != nil {
			b.Fatal(err)
		}
	}
}
