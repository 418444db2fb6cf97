package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/deck"
	"chargehand/calc/plan"
	"chargehand/calc/sheet"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// oneWall is a lean-to of 4200 by 3000 against a wall at its back.
func oneWall() plan.Inputs {
	in := fourFree()
	in.Length, in.Depth, in.Edges = mm(4200), mm(3000), []string{"gutter", "verge", "wall", "verge"}
	in.ClearSpan, in.Drop = mm(2850), mm(75)
	return in
}

func pack(size float64, n int) takeoff.Pack { return takeoff.Pack{Size: size, Count: n} }

// Battens of the lean-to: 4200 and 3000 with 100 for each of the two mitres, and
// 3000: 4300 + 3100 + 3000 from 4.8 + 3.6 + 3.6.
func TestBattensAreSawnForTheFewestJoints(t *testing.T) {
	p := plan.Reckon(oneWall(), nil)
	require.Empty(t, p.Faults)
	l := p.Lengths[takeoff.Battens]
	assert.Equal(t, []takeoff.Pack{pack(4.8, 1), pack(3.6, 2)}, l.Order)
	assert.Equal(t, l.Order, l.Buy)
	assert.True(t, l.List.Proven)
	line, ok := p.Order(takeoff.Battens)
	require.True(t, ok)
	assert.InDelta(t, 10.4, line.Needed, 1e-9)
	assert.InDelta(t, 12.0, line.ToBuy, 1e-9)
}

// What came is used first. One of 5.0 m holds the 4300, so that two of 3.6 m are
// left to buy; two of 2.4 m are too short for any piece.
func TestWhatCameChangesWhatIsToBuy(t *testing.T) {
	in := oneWall()
	in.Came = []plan.Came{{Key: takeoff.Battens, Size: 5, Count: 1}, {Key: takeoff.Battens, Size: 2.4, Count: 2}}
	p := plan.Reckon(in, nil)
	l := p.Lengths[takeoff.Battens]
	assert.Equal(t, []takeoff.Pack{pack(4.8, 1), pack(3.6, 2)}, l.Order, "the order was what it was")
	assert.Equal(t, []takeoff.Pack{pack(3.6, 2)}, l.Buy)

	in.Came = append(in.Came, plan.Came{Key: takeoff.Battens, Size: 3.6, Count: 2})
	assert.Empty(t, plan.Reckon(in, nil).Lengths[takeoff.Battens].Buy)

	boards := plan.Reckon(oneWall(), nil).Deck.Boards
	in = oneWall()
	in.Came = []plan.Came{{Key: takeoff.Boards, Size: 1, Count: boards - 2}}
	o, ok := plan.Reckon(in, nil).Order(takeoff.Boards)
	require.True(t, ok)
	assert.Equal(t, []takeoff.Pack{pack(1, 2)}, o.ToGet)
}

// 3150 joists: at 12.00 for 3.3 m and 20.00 for 6.6 m two from one long length
// are cheaper, at 12.00 and 25.00 they are not.
func TestThePriceDecidesTheLength(t *testing.T) {
	for long, want := range map[takeoff.Money]float64{2000: 6.6, 2500: 3.3} {
		in := oneWall()
		in.Prices = []plan.Price{
			{Key: takeoff.JoistTimber, Of: "47x145", Size: 3.3, Price: 1200}, {Key: takeoff.JoistTimber, Of: "47x145", Size: 6.6, Price: long},
			{Key: takeoff.JoistTimber, Of: "47x220", Size: 3.3, Price: 1}, // another section
		}
		p := plan.Reckon(in, nil)
		require.Empty(t, p.Faults)
		n := map[float64]int{}
		for _, b := range p.Lengths[takeoff.JoistTimber].Order {
			n[b.Size] += b.Count
		}
		assert.Greater(t, n[want], n[9.9-want], "%d: %v", long, n)
		o, _ := p.Order(takeoff.JoistTimber)
		require.NotNil(t, o.Cost)
		assert.EqualValues(t, n[3.3]*1200+n[6.6]*int(long), int(*o.Cost))
	}
}

