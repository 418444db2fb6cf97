package glue_test

import (
	"math"
	"testing"

	"chargehand/calc/glue"
	"chargehand/calc/unit"
	"chargehand/calc/weather"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hotDay is invented: 31 °C at four in the afternoon, the deck 16 K warmer at
// one o'clock, dry, a light wind.
func hotDay() weather.Course {
	var c weather.Course
	for h := 6; h <= 30; h++ {
		air := unit.Celsius(22 + 9*math.Cos(float64(h-16)/12*math.Pi))
		surface := air + unit.Celsius(math.Max(0, 16*math.Sin(float64(h-6)/14*math.Pi)))
		if h > 20 {
			surface = air - 1
		}
		rh, wind, rain := unit.Percent(45), unit.Speed(2), unit.Length(0)
		c = append(c, weather.Hour{Minute: unit.Minutes(60 * h), Air: &air, Surface: &surface, RH: &rh, Wind: &wind, Rain: &rain})
	}
	return c
}

func waiting() glue.WaitInput {
	sunset := unit.Minutes(21*60 + 20)
	return glue.WaitInput{
		Now: plain(), Batch: glue.BatchInput{Hands: 2, WayOff: true, Fold: 2900},
		Course: hotDay(), From: 13 * 60, Sunset: &sunset,
	}
}

func TestWaitForTheCoolOfTheEvening(t *testing.T) {
	t.Parallel()
	in := waiting()
	gap, err := glue.Wait(in)
	require.NoError(t, err)
	require.True(t, gap.Found)
	assert.Greater(t, gap.From, unit.Minutes(15*60), "one o'clock is too hot to work")
	assert.Less(t, gap.From, unit.Minutes(20*60))
	assert.Zero(t, math.Mod(float64(gap.From), 5))
	assert.GreaterOrEqual(t, gap.Until, gap.From)
	assert.LessOrEqual(t, gap.Until, *in.Sunset-60, "daylight to the end")
	assert.GreaterOrEqual(t, gap.Batch.Area, unit.SquareMetre)

	// Just before it, the day was too short to work in: looked at one by one.
	before := in
	before.From = gap.From - 5
	early, err := glue.Wait(before)
	require.NoError(t, err)
	assert.Equal(t, gap.From, early.From)
	// Looking from later never finds an earlier start.
	last := unit.Minutes(0)
	for from := unit.Minutes(6 * 60); from <= 30*60; from += 17 {
		in.From = from
		g, err := glue.Wait(in)
		require.NoError(t, err)
		if !g.Found {
			continue
		}
		assert.GreaterOrEqual(t, g.From, from)
		assert.GreaterOrEqual(t, g.From, last)
		last = g.From
	}
	assert.Positive(t, last)
}

func TestWaitFindsNothing(t *testing.T) {
	t.Parallel()
	in := waiting()
	for i := range in.Course {
		rain := unit.Length(1)
		in.Course[i].Rain = &rain
	}
	gap, err := glue.Wait(in)
	require.NoError(t, err)
	assert.False(t, gap.Found)

	in = waiting()
	sunset := unit.Minutes(14 * 60)
	in.Sunset = &sunset
	gap, err = glue.Wait(in)
	require.NoError(t, err)
	assert.False(t, gap.Found, "night work is not proposed")
}

func TestWaitUsesTheReadingsOfNowWhereTheCourseIsSilent(t *testing.T) {
	t.Parallel()
	in := waiting()
	full, err := glue.Wait(in)
	require.NoError(t, err)
	for i := range in.Course {
		in.Course[i].RH, in.Course[i].Wind, in.Course[i].Rain = nil, nil, nil
	}
	in.Now.RH, in.Now.Wind = 45, 2
	bare, err := glue.Wait(in)
	require.NoError(t, err)
	assert.Equal(t, full.From, bare.From)
	gust := unit.Speed(13)
	for i := range in.Course {
		in.Course[i].Gust = &gust
	}
	gap, err := glue.Wait(in)
	require.NoError(t, err)
	assert.False(t, gap.Found, "gusts over 26 mph")

	in.Course[len(in.Course)-1].Surface = nil
	in.From = in.Course[len(in.Course)-1].Minute
	_, err = glue.Wait(in)
	require.Error(t, err)
	in.From = 0
	_, err = glue.Wait(in)
	require.Error(t, err)
}

// In weather that asks for care no more than 0.6 of the window is planned with,
// whatever the tin has earned.
func TestWaitPlansWithLessInWeatherThatAsksForCare(t *testing.T) {
	t.Parallel()
	in := waiting()
	in.Batch.Factor = glue.AfterBracket
	in.From = 8 * 60
	fine, err := glue.Wait(in)
	require.NoError(t, err)
	require.True(t, fine.Found)
	assert.False(t, fine.Care)
	assert.InDelta(t, glue.AfterBracket*float64(fine.Window.Usable), float64(fine.Batch.Usable), 1e-9)
	for i := range in.Course {
		gust := 22 * unit.MilePerHour
		in.Course[i].Gust = &gust
	}
	care, err := glue.Wait(in)
	require.NoError(t, err)
	require.True(t, care.Found)
	assert.True(t, care.Care)
	assert.InDelta(t, glue.FirstBatch*float64(care.Window.Usable), float64(care.Batch.Usable), 1e-9)
}

// Half an hour for the batch and an hour more before the light goes or rain
// falls.
func TestWaitLeavesTimeForTheBatch(t *testing.T) {
	t.Parallel()
	in := waiting()
	in.From = 19 * 60
	sunset := unit.Minutes(19*60 + 90)
	in.Sunset = &sunset
	gap, err := glue.Wait(in)
	require.NoError(t, err)
	assert.True(t, gap.Found)
	sunset--
	gap, err = glue.Wait(in)
	require.NoError(t, err)
	assert.False(t, gap.Found)
}

func BenchmarkWait(b *testing.B) {
	in := waiting()
	for b.Loop() {
		if _, err := glue.Wait(in); err != nil {
			b.Fatal(err)
		}
	}
}
