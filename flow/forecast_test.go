package flow_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// atDeck brings a job to the weather questions at 13:00 on the site's clock.
func atDeck(t *testing.T) *job {
	j := begin(t)
	for n := 0; flow.StepNow(j.s) != "deck-temp"; n++ {
		require.Less(t, n, 200, "at %s", flow.Question(j.s))
		j.patiently()
	}
	require.True(t, j.now.Before(monday.Add(4*time.Hour-time.Minute)), j.now)
	j.now = monday.Add(4*time.Hour - time.Minute)
	return j
}

// patiently gives one plain answer, and lets the sheet lie its time.
func (j *job) patiently() {
	j.t.Helper()
	if flow.StepNow(j.s) == "relax" && j.s.Works["relax"].Done("begun") {
		j.now = j.now.Add(time.Hour)
	}
	j.plain()
}

func (j *job) value(step string) event.Value { return j.s.Settled[step].Value }

func TestPastedHoursAnswerTheWeatherQuestions(t *testing.T) {
	j := atDeck(t)
	j.say("time temp rh wind (mph) gust (mph) rain\n13 21 60 3 6 0\n14 22 55 4 7 0\n15 22 54 4 7 0\n16 21 58 3 6 0\n17 19 65 3 5 0.4\n20 15 80 6 12 0.2\n02 9 90 4 8 0")
	assert.Equal(t, 21.0, j.value("air-temp").Num())
	assert.Equal(t, event.Of("pct", 60), j.value("damp"))
	require.Len(t, j.value("wind").Nums, 2)
	assert.InDelta(t, 3*0.44704, j.value("wind").Nums[0], 0.01)
	assert.InDelta(t, 6*0.44704, j.value("wind").Nums[1], 0.01)
	assert.Equal(t, time.Date(2026, 5, 11, 16, 0, 0, 0, time.UTC), j.value("rain-in").At, "17:00 on the site's clock is 16:00 UTC")
	assert.Equal(t, 9.0, j.value("night").Num())
	assert.Equal(t, "deck-temp", flow.StepNow(j.s), "the deck is for a thermometer")
	j.say("24")
	p := flow.View{S: j.s}.Plan()
	require.NotNil(t, p.Go)
	require.Equal(t, "care", p.Go.Verdict, "rain four hours off, and the field over an hour of work: %+v", p.Go)
	assert.Equal(t, "rain_soon", p.Go.Reasons[0].Key)
	assert.Len(t, flow.View{S: j.s}.Plan().Go.Unknown, 0)
}

// On a terminal each line of a forecast comes by itself.
func TestHoursLineByLine(t *testing.T) {
	all := atDeck(t)
	lines := all.fork()
	text := []string{"13:00 21°C 60% 10mph 0mm", "16:00 21°C 58% 10mph 0mm", "20:00 15°C 80% 6mph 0.2mm", "02:00 9°C 90% 4mph 0mm"}
	all.say(strings.Join(text, "\n"))
	for _, line := range text {
		lines.say(line)
	}
	assert.Equal(t, all.value("hours").Text, lines.value("hours").Text)
	assert.True(t, all.value("hours").At.Equal(lines.value("hours").At))
	for _, step := range []string{"air-temp", "night", "damp"} { // read a few minutes apart
		assert.InDelta(t, all.value(step).Num(), lines.value(step).Num(), 0.5, step)
	}
}

func TestAReportAnswersWhatItKnows(t *testing.T) {
	at := atDeck(t)
	j := at.fork()
	j.say("METAR EGXX 111150Z 24010G20KT 9999 FEW030 18/09 Q1018") // invented
	assert.Equal(t, 18.0, j.value("air-temp").Num())
	assert.InDelta(t, 55.6, j.value("damp").Num(), 0.7)
	assert.InDelta(t, 5.14, j.value("wind").Nums[0], 0.01)
	assert.InDelta(t, 10.29, j.value("wind").Nums[1], 0.01)
	assert.False(t, j.s.Settled["rain-in"].Answer(), "a report says nothing of the next hours")
	assert.False(t, j.s.Settled["night"].Answer())

	j = at.fork()
	j.say("EGXX 111150Z 24010KT TSRA 18/09")
	assert.Equal(t, "thunder", j.value("rain-in").Text)
	j = at.fork()
	j.say("EGXX 111150Z 24010KT -RA 18/09")
	assert.Equal(t, "now", j.value("rain-in").Text)
}

func TestPastesThatAreRefused(t *testing.T) {
	at := atDeck(t)
	for text, key := range map[string]string{
		"EGXX 110550Z 24010KT 18/09":         "paste.old", // six hours old
		"EGXX 111550Z 24010KT 18/09":         "paste.old", // not yet
		"EGXX 321150Z 24010KT 18/09":         "paste.bad-time",
		"METAR what it says":                 "paste.not-a-report",
		"13:00 14\n14:00 15":                 "paste.bare-number",
		"13:00 14°C 140%\n14:00 15°C":        "paste.out-of-range",
		"it is warm\nand dry":                "paste.no-time",
		"13:00 14°C wind 10\n14:00 15°C 10%": "paste.wind-unit",
	} {
		j := at.fork()
		h, ok := last(j.say(text)).(event.Heard)
		require.True(t, ok, text)
		assert.Equal(t, key, h.Key, text)
		assert.False(t, j.s.Settled["hours"].Answer(), text)
	}
	// What is no weather is an answer to the question.
	j := at.fork()
	j.say("24")
	assert.Equal(t, 24.0, j.value("deck-temp").Num())
	h, ok := last(j.say("200")).(event.Heard)
	require.True(t, ok)
	assert.Equal(t, "hear.refused.range", h.Key)
}