// One joint at 38 above the roof: 38, 113, 188. The chase wants 150 + 10.
// Beside the roof it falls 135 over 5400: the joint below 188 serves from
// (160 - 113)/0.025 = 1880 on, the next from (160 - 38)/0.025 = 4880.
func TestChasesFollowTheCourses(t *testing.T) {
	in := oneWall()
	in.BedJoint = mm(38)
	p := plan.Reckon(in, nil)
	require.Len(t, p.Chases, 1)
	assert.EqualValues(t, 188, p.Chases[0].Joint)
	assert.EqualValues(t, 178, p.Chases[0].Top)
	assert.Empty(t, p.Chases[0].Steps)
	assert.EqualValues(t, 178, p.Upstands.BoardTop)

	in = threeWalls()
	in.BedJoint, in.UpstandCut = mm(38), true
	p = plan.Reckon(in, nil)
	require.Empty(t, p.Faults)
	require.Len(t, p.Chases, 3)
	side := p.Chases[0]
	assert.EqualValues(t, 135, side.Drop)
	require.Len(t, side.Steps, 2)
	assert.InDelta(t, 1880, float64(side.Steps[0]), 1e-6)
	assert.InDelta(t, 4880, float64(side.Steps[1]), 1e-6)
	assert.InDelta(t, 225, float64(side.Most), 1e-6) // 188 + 47 - 10
	// 5400 of wall from 2400 boards: 3 x 1800, as high as the board gets.
	require.Len(t, p.Deck.Strips, 3)
	assert.Equal(t, 3, p.Deck.Strips[0].Count)
	assert.EqualValues(t, 1800, p.Deck.Strips[0].Length)
	assert.EqualValues(t, 225, p.Deck.Strips[0].Height)
	assert.EqualValues(t, 178, p.Deck.Strips[1].Height)
	// Lead: turn-in 25, from the rubber at 150 to the chase at most 235 = 85, cover 75.
	assert.EqualValues(t, 185, p.Lead.Need)
	for _, l := range p.Bill.Lines {
		assert.NotEqual(t, takeoff.UpstandBoard, l.Key, "the boards come from the deck's")
	}
}

// 4200 of gutter from 4 m and 2 m: a joint 600 from the end, at 3600. Between 100
// and 3600 five bays of 700, then one of 500; 1:500 from the high end.
func TestBracketsHaveTheirPlaces(t *testing.T) {
	p := plan.Reckon(oneWall(), nil)
	require.Len(t, p.Gutter.Runs, 1)
	var at, below []float64
	for _, b := range p.Gutter.Runs[0].Brackets {
		at, below = append(at, float64(b.At)), append(below, float64(b.Below))
	}
	assert.Equal(t, []float64{100, 800, 1500, 2200, 2900, 3600, 4100}, at)
	assert.InDeltaSlice(t, []float64{0.2, 1.6, 3, 4.4, 5.8, 7.2, 8.2}, below, 1e-9)
	assert.Equal(t, 1, p.Gutter.Outlets)
	o, _ := p.Order(takeoff.Brackets)
	assert.EqualValues(t, 7, o.Needed)

	in := oneWall()
	in.Outlet = "both-ends"
	p = plan.Reckon(in, nil)
	assert.Equal(t, 2, p.Gutter.Outlets)
	o, _ = p.Order(takeoff.Outlets)
	assert.EqualValues(t, 2, o.Needed)
}

// A fascia of 18 that stands 168 out from the plate is cut to at 150; the gutter
// of 112 hangs from 168 to 280; 2900 - 2600 - 2 x 75 = 150 is left past the plate.
func TestTheCutLineIsTheFasciaLessItsThickness(t *testing.T) {
	in := fourFree()
	usual := plan.Reckon(in, nil).UsualFace(in)
	require.NotNil(t, usual)
	assert.EqualValues(t, 168, *usual)
	in.Face = usual
	f := plan.Reckon(in, nil).Front
	require.NotNil(t, f)
	assert.EqualValues(t, 150, f.Cut)
	assert.EqualValues(t, 168+30, f.DripLine)
	assert.EqualValues(t, 280, f.GutterTo)
	assert.False(t, f.TooLong)
	in.Face = mm(518) // past 450
	assert.True(t, plan.Reckon(in, nil).Front.TooLong)
}

// A coping of 335 on 215 stands out 60 on both sides; with its throat 20 in it
// drips 40 clear. 5500 of parapet takes ceil((5500 + 10)/(600 + 10)) = 10.
func TestCopingsClearTheWall(t *testing.T) {
	in := fourFree()
	in.Edges = []string{"gutter", "verge", "parapet", "verge"}
	in.ParapetHeight, in.ParapetTop = mm(250), mm(215)
	in.CopingWidth, in.CopingPiece, in.CopingThroat = mm(335), mm(600), mm(20)
	c := plan.Reckon(in, nil).Coping
	require.NotNil(t, c)
	assert.EqualValues(t, 60, c.Outside)
	assert.EqualValues(t, 40, c.Clear)
	assert.True(t, c.OK)
	assert.Equal(t, 10, c.Pieces)
	in.CopingWidth = mm(280)
	c = plan.Reckon(in, nil).Coping
	assert.False(t, c.OK)
	assert.EqualValues(t, 335, c.Least) // 215 + 2 x (40 + 20)
}

