package flow_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// weather answers the weather questions like a mild, still day.
func (j *job) weather() {
	j.t.Helper()
	for _, text := range []string{"18", "15", "9", "normal", "calm", "none"} {
		j.say(text)
	}
}

// square spreads a test square, sees it wet and gone at these ages, and returns what
// went into the book with the last look.
func (j *job) square(wet, gone time.Duration) []event.Entry {
	j.t.Helper()
	require.Equal(j.t, "square", flow.StepNow(j.s))
	j.say("square spread")
	spread := j.now
	j.now = spread.Add(wet - time.Minute)
	j.say("still wet")
	j.now = spread.Add(gone - time.Minute)
	book := j.step("gone").Book
	j.now = spread.Add(gone - time.Minute)
	j.say("gone")
	return book
}

// taught is a book that a job has written a film into, and that job.
func taught(t *testing.T, wet, gone time.Duration) (flow.Book, *job) {
	j := atDeck(t)
	j.weather()
	entries := j.square(wet, gone)
	require.Len(t, entries, 1)
	return flow.ApplyBook(flow.Book{}, entries[0]), j
}

// next is a job begun with what the book knows, at its weather questions.
func next(t *testing.T, book flow.Book, differently map[string]string) *job {
	j := &job{t: t, now: monday.AddDate(0, 1, 0)}
	j.do(builder, "", talk.Begun{Name: "Shed", Zone: "Europe/London", Films: book.Films()})
	for n := 0; flow.StepNow(j.s) != "deck-temp"; n++ {
		require.Less(t, n, 200, "at %s", flow.Question(j.s))
		if said, ok := differently[flow.StepNow(j.s)]; ok {
			j.say(said)
			continue
		}
		j.patiently()
	}
	j.weather()
	return j
}

func factor(j *job) float64 { return flow.View{S: j.s}.Plan().Window.JobFactor }

// What a film did is offered to the next job with the conditions it was seen in, is
// planned on only when taken, and gives way to a square of that roof.
func TestAFilmIsOfferedToTheNextJob(t *testing.T) {
	book, first := taught(t, 6*time.Minute, 9*time.Minute)
	films := book.Films()
	require.Len(t, films, 1)
	model := first.s.Works["square/1"].Has["model"].Num()
	assert.Equal(t, []float64{15, 20}, films[0].Label)
	assert.Equal(t, 18.0, films[0].Deck)
	assert.Equal(t, 15.0, films[0].Air)
	assert.Equal(t, "board", films[0].Substrate)

	j := next(t, book, nil)
	require.Equal(t, "earlier", flow.StepNow(j.s))
	assert.Equal(t, 1.0, factor(j), "nothing is taken unasked")
	var lines []event.Line
	for _, e := range j.entries {
		if told, ok := e.Event.(event.Told); ok && told.What == "earlier" {
			lines = told.Lines
		}
	}
	require.Len(t, lines, 2, "the conditions are shown before the question")
	assert.Equal(t, event.Of("celsius", 18), lines[0].Args["deck"])
	assert.True(t, films[0].Begun.Equal(lines[0].Args["day"].At))
	assert.Equal(t, event.Of("min", 6), lines[1].Args["wet"])

	left := j.fork()
	left.say("leave it")
	assert.Equal(t, 1.0, factor(left))

	j.say(".")
	assert.Equal(t, "use", j.value("earlier").Text, "the shorter one is offered")
	assert.InDelta(t, 6/model, factor(j), 0.01)
	assert.Equal(t, 0.6, flow.View{S: j.s}.Plan().Batch.Share, "it is no square of today")

	own := j.fork()
	own.square(9*time.Minute, 11*time.Minute)
	assert.InDelta(t, 9/own.s.Works["square/1"].Has["model"].Num(), factor(own), 0.01, "this roof's own film outranks it, also where it lived longer")
	assert.Equal(t, 0.85, flow.View{S: own.s}.Plan().Batch.Share)
}

