package plan_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/calc/sun"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// mild is a lean-to of 4.2 by 3.0 m on a mild day, at noon on 11 May 2026.
func mild() plan.Inputs {
	return plan.Inputs{
		Hands: 2, Length: mm(4200), Depth: mm(3000), Edges: []string{"gutter", "verge", "wall", "verge"}, Exit: "gutter",
		LabelMin: num(15), LabelC: num(20), SurfaceC: num(18), AirC: num(15), NightC: num(9), Damp: "normal", Wind: "calm", Rain: "none",
		Read: &plan.Reading{Day: sun.Date{Year: 2026, Month: 5, Day: 11}, Clock: 12 * 60, Ahead: 60},
	}
}

// Strips that follow one another on a day whose weather changes cover the field
// once, the far half before the near one, and the count is of the whole field.
func TestStripsCoverTheFieldOnce(t *testing.T) {
	t.Parallel()
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 3))
		in := mild()
		in.Length, in.Depth = mm(2000+float64(r.IntN(6000))), mm(1600+float64(r.IntN(4000)))
		in.Hands, in.FarWayOff = 1+r.IntN(3), r.IntN(2) == 0
		in.Exit = []string{"gutter", "verge", "window"}[r.IntN(3)]
		in.LabelMin = num(15 + float64(r.IntN(15)))
		deep := *in.Depth
		if in.Exit == "verge" {
			deep = *in.Length
		}
		var area unit.Area
		var widths unit.Length
		near := false
		for n := 0; ; n++ {
			in.SurfaceC = num(10 + float64(r.IntN(16)))
			p := plan.Reckon(in, nil)
			require.NotNil(t, p.Left, "seed %d", seed)
			if *p.Left == 0 {
				break
			}
			require.Less(t, n, 40, "seed %d", seed)
			b := p.Batch
			require.NotNil(t, b, "seed %d: %v", seed, p.Faults)
			if b.NoGo != "" {
				continue // too hot just now
			}
			assert.Equal(t, len(in.Laid), b.Done, "seed %d", seed)
			assert.Greater(t, b.Count, b.Done, "seed %d", seed)
			near = near || b.Half == glue.NearHalf
			assert.Equal(t, near, b.Half == glue.NearHalf, "seed %d: back to the far half", seed)
			assert.Contains(t, []glue.Way{glue.ByLadder, glue.ByFar, glue.ByStrip}, b.FoldWay, "seed %d: no way off", seed)
			if b.FoldWay == glue.ByStrip {
				assert.Greater(t, b.Behind, unit.Minutes(0))
			}
			widths += b.Strip
			area += b.Area
			in.Laid = append(in.Laid, plan.Strip{Half: b.Half, Width: unit.Length(math.Floor(float64(b.Strip)))})
		}
		assert.InDelta(t, float64(deep)-300, float64(widths), 45, "seed %d", seed)
		p := plan.Reckon(in, nil)
		assert.InDelta(t, p.Field.In(unit.SquareMetre), area.In(unit.SquareMetre), 0.4, "seed %d", seed)
	}
}

// A field that is covered has no window to be too short any more.
func TestACoveredFieldAsksForNothing(t *testing.T) {
	t.Parallel()
	in := mild()
	in.SurfaceC = num(44)
	require.Equal(t, "stop", plan.Reckon(in, nil).Go.Verdict)
	in.Laid = []plan.Strip{{Half: glue.FarHalf, Width: 1350}, {Half: glue.NearHalf, Width: 1349}}
	p := plan.Reckon(in, nil)
	assert.Zero(t, *p.Left)
	assert.Equal(t, "care", p.Go.Verdict, "the deck is hot: %+v", p.Go.Reasons)
}

// A strip as proposed, rolled and laid at the planned rates in its direction, is
// down within the usable time: worked out here cell by cell.
func TestAStripIsDownInTime(t *testing.T) {
	t.Parallel()
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 4))
		in := mild()
		in.Hands = 1 + r.IntN(3)
		in.SurfaceC, in.GoodBatches = num(8+float64(r.IntN(22))), r.IntN(2)
		if r.IntN(2) == 0 {
			in.Rates = &glue.Rates{Roll: glue.Rate(0.4 + 2*r.Float64()), Lay: glue.Rate(0.4 + 2*r.Float64())}
		}
		p := plan.Reckon(in, nil)
		b := p.Batch
		if b == nil || b.NoGo != "" {
			continue
		}
		roll, lay := 1.0*float64(max(1, in.Hands-1)), 1.5
		if in.Hands == 1 {
			lay = 1.2
		}
		if in.Rates != nil {
			roll, lay = float64(in.Rates.Roll), float64(in.Rates.Lay)
		}
		a := b.Area.In(unit.SquareMetre)
		const cells = 100
		oldest := 0.0
		for i := range cells {
			part := a * float64(i) / cells
			spread := part / roll // the fold's cell first
			covered := a*float64(i+1)/cells/lay + float64(b.Turn)
			if b.Direction == string(glue.OuterInward) {
				spread = (a - a*float64(i+1)/cells) / roll // the outer edge first
				covered += a / roll
			} else {
				covered = math.Max(covered, a*float64(i+1)/cells/roll+float64(b.Turn))
			}
			oldest = math.Max(oldest, covered-spread)
		}
		assert.LessOrEqual(t, oldest, b.UsableMin+0.15, "seed %d: %+v", seed, b)
	}
}

