package setout_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand"
	"os"
	"strconv"
	"strings"
	"testing"

	"chargehand/calc"
	"chargehand/calc/setout"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func assertField(t testing.TB, err error, field string) {
	t.Helper()
	var domain *calc.DomainError
	if assert.ErrorAs(t, err, &domain) {
		assert.Equal(t, field, domain.Field)
	}
}

func garage(board, limit unit.Length) setout.Input {
	return setout.Input{Length: 5500, BoardLength: board, JointGap: 3, Joist: 47, MaxCentres: limit}
}

func TestMarksByHand(t *testing.T) {
	f, err := os.Open("../../testdata/worked/setout/joist-marks.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 6)
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	for _, row := range rows[1:] {
		p, err := setout.Joists(garage(unit.Length(number(row[0])), unit.Length(number(row[1]))))
		require.NoError(t, err)
		assert.Equal(t, int(number(row[2])), p.BaysPerBoard)
		assert.InDelta(t, number(row[3]), float64(p.Centres), 0.05)
		if row[4] != "" {
			assert.Len(t, p.Marks, int(number(row[4])))
		}
		assert.Equal(t, int(number(row[5])), p.Stagger.Bays)
		assert.Equal(t, p.BaysPerBoard%2 == 0, p.Stagger.Half)
		if row[6] != "" {
			var marks []string
			for _, m := range p.Marks {
				marks = append(marks, strconv.Itoa(setout.Whole(m)))
			}
			assert.Equal(t, row[6], strings.Join(marks, " "))
		}
	}
}

// 2440 boards on joists at 400: the first joint lands 41.5 mm past a joist and
// its second board hangs free.
func TestTheJointOffTheJoist(t *testing.T) {
	c, err := setout.CheckCentres(setout.Standing{
		Centres: []unit.Length{23.5, 400, 800, 1200, 1600, 2000, 2400, 2800, 3200},
		Joints:  []unit.Length{2440 + 1.5}, Joist: 47, JointGap: 3, MaxCentres: 410,
	})
	require.NoError(t, err)
	require.Len(t, c.Joints, 1)
	assert.Equal(t, 6, c.Joints[0].Joist)
	assert.Equal(t, unit.Length(41.5), c.Joints[0].Offset)
	assert.Equal(t, unit.Length(-19.5), c.Joints[0].Bearing.After)
	assert.Equal(t, unit.Length(47), c.Joints[0].Bearing.Before)
	assert.False(t, c.OK)
}

// 47 mm leaves 4 mm either side, 63 leaves 12, 75 leaves 18, all for 18 mm of
// bearing and a gap of 3.
func TestTolerance(t *testing.T) {
	for joist, want := range map[unit.Length]unit.Length{47: 4, 63: 12, 75: 18} {
		assert.Equal(t, want, setout.Tolerance(joist, 3))
		assert.True(t, setout.Bearing(want, joist, 3).OK())
		assert.False(t, setout.Bearing(want+0.1, joist, 3).OK())
		assert.True(t, setout.Bearing(-want, joist, 3).OK())
	}
	assert.Equal(t, unit.Length(22), setout.Bearing(0, 47, 3).Least())
	assert.Negative(t, float64(setout.Tolerance(38, 3))) // two board ends never fit on 38
}

func TestBearingMirrors(t *testing.T) {
	for e := unit.Length(-30); e <= 30; e += 0.7 {
		a, b := setout.Bearing(e, 47, 3), setout.Bearing(-e, 47, 3)
		assert.Equal(t, a.Before, b.After)
		if a.Least() > 0 && a.Before < 47 && a.After < 47 {
			assert.InDelta(t, 44, float64(a.Before+a.After), 1e-9)
		}
	}
}

func TestStaggers(t *testing.T) {
	for _, c := range []struct {
		bays  int
		s     unit.Length
		first int
		half  bool
		ok    bool
	}{
		{6, 407, 3, true, true},
		{7, 349, 3, false, true}, // half a board lands in the middle of a bay
		{5, 488, 2, false, true},
		{4, 600, 2, true, true},
		{3, 600, 2, false, true},  // one bay of 600 apart
		{3, 350, 2, false, false}, // one bay of 350 is under 400
		{2, 600, 0, false, false},
		{1, 600, 0, false, false},
	} {
		got := setout.StaggerFor(c.bays, c.s)
		assert.Equal(t, c.first, got.Bays, "%d bays", c.bays)
		assert.Equal(t, c.half, got.Half, "%d bays", c.bays)
		assert.Equal(t, c.ok, got.OK, "%d bays", c.bays)
	}
}

// Over many roofs: marks rise, no bay exceeds the limit, the ends are joists
// inside the deck, every joint of whole boards and of staggered rows lies on a
// joist with full bearing, and no two joists share a place.
func TestMarksHold(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewSource(1))
	doubled := 0
	for range 4000 {
		in := setout.Input{
			Length:      unit.Length(500 + r.Intn(12000)),
			BoardLength: unit.Length(1800 + r.Intn(1300)),
			JointGap:    unit.Length(r.Intn(6)),
			Joist:       unit.Length(38 + r.Intn(38)),
			MaxCentres:  unit.Length(300 + r.Intn(320)),
		}
		p, err := setout.Joists(in)
		require.NoError(t, err)
		require.Equal(t, in.Joist/2, p.Marks[0])
		require.Equal(t, in.Length-in.Joist/2, p.Marks[len(p.Marks)-1])
		for i := 1; i < len(p.Marks); i++ {
			bay := float64(p.Marks[i] - p.Marks[i-1])
			require.LessOrEqual(t, bay, float64(in.MaxCentres)+1e-9, "%+v", in)
			require.GreaterOrEqual(t, bay, float64(in.Joist)-1e-9, "%+v", in)
		}
		if p.Doubled {
			doubled++
		}
		if p.BaysPerBoard > 1 {
			require.Less(t, float64(in.MaxCentres), float64(p.Centres)*float64(p.BaysPerBoard)/float64(p.BaysPerBoard-1)+1e-9)
		}
		// A board end j·M − g/2 from the datum, and one p bays on, meets a joist
		// unless it lies in the last bay, where the end joist has the board, or
		// on the joist that was set against the end joist.
		mine := p.Marks[:len(p.Marks)-1]
		if p.Doubled {
			mine = mine[:len(mine)-1]
		}
		module := in.BoardLength + in.JointGap
		for j := 0; ; j++ {
			joint := unit.Length(j)*module - in.JointGap/2
			if joint >= in.Length {
				break
			}
			for _, x := range []unit.Length{joint, joint + unit.Length(p.Stagger.Bays)*p.Centres} {
				if x <= 0 || x >= mine[len(mine)-1]+1 || p.Stagger.Bays == 0 {
					continue
				}
				best := math.Inf(1)
				for _, m := range p.Marks {
					best = math.Min(best, math.Abs(float64(m-x)))
				}
				require.InDelta(t, 0, best, 1e-6, "%+v joint %v", in, x)
			}
		}
	}
	require.Greater(t, doubled, 20)
}

