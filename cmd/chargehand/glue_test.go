package main

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// at says a line at a time of the day, with what falls due before it.
func (w *walker) at(clock, text string) {
	w.t.Helper()
	t, err := time.Parse("15:04", clock)
	require.NoError(w.t, err)
	day := w.now
	w.now = time.Date(day.Year(), day.Month(), day.Day(), t.Hour(), t.Minute(), 0, 0, time.UTC).Add(-time.Minute)
	require.False(w.t, w.now.Before(day), "%s is past", clock)
	w.ring()
	w.say(text)
}

// split cuts the script of a walker after what has been said so far.
func (w *walker) split() func() (before, after string) {
	n := len(w.typed)
	return func() (string, string) { return strings.Join(w.typed[:n], ""), strings.Join(w.typed[n:], "") }
}

// hotDayStory is a deck at 48 °C at noon: pasted hours and the place of the roof say
// when it will do. Times are UTC, an hour behind the clock on site.
func hotDayStory(t *testing.T) (before, day string) {
	w := newWalker(t)
	w.to("deck-temp", with(leanTo, "label", "25 20", "place", "51.5 -0.1"))
	cut := w.split()
	for _, line := range []string{"12:00 29°C 40% 3mph 0mm", "15:00 31°C 36% 3mph 0mm", "17:00 29°C 40% 2mph 0mm", "19:00 23°C 55% 1mph 0mm", "21:00 18°C 70% 1mph 0mm",
		"23:00 15°C 80% 1mph 0mm", "02:00 12°C 88% 1mph 0mm", "05:00 11°C 90% 1mph 0mm"} {
		w.say(line)
	}
	w.say("54 C")
	w.say(".")
	w.say("yes")
	w.at("17:30", "yes")
	w.to("batches", with(leanTo, "deck-temp", "25", "air-temp", ".", "damp", ".", "wind", "."))
	w.say("t")
	return cut()
}

// rainStory is a shower in the middle of the second batch.
func rainStory(t *testing.T) (before, day string) {
	w := newWalker(t)
	w.to("batches", leanTo)
	cut := w.split()
	for range 3 {
		w.answer(leanTo) // the first batch
	}
	w.to("batches", leanTo)
	w.say("start")
	w.now = w.now.Add(3 * time.Minute)
	w.say("r")
	w.say("rained on")
	w.say("24")
	w.now = w.now.Add(150 * time.Minute)
	w.say("17")
	w.to("batches", leanTo)
	return cut()
}