func TestUnknownAirAndWindAreTakenAtTheirWorseEnd(t *testing.T) {
	t.Parallel()
	unknown := mild()
	unknown.Damp, unknown.Wind = "unknown", "unknown"
	u := plan.Reckon(unknown, nil)
	assert.Equal(t, []string{"damp", "wind"}, u.Go.Unknown)
	rank := map[string]int{"go": 0, "care": 1, "stop": 2}
	for _, damp := range []string{"dry", "normal", "damp"} {
		for _, wind := range []string{"calm", "breeze", "windy"} {
			in := mild()
			in.Damp, in.Wind = damp, wind
			p := plan.Reckon(in, nil)
			assert.LessOrEqual(t, u.Window.Usable, p.Window.Usable, "%s %s", damp, wind)
			assert.GreaterOrEqual(t, rank[u.Go.Verdict], rank[p.Go.Verdict], "%s %s", damp, wind)
			assert.Empty(t, p.Go.Unknown)
		}
	}
}

func TestTheStricterLimitOfTheTinWins(t *testing.T) {
	t.Parallel()
	in := mild()
	in.SurfaceC, in.LabelLeast = num(11), num(12)
	g := plan.Reckon(in, nil).Go
	require.Equal(t, "stop", g.Verdict)
	assert.Equal(t, string(weather.SurfaceLow), g.Reasons[0].Key)
	assert.True(t, g.Reasons[0].Label)
	in.LabelLeast = num(-5) // a looser one does not
	in.SurfaceC = num(4)
	assert.Equal(t, "stop", plan.Reckon(in, nil).Go.Verdict)
}

// More than the lower number only after a bracketed square of the day, and never
// more than the upper.
func TestTheUpperNumberNeedsASquareOfToday(t *testing.T) {
	t.Parallel()
	in := mild()
	in.SurfaceC, in.LabelUpper = num(14), num(22)
	assert.Equal(t, unit.Minutes(15), plan.Reckon(in, nil).Window.Usable)
	w := plan.Reckon(in, nil).Window
	in.Squares = []glue.Square{{Model: w.Model(), LastWet: w.Model() * 1.2, FirstGone: w.Model() * 1.4}}
	assert.Equal(t, unit.Minutes(15), plan.Reckon(in, nil).Window.Usable, "the square is of another day")
	in.SquareToday = true
	p := plan.Reckon(in, nil)
	assert.Equal(t, unit.Minutes(22), p.Window.Usable)
	assert.Equal(t, glue.AfterBracket, p.Batch.Share)
}

func TestASquareGoneAtOnceStops(t *testing.T) {
	t.Parallel()
	in := mild()
	in.Squares = []glue.Square{{Model: 15, FirstGone: 3}}
	p := plan.Reckon(in, nil)
	assert.Equal(t, plan.SquareLow, p.Window.Stop)
	assert.Equal(t, "stop", p.Go.Verdict)
	assert.Nil(t, p.Go.Wait, "no hour of the day mends a tin")
}

// Sunset against the tables of the US Naval Observatory (testdata/worked/covering).
func TestMinutesToSunset(t *testing.T) {
	t.Parallel()
	f, err := os.Open("../../testdata/worked/covering/covering-sun-usno-2015.csv")
	require.NoError(t, err)
	defer f.Close()
	rows := csv.NewReader(f)
	rows.Comment = '#'
	all, err := rows.ReadAll()
	require.NoError(t, err)
	number := func(s string) float64 { x, err := strconv.ParseFloat(s, 64); require.NoError(t, err); return x }
	n := 0
	for _, row := range all[1:] {
		var y, m, d, hh, mi int
		_, err := fmt.Sscanf(row[4], "%d-%d-%d", &y, &m, &d)
		require.NoError(t, err)
		_, err = fmt.Sscanf(row[6], "%d:%d", &hh, &mi)
		require.NoError(t, err)
		in := mild()
		in.Place = &sun.Place{Lat: unit.Angle(number(row[1])) * unit.Degree, Lon: unit.Angle(number(row[2])) * unit.Degree}
		in.Read = &plan.Reading{Day: sun.Date{Year: y, Month: m, Day: d}, Clock: 12 * 60, Ahead: unit.Minutes(number(row[3]) * 60)}
		g := plan.Reckon(in, nil).Go
		require.NotNil(t, g.Sunset, strings.Join(row, " "))
		assert.InDelta(t, float64(hh*60+mi-12*60), float64(*g.Sunset), 1, strings.Join(row, " "))
		n++
	}
	require.Greater(t, n, 5)
}