// A film of another tin, or of another kind of deck, is not spoken of.
func TestAFilmIsOfItsTinAndDeck(t *testing.T) {
	book, _ := taught(t, 6*time.Minute, 9*time.Minute)
	for step, said := range map[string]string{"label": "25 20", "label-second": "9 30", "substrate": "sealed"} {
		j := next(t, book, map[string]string{step: said})
		assert.Equal(t, "square", flow.StepNow(j.s), "%s %s", step, said)
	}
	j := next(t, book, nil)
	j.say("use it")
	require.Less(t, factor(j), 1.0)
	j.say("change substrate sealed")
	j.say("yes")
	assert.Equal(t, 1.0, factor(j), "a film of bare board says nothing of a sealed one")
	j.say("change substrate board")
	j.say("yes")
	require.False(t, j.s.Settled["earlier"].Answer())
	assert.Equal(t, 1.0, factor(j), "it is asked again, not taken again")
	require.Equal(t, "earlier", flow.StepNow(j.s))
}

// A film that lived longer than reckoned is left out by the dot; taken, it never
// takes the window past the label.
func TestALongerFilmIsNotTakenByTheDot(t *testing.T) {
	book, first := taught(t, 18*time.Minute, 21*time.Minute)
	require.Greater(t, factor(first), 1.0)
	j := next(t, book, nil)
	require.Equal(t, "earlier", flow.StepNow(j.s))
	took := j.fork()
	j.say(".")
	assert.Equal(t, "pass", j.value("earlier").Text)
	took.say("use it")
	require.Greater(t, factor(took), 1.0)
	assert.LessOrEqual(t, float64(flow.View{S: took.s}.Plan().Window.Usable), 15.0)
}

// The book keeps the latest film of a tin and a deck and takes back what a job takes
// back; it never mixes two.
func TestTheBookKeepsTheLatestFilm(t *testing.T) {
	film := func(day int, on string, wet float64) event.Film {
		return event.Film{Begun: monday.AddDate(0, 0, day), Label: []float64{15, 20}, Substrate: on, Deck: 18, Air: 15, Model: 15, LastWet: wet, FirstGone: wet + 3}
	}
	var b flow.Book
	write := func(f event.Film, gone bool) {
		b = flow.ApplyBook(b, event.Entry{At: f.Begun, Event: event.Calibrated{Film: f, Gone: gone}})
	}
	write(film(9, "board", 8), false)
	write(film(2, "board", 6), false)
	write(film(3, "sealed", 12), false)
	films := b.Films()
	require.Len(t, films, 2)
	assert.Equal(t, []float64{12, 8}, []float64{films[0].LastWet, films[1].LastWet})
	write(film(9, "board", 8), true)
	films = b.Films()
	require.Len(t, films, 2)
	assert.Equal(t, []float64{6, 12}, []float64{films[0].LastWet, films[1].LastWet})
}

// The lesson of a batch goes into the book when it is taken, not before and not when
// it is left.
func TestABatchTeachesTheBookWhenItsLessonIsTaken(t *testing.T) {
	j := begin(t)
	j.toBatches()
	j.say("start")
	spread := j.now
	j.now = spread.Add(5 * time.Minute)
	j.say("still wet")
	j.now = spread.Add(8 * time.Minute)
	assert.Empty(t, j.step("gone").Book)
	j.say("gone")
	for n := 0; flow.StepNow(j.s) != "learn"; n++ {
		require.Less(t, n, 20, "at %s", flow.Question(j.s))
		j.patiently()
	}
	assert.Empty(t, j.step("leave it").Book)
	entries := j.step("use it").Book
	require.Len(t, entries, 1)
	film := entries[0].Event.(event.Calibrated).Film
	assert.InDelta(t, 6, film.LastWet, 0.01)
	assert.InDelta(t, 9, film.FirstGone, 0.01)
}