func TestMarksAreNotAddedUp(t *testing.T) {
	// 2443/6 has no end in binary or decimal; mark 12 is 4884.5 exactly, and a
	// half is kept until it is shown.
	p, err := setout.Joists(garage(2440, 410))
	require.NoError(t, err)
	assert.Equal(t, unit.Length(4884.5), p.Marks[12])
	assert.Equal(t, []unit.Length{2441.5, 4884.5}, p.JointLines)
	assert.Equal(t, 4885, setout.Whole(4884.5))
	assert.Equal(t, 4884, setout.Whole(4884.4999))
	assert.Equal(t, 24, setout.Whole(23.5))
}

func TestJoistRefusals(t *testing.T) {
	for field, change := range map[string]func(*setout.Input){
		"length_mm":       func(in *setout.Input) { in.Length = 499 },
		"board_length_mm": func(in *setout.Input) { in.BoardLength = 6001 },
		"joint_gap_mm":    func(in *setout.Input) { in.JointGap = -0.1 },
		"joist_mm":        func(in *setout.Input) { in.Joist = unit.Length(math.NaN()) },
		"max_centres_mm":  func(in *setout.Input) { in.MaxCentres = 93 },
	} {
		in := garage(2440, 410)
		change(&in)
		_, err := setout.Joists(in)
		assertField(t, err, field)
	}
}

func FuzzReckonJoists(f *testing.F) {
	f.Add(5500.0, 2440.0, 3.0, 47.0, 410.0)
	f.Add(5500.0, 2440.0, 3.0, 47.0, 400.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 1e-300, 1e300)
	f.Fuzz(func(t *testing.T, length, board, gap, joist, limit float64) {
		out, err := setout.ReckonJoists(setout.JoistsIn{Length: length, Board: board, Gap: gap, Joist: joist, MaxCentres: limit})
		if err != nil {
			return
		}
		require.Len(t, out.Marks, out.Count)
		require.GreaterOrEqual(t, out.Count, 2)
		for i := 1; i < out.Count; i++ {
			bay := out.Exact[i] - out.Exact[i-1]
			require.True(t, bay > 0 && bay <= limit+1e-6, "%v", bay)
		}
	})
}

func ExampleJoists() {
	p, _ := setout.Joists(setout.Input{Length: 5500, BoardLength: 2440, JointGap: 3, Joist: 47, MaxCentres: 410})
	fmt.Printf("%d joists at %.1f:", len(p.Marks), float64(p.Centres))
	for _, m := range p.Marks {
		fmt.Print(" ", setout.Whole(m))
	}
	fmt.Println()
	// Output: 15 joists at 407.2: 24 406 813 1220 1627 2034 2442 2849 3256 3663 4070 4477 4885 5292 5477
}

func BenchmarkJoists(b *testing.B) {
	for b.Loop() {
		if _, err := setout.Joists(garage(2440, 410)); err != nil {
			b.Fatal(err)
		}
	}
}