// The lean-to wants 3000 + 150 + 250 = 3400 up the fall. It can do with 3000 + 88
// at the gutter + 150 at the wall = 3238: 3138 is 100 short, all of it at the wall,
// since nothing can be added at a gutter.
func TestAShortSheetNamesItsCures(t *testing.T) {
	in := oneWall()
	in.SheetLength, in.SheetWidth = mm(4500), mm(3138)
	s := plan.Reckon(in, nil).Sheet
	assert.EqualValues(t, 100, s.Short)
	require.Len(t, s.Lacks, 1)
	assert.Equal(t, 2, s.Lacks[0].Edge)
	assert.Equal(t, []sheet.Act{sheet.AddTo, sheet.Reorder}, s.Remedies)
	assert.EqualValues(t, 200, s.Lacks[0].Acts[0].By) // 100 short and 100 of lap

	in.Upstand = mm(260) // and 110 of it more than must be
	in.SheetWidth = mm(3248)
	s = plan.Reckon(in, nil).Sheet
	assert.EqualValues(t, 100, s.Short) // 3000 + 88 + 260 - 3248
	assert.Equal(t, []sheet.Act{sheet.Lower, sheet.AddTo, sheet.Reorder}, s.Remedies)
	require.Len(t, plan.Lacking(in, []unit.Length{150, 150, 160, 150}), 1, "the wall has 160 of 260")
	in.SheetRemedy = "lower"
	assert.Empty(t, plan.Lacking(in, []unit.Length{150, 150, 160, 150}))
}

// 9000 by 5000 wants 9300 by 5300. From 3050 wide strips the way down the fall
// takes 4 with 3 seams (4 x 3050 - 3 x 100 = 11900 >= 9300; 3 reach 8950); across
// the roof 2 strips of 3050 reach 6000 >= 5300 with one seam.
func TestStripsWhereNoSheetIsWideEnough(t *testing.T) {
	in := fourFree()
	in.Length, in.Depth, in.Drop = mm(9000), mm(5000), mm(125)
	in.SheetWidths = []unit.Length{3050}
	s := plan.Reckon(in, nil).Sheet
	assert.Equal(t, 2, s.Pieces())
	assert.Len(t, s.Seams, 1)
	assert.Equal(t, sheet.Across, s.Run)
	in.SheetWidths = []unit.Length{6100}
	assert.Equal(t, 1, plan.Reckon(in, nil).Sheet.Pieces())
}

// The long search takes the place of the short one's layout only where it is
// better, is not believed for another roof, and never makes anything worse.
func TestALongSearchNeverMakesItWorse(t *testing.T) {
	in := threeWalls()
	in.Length, in.Depth, in.Drop, in.UpstandCut, in.BedJoint = mm(3000), mm(3600), mm(90), true, mm(38)
	in.BoardLength, in.BoardWidth = mm(2440), mm(1220)
	quick := plan.Reckon(in, nil)
	require.NotNil(t, quick.Deck)
	require.False(t, quick.Deck.Proven, "this roof is the example of one that the short search leaves open")
	name, search := quick.Deck.Problem()
	in.Found = map[string]deck.Written{name: search()}
	long := plan.Reckon(in, quick)
	assert.True(t, long.Deck.Searched)
	assert.LessOrEqual(t, long.Deck.Boards, quick.Deck.Boards)
	assert.GreaterOrEqual(t, long.Deck.Bound, quick.Deck.Bound)
	assert.True(t, long.Deck.Proven)
	again, _ := long.Deck.Problem()
	assert.Equal(t, name, again, "the problem is the same")

	for what, bad := range map[string]deck.Written{"nonsense": {Rows: "9 9 9", Boards: "A", Bound: 1}, "empty": {}} {
		in.Found = map[string]deck.Written{name: bad}
		p := plan.Reckon(in, nil)
		assert.Equal(t, quick.Deck.Boards, p.Deck.Boards, what)
		assert.True(t, p.Deck.Searched, what)
	}
	in.Found = map[string]deck.Written{"another": search()}
	assert.False(t, plan.Reckon(in, nil).Deck.Searched)
}

// With n boards the rows that need no other can be laid.
func TestHowFarTheBoardsGo(t *testing.T) {
	d := plan.Reckon(oneWall(), nil).Deck
	assert.Zero(t, d.Laid(0))
	assert.Equal(t, len(d.Rows), d.Laid(d.Boards))
	last := 0
	for n := range d.Boards {
		rows := d.Laid(n)
		assert.GreaterOrEqual(t, rows, last)
		last = rows
	}
}