func TestNoTinIsOpenedAtDusk(t *testing.T) {
	t.Parallel()
	in := mild()
	in.Place = &sun.Place{Lat: 51.5 * unit.Degree, Lon: -0.1 * unit.Degree} // sunset about 20:40 on the clock there
	for clock, want := range map[unit.Minutes]string{12 * 60: "go", 18*60 + 15: "care", 19*60 + 15: "stop", 22 * 60: "stop"} {
		in.Read.Clock = clock
		g := plan.Reckon(in, nil).Go
		assert.Equal(t, want, g.Verdict, "%v: %+v", clock, g)
		if want != "go" {
			assert.Equal(t, string(weather.DaylightShort), g.Reasons[0].Key)
		}
	}
}

// A regression on our own planning model, not evidence: a deck at 48 °C at noon
// cools as the sun sinks, and the wait ends before the last workable hour.
func TestAHotDeckWaitsForTheEvening(t *testing.T) {
	t.Parallel()
	in := mild()
	in.SurfaceC, in.AirC, in.NightC, in.LabelMin = num(48), num(26), num(13), num(25)
	in.Place = &sun.Place{Lat: 51.5 * unit.Degree, Lon: -0.1 * unit.Degree}
	g := plan.Reckon(in, nil).Go
	require.Equal(t, "stop", g.Verdict)
	require.NotNil(t, g.Wait, "%+v", g)
	sunset := *g.Sunset
	assert.Greater(t, g.Wait.From, 3*unit.Hour, "not while the sun is high")
	assert.Less(t, g.Wait.From, sunset-unit.Hour)
	assert.GreaterOrEqual(t, g.Wait.Until, g.Wait.From)
	require.NotNil(t, g.Dew)
	assert.Greater(t, *g.Dew, g.Wait.Until)

	in.Place = nil
	assert.Nil(t, plan.Reckon(in, nil).Go.Wait, "without a place or hours nothing is promised")
	for _, rain := range []string{"now", "within-3h", "thunder"} {
		in := in
		in.Place, in.Rain = &sun.Place{Lat: 51.5 * unit.Degree, Lon: -0.1 * unit.Degree}, rain
		if g := plan.Reckon(in, nil).Go; g.Verdict == "stop" && rain != "within-3h" {
			assert.Nil(t, g.Wait, "nobody knows when %s is over", rain)
		}
	}
}

// Hours of a forecast: the rain they hold keeps a tin shut that the sky now would
// open.
func TestTheTinIsNotOpenedBeforeTheRain(t *testing.T) {
	t.Parallel()
	in := mild()
	require.Equal(t, "go", plan.Reckon(in, nil).Go.Verdict)
	for rain, want := range map[unit.Minutes]string{10 * 60: "go", 3 * 60: "care", 70: "stop"} {
		in := in
		in.RainIn = &rain
		assert.Equal(t, want, plan.Reckon(in, nil).Go.Verdict, "rain in %v: the field takes the better part of an hour", rain)
	}
}

// Contact runs cover every edge once, corner to corner, the ladder's edge last,
// however often the work is taken up again and the runs change length.
func TestContactRunsCoverEachEdgeOnce(t *testing.T) {
	t.Parallel()
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 5))
		in := mild()
		in.Hands = 1 + r.IntN(3)
		in.Exit = []string{"gutter", "verge", "window"}[r.IntN(3)]
		in.ContactDry, in.ContactMax = num(15), num(45)
		done := map[int]float64{}
		var order []int
		for n := 0; ; n++ {
			require.Less(t, n, 60)
			in.WallC, in.RubberC = num(8+float64(r.IntN(15))), num(12+float64(r.IntN(25)))
			c := plan.Reckon(in, nil).Contact
			require.NotNil(t, c)
			if c.Run == 0 {
				continue
			}
			if len(c.Runs) == 0 {
				break
			}
			run := c.Runs[0]
			assert.InDelta(t, done[run.Edge], float64(run.From), 0.001, "seed %d: a gap on edge %d", seed, run.Edge)
			assert.LessOrEqual(t, float64(run.To-run.From), float64(c.Run)+0.001)
			done[run.Edge] = float64(run.To)
			order = append(order, run.Edge)
			in.Pressed = append(in.Pressed, run)
		}
		for edge, want := range []float64{4200, 3000, 4200, 3000} {
			assert.InDelta(t, want, done[edge], 21, "seed %d: edge %d", seed, edge)
		}
		p := plan.Reckon(in, nil)
		last := p.Outline.Edges[order[len(order)-1]].Kind
		want := map[string]geom.Kind{"gutter": geom.Gutter, "verge": geom.Verge, "window": geom.Wall}[in.Exit]
		assert.Equal(t, want, last, "seed %d", seed)
	}
}