// A measured wind or humidity is heard where a tap is usual.
func TestMeasuredWindAndHumidity(t *testing.T) {
	j := atDeck(t)
	j.say("24")
	j.say("18")
	j.say("9")
	h, ok := last(j.say("140 %")).(event.Heard)
	require.True(t, ok)
	assert.Equal(t, "hear.refused.range", h.Key)
	assert.Equal(t, event.Of("pct", 1, 100).Nums, []float64{h.Args["low"].Num(), h.Args["high"].Num()})
	j.say("72%")
	assert.Equal(t, event.Of("pct", 72), j.value("damp"))
	j.say("18") // in which unit?
	j.say("mph")
	assert.InDelta(t, 18*0.44704, j.value("wind").Num(), 0.01)
	j.say("in 2 hours")
	assert.Equal(t, "time", j.value("rain-in").Unit)
	v := flow.View{S: j.s}
	require.NotNil(t, v.Plan().Go)
	// Asked again, the measured values are offered and taken with one tap.
	j.say("go membrane")
	j.say("change wind calm")
	assert.Equal(t, "calm", j.value("wind").Text)
}

func TestPlacesAsPeopleGiveThem(t *testing.T) {
	at := begin(t)
	for n := 0; flow.StepNow(at.s) != "place"; n++ {
		require.Less(t, n, 200, "at %s", flow.Question(at.s))
		at.patiently()
	}
	for text, want := range map[string][]float64{
		"51.5 -0.1": {51.5, -0.1}, "51.5, -0.1": {51.5, -0.1}, "51.5074,-0.1278": {51.5074, -0.1278}, "51.5N 0.1W": {51.5, -0.1},
		"51.5° N, 0.1° W": {51.5, -0.1}, "33.9 S 151.2 E": {-33.9, 151.2}, "51,5 -0,1": {51.5, -0.1}, "−33.9 151.2": {-33.9, 151.2},
		"none": {}, ".": {},
	} {
		j := at.fork()
		j.say(text)
		assert.Equal(t, want, append([]float64{}, j.value("place").Nums...), text)
	}
	for _, text := range []string{"London", "51.5", "95 10", "51.5 200", "51.5 W 0.1 N", "0x33 1", "51.5 -0.1 3", "NaN 1", "1e1 2", "inf 1"} {
		j := at.fork()
		h, ok := last(j.say(text)).(event.Heard)
		require.True(t, ok, text)
		assert.Equal(t, "hear.refused.number", h.Key, text)
		replies := flow.Say(j.s, j.entries[len(j.entries)-1], builder)
		require.NotEmpty(t, replies)
		assert.Equal(t, "eg.place", replies[0].(talk.Tell).Lines[0].Args["example"].(talk.Phrase).Key)
	}
}

func TestASquareIsHeldAgainstTheTin(t *testing.T) {
	j := atDeck(t)
	for _, text := range []string{"18", "15", "9", "normal", "calm", "none"} {
		j.say(text)
	}
	require.Equal(t, "square", flow.StepNow(j.s))
	j.say("square spread")
	model := j.s.Works["square/1"].Has["model"].Num()
	require.Greater(t, model, 10.0)
	spread := j.now
	clock := func() time.Time {
		for _, c := range flow.Clocks(j.s) {
			if c.Name == "square/1/look" {
				return c.Due
			}
		}
		return time.Time{}
	}
	assert.InDelta(t, model/2, clock().Sub(spread).Minutes(), 0.1, "first look at half of it")
	j.now = spread.Add(5 * time.Minute)
	j.say("still wet") // at 6
	j.now = spread.Add(8 * time.Minute)
	j.say("gone") // at 9
	require.Equal(t, "go", flow.StepNow(j.s))
	p := flow.View{S: j.s}.Plan()
	assert.InDelta(t, 6/model, p.Window.JobFactor, 0.01, "wet at 6, gone at 9: planned on 6")
	assert.InDelta(t, 6, float64(p.Window.Usable), 0.1)
	assert.Equal(t, 0.85, p.Batch.Share, "the square is the margin already")
	// The day after it is kept, but no longer spoken of as of today.
	j.now = j.now.Add(24 * time.Hour)
	j.say("yes")
	for n := 0; flow.StepNow(j.s) != "go"; n++ {
		require.Less(t, n, 20, "at %s", flow.Question(j.s))
		j.plain()
	}
	p = flow.View{S: j.s}.Plan()
	assert.InDelta(t, 6/model, p.Window.JobFactor, 0.01)
	assert.Equal(t, 0.6, p.Batch.Share)
}

// FuzzPaste: whatever is pasted at the weather questions, the laws hold and the
// open question is asked again.
func FuzzPaste(f *testing.F) {
	for _, s := range []string{"METAR EGXX 111150Z 24010G20KT 9999 -RA 18/09 Q1018", "13:00 21°C 60% 10mph 0mm\n14:00 22°C", "time temp rh\n13 21 60\n14 22 55", "EGXX 111150Z ////KT //// //", "13:00 -\n",
		"24:00 1", "13:00 14°C 0mm\n12:00 15°C 0mm\n11:00 16°C 3mm", "\n\n\n", "time\n1"} {
		f.Add(s)
	}
	at := begin(f)
	for n := 0; flow.StepNow(at.s) != "deck-temp"; n++ {
		if n > 200 {
			f.Fatal("never came to the weather")
		}
		at.patiently()
	}
	at.now = monday.Add(4 * time.Hour)
	f.Fuzz(func(t *testing.T, text string) {
		j := at.fork()
		j.t = t
		j.say(text)
		j.say("24 C")
		require.NotEmpty(t, flow.Prompt(j.s, builder))
		_ = flow.View{S: j.s}.Plan()
	})
}
