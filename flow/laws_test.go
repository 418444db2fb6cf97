package flow_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

var (
	monday  = time.Date(2026, 5, 11, 8, 0, 0, 0, time.UTC)
	builder = talk.Person{ID: "b", Name: "Ann", Role: "builder"}
	second  = talk.Person{ID: "s", Name: "Bo", Role: "second"}
)

// job is a conversation driven straight through the engine.
type job struct {
	t       testing.TB
	s       flow.State
	now     time.Time
	entries []event.Entry
}

func begin(t testing.TB) *job {
	j := &job{t: t, now: monday}
	j.do(builder, "", talk.Begun{Name: "Garage", Zone: "Europe/London"})
	return j
}

// do steps an input and checks every law that can be checked on the spot.
func (j *job) do(who talk.Person, asked string, what talk.What) []event.Entry {
	j.t.Helper()
	in := talk.Input{At: j.now, By: who, Reader: "test:" + who.ID, Asked: asked, What: what}
	before := j.s
	out := flow.Step(before, in)
	again := flow.Step(before, in)
	require.Equal(j.t, out, again, "the same state and input gave two outcomes")
	for _, e := range out.Events {
		_ = flow.Say(j.s, e, builder)
		j.s = flow.Apply(j.s, e)
		roundTrip(j.t, e)
	}
	require.Equal(j.t, flow.Clocks(j.s), out.Clocks, "the clocks are not those of the state")
	j.entries = append(j.entries, out.Events...)
	return out.Events
}

// roundTrip: an event that is written must decode to itself.
func roundTrip(t testing.TB, e event.Entry) {
	t.Helper()
	rec, err := event.Seal(event.Head{}, e, func(b []byte) { clear(b) })
	require.NoError(t, err, "%#v", e)
	raw, err := event.MarshalRecord(rec)
	require.NoError(t, err)
	rec, err = event.UnmarshalRecord(raw)
	require.NoError(t, err)
	back, err := rec.Open()
	require.NoError(t, err)
	again, err := event.Seal(event.Head{}, back, func(b []byte) { clear(b) })
	require.NoError(t, err)
	require.Equal(t, rec.Hash, again.Hash, "the event reads back as another one: %#v", e)
	for _, v := range values(e.Event) {
		for _, n := range v.Nums {
			require.False(t, math.IsNaN(n) || math.IsInf(n, 0), "%#v", e)
		}
	}
}

func values(e event.Event) []event.Value {
	switch e := e.(type) {
	case event.Answered:
		return []event.Value{e.Value}
	case event.Proposed:
		return []event.Value{e.Value}
	}
	return nil
}

func (j *job) say(text string) []event.Entry {
	j.t.Helper()
	j.now = j.now.Add(time.Minute)
	return j.do(builder, flow.Question(j.s), talk.Said{Text: text})
}

// last is the last event of an input.
func last(es []event.Entry) event.Event {
	if len(es) == 0 {
		return nil
	}
	return es[len(es)-1].Event
}

// find returns the first event of a kind.
func find[E event.Event](es []event.Entry) (E, bool) {
	for _, e := range es {
		if ev, ok := e.Event.(E); ok {
			return ev, true
		}
	}
	var none E
	return none, false
}

func TestStateIsTheFoldOfItsEvents(t *testing.T) {
	j := begin(t)
	r := rand.New(rand.NewPCG(1, 1))
	for range 400 {
		j.say(gabble(r, j.s))
	}
	folded := flow.Fold(flow.State{}, j.entries...)
	require.Equal(t, flow.Question(j.s), flow.Question(folded))
	require.Equal(t, j.s.Settled, folded.Settled)
	require.Equal(t, j.s.Works, folded.Works)
	require.Equal(t, j.s.Seq, folded.Seq)
	require.Equal(t, flow.Clocks(j.s), flow.Clocks(folded))
}

// gabble is something a person might say: often an answer, sometimes not.
func gabble(r *rand.Rand, s flow.State) string {
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	switch r.IntN(10) {
	case 0:
		return pick("b", "u", "?", "t", "list", "where", "help", "p", "r", "x", "d", "d friday", "s no need", "note hello", "snag cracked tile", "take up", "go deck", "go membrane", "change length 6100", "change centres 600", "change joist 47 195", "change", "price joists 4.8 13.90", "price boards 18.5", "price battens", "came boards 2", "came joists 4 3.6", "came boards 0", "came", "price boards none")
	case 1:
		return pick("", " ", "\x00", "NaN", "1e9", "-5", "0x10", "99999999999999999999", "five point four metres", "1,200", "24", "8x4", "\u202e5400", "½")
	case 2:
		return pick("yes", "no", "maybe", ".", "don't know")
	}
	if a, ok := likely[flow.StepNow(s)]; ok {
		return a
	}
	spec, _ := flow.Lookup(flow.StepNow(s))
	if spec.Offer != nil && r.IntN(4) > 0 {
		return "."
	}
	return pick("yes", "1", "150", "2400 1200", strconv.Itoa(r.IntN(400)))
}

// likely are plain answers of a small lean-to.
var likely = map[string]string{
	"built": "1", "covering": "1", "guarded": "yes", "length": "4200 3000", "edges": "1 2 3 2", "clear-span": "2850", "wall-above": "2400", "upper-depth": "4000", "sheds": "no", "site": "80",
	"anchor-size": "12 150 47", "board": "2400 1200", "deck-damp": "14", "bed-joint": "188", "dust-left": "no", "deck-temp": "18", "air-temp": "15", "night": "9",
	"face-temps": "16 24", "laps": "1", "damp": "normal", "wind": "calm", "litres": ".", "learn": "2",
	"papers": "none", "overlaps": "210 160 260 160", "way-off": "1", "relax": "1", "batches": "1", "contact": "1", "hose": "1",
	"asbestos": "lab report clear", "span-gate": "47 220", "sheet-short": "another sheet",
}

// A walker that answers, mistypes, goes back and changes its mind must find no
// dead end: there is always a question or a rest that says what to do, and
// plain answers always lead on to the hand-over.
func TestRandomWalksFindNoDeadEnd(t *testing.T) {
	jobs := 6
	if s := os.Getenv("WALKS"); s != "" {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		jobs = n
	}
	for seed := range jobs {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			j := begin(t)
			r := rand.New(rand.NewPCG(uint64(seed), 7))
			for range 250 {
				j.say(gabble(r, j.s))
				require.NotEmpty(t, flow.Prompt(j.s, builder), "nothing is said at %s", flow.Question(j.s))
			}
			j.finish()
		})
	}
}

// live says whether a batch is being laid.
func (j *job) live() bool {
	over := func(w flow.Work) bool {
		return w.Done("down") || w.Done("gone") || w.Done("rained") || w.Done("wrong-tin")
	}
	n := 1
	for over(j.s.Works[fmt.Sprintf("batch/%d", n)]) {
		n++
	}
	return j.s.Works[fmt.Sprintf("batch/%d", n)].Done("begun")
}

// fork is the same job, to go on with in another way.
func (j *job) fork() *job {
	other := *j
	other.entries = slices.Clip(other.entries)
	return &other
}

// finish answers plainly until the roof is handed over.
func (j *job) finish() {
	j.t.Helper()
	stuck := map[string]int{}
	for range 5000 {
		id := flow.StepNow(j.s)
		if stuck[id]++; stuck[id] > 600 {
			break
		}
		if n := stuck[id]; n > 4 && n%5 == 0 && j.s.Pending == nil {
			// What the walk has left behind can refuse every plain answer: the
			// ways out that the refusals name must work.
			switch id {
			case "batches":
				j.say("change deck-temp 18")
				j.say("yes")
				j.say("change wind calm")
				j.say("yes")
				j.say("change label 20")
				j.say("yes")
				j.say("change label temp 20")
				j.say("yes")
			case "span-gate":
				j.say("J Ames, engineer, passed it") // what is missing can't be told any more
			case "asbestos", "relax", "contact":
			default:
				j.say("s no other way")
			}
			continue
		}
		switch {
		case j.s.Status == flow.JobHanded:
			return
		case j.s.Status == flow.JobPaused:
			j.say("yes")
			continue
		case j.s.Pending != nil:
			j.say("yes")
			continue
		}
		if id == "" {
			j.say("take up")
			continue
		}
		if id == "relax" && j.s.Works["relax"].Done("begun") {
			j.now = j.now.Add(2 * time.Hour)
		}
		if id == "batches" && stuck[id] > 12 && j.s.Works["batch/1"].Done("down") && !j.live() {
			j.say("all down") // on a roof without a field only the hand knows
			continue
		}
		if a, ok := likely[id]; ok {
			j.say(a)
			continue
		}
		if spec, _ := flow.Lookup(id); spec.Offer != nil {
			j.say(".")
			continue
		}
		j.say("yes")
	}
	for _, e := range j.entries[max(0, len(j.entries)-14):] {
		j.t.Logf("%#v", e.Event)
	}
	j.t.Fatalf("not handed over: at %s", flow.Question(j.s))
}

func TestOldButtonChangesNothingAndSaysWhatHappened(t *testing.T) {
	j := begin(t)
	old := flow.Question(j.s)
	j.say("full")
	es := j.do(second, old, talk.Pressed{Question: old, Action: "short"})
	require.Len(t, es, 1)
	h, ok := es[0].Event.(event.Heard)
	require.True(t, ok, "%#v", es[0].Event)
	assert.Equal(t, "already.done", h.Key)
	assert.Equal(t, "full", j.s.Way)
}

func TestLateAnswerOfAnotherHandIsAskedAboutNotTaken(t *testing.T) {
	j := begin(t)
	for flow.StepNow(j.s) != "length" {
		j.plain()
	}
	shown := flow.Question(j.s) // both see the same question
	j.say("5400")
	j.say("2900")
	j.now = j.now.Add(time.Minute)
	es := j.do(second, shown, talk.Said{Text: "5500"})
	p, ok := find[event.Proposed](es)
	require.True(t, ok, "%#v", es)
	assert.Equal(t, "length", p.Step)
	v := flow.View{S: j.s}
	assert.EqualValues(t, 5400, v.MM("length"), "the first answer stands until someone says yes")
}

// plain gives one plain answer.
func (j *job) plain() {
	j.t.Helper()
	id := flow.StepNow(j.s)
	if a, ok := likely[id]; ok {
		j.say(a)
		return
	}
	if spec, _ := flow.Lookup(id); spec.Offer != nil {
		j.say(".")
		return
	}
	j.say("yes")
}

func (j *job) to(step string) {
	j.t.Helper()
	for range 300 {
		if flow.StepNow(j.s) == step {
			return
		}
		j.plain()
	}
	j.t.Fatalf("never came to %s; at %s", step, flow.Question(j.s))
}

func TestUndoTakesBackTheLastAnswerOnly(t *testing.T) {
	j := begin(t)
	j.to("edges")
	before := j.s.Settled["diagonals"]
	require.True(t, before.Answer())
	es := j.say("u")
	u, ok := find[event.Undone](es)
	require.True(t, ok)
	assert.Equal(t, before.Seq, u.Seq)
	assert.Equal(t, "diagonals", flow.StepNow(j.s), "it is asked again")
	assert.Greater(t, j.s.Settled["diagonals"].Version, 0, "an old button must stay old")
}

func TestUndoIsRefusedOnceSomethingStandsOnTheRoof(t *testing.T) {
	j := begin(t)
	j.to("plate-fix")
	j.say("yes")
	h, ok := last(j.say("u")).(event.Heard)
	require.True(t, ok)
	assert.Equal(t, "refuse.undo-done", h.Key)
	assert.True(t, j.s.Settled["plate-fix"].Answer())
}

func TestChangeAfterTheDeckWasPlannedShowsWhatMovesFirst(t *testing.T) {
	j := begin(t)
	j.to("deck-fixed")
	es := j.say("change centres 600")
	_, ok := find[event.Proposed](es)
	require.True(t, ok, "%#v", last(es))
	require.NotNil(t, j.s.Pending)
	assert.Equal(t, "400", j.s.Settled["centres"].Value.Text, "nothing moves before the yes")
	said := flow.Say(flow.Fold(flow.State{}, j.entries[:len(j.entries)-1]...), es[len(es)-1], builder)
	require.NotEmpty(t, said)
	tell := said[0].(talk.Tell)
	assert.Equal(t, talk.Change, tell.Level)
	keys := map[string]bool{}
	for _, l := range tell.Lines {
		if what, ok := l.Args["what"].(talk.Phrase); ok {
			keys[what.Key] = true
		}
	}
	for _, want := range []string{"fig.joist-centres", "fig.joist-count", "fig.joist-marks"} {
		assert.True(t, keys[want], "%s is not shown as moving: %v", want, keys)
	}
	es = j.say("yes")
	re, ok := find[event.Reopened](es)
	require.True(t, ok)
	assert.Contains(t, re.Steps, "joists-hold")
	assert.Contains(t, re.Steps, "deck-cut")
	assert.Equal(t, flow.StepReopened, j.s.Settled["joists-hold"].Status)
}

func TestSpanOverItsLimitHoldsTheJobUntilAFindingOrADeeperJoist(t *testing.T) {
	j := begin(t)
	j.to("joist")
	j.say("47 97")
	if j.s.Pending != nil {
		j.say("yes")
	}
	j.say("change span 4000")
	if flow.StepNow(j.s) != "span-gate" {
		j.say("yes")
	}
	require.Equal(t, "span-gate", flow.StepNow(j.s))
	for text, key := range map[string]string{"s no time": "refuse.gate", "d friday": "refuse.gate", "ok": "hear.refused.nooffer"} {
		h, ok := last(j.say(text)).(event.Heard)
		require.True(t, ok, text)
		if text != "ok" {
			assert.Equal(t, key, h.Key, text)
		}
		require.Equal(t, "span-gate", flow.StepNow(j.s), text)
	}
	j.say("go deck")
	require.Equal(t, "span-gate", flow.StepNow(j.s), "no phase is a way round it")
	j.say("47 220")
	if j.s.Pending != nil {
		j.say("yes")
	}
	assert.NotEqual(t, "span-gate", flow.StepNow(j.s), "a deeper joist lifts it")
}

func TestAsbestosInDoubtHoldsUntilAFinding(t *testing.T) {
	j := begin(t)
	j.to("built")
	j.say("don't know")
	j.say("cement")
	for flow.StepNow(j.s) == "suspect" {
		j.say("no")
	}
	require.Equal(t, "asbestos", flow.StepNow(j.s))
	j.say("s looks fine to me")
	j.say("d 2 weeks")
	j.say("go joists")
	j.say("fine")
	require.Equal(t, "asbestos", flow.StepNow(j.s))
	j.say("lab report 12 May: clear")
	assert.NotEqual(t, "asbestos", flow.StepNow(j.s))
}

func TestClockSetBackIsNoticed(t *testing.T) {
	j := begin(t)
	j.say("full")
	j.now = j.now.Add(-3 * time.Hour)
	es := j.do(builder, flow.Question(j.s), talk.Said{Text: "."})
	sb, ok := find[event.SetBack](es)
	require.True(t, ok)
	assert.InDelta(t, 3*time.Hour.Minutes(), sb.Behind.Minutes(), 2)
}

func FuzzStep(f *testing.F) {
	seeds := []string{"yes", ".", "5400 2900", "b", "u", "change length 9", "d friday", "s why", "NaN", "\x00", "17' 8 1/2\"", "go deck", "note \u202e", "1,200", "?", "price boards 1e9", "came joists -4 0", "price sheet 9,80", "came 3 x 4.8 battens"}
	for _, s := range seeds {
		f.Add(s, uint8(30))
	}
	if len(seeds) == 0 {
		f.Fatal("no seeds")
	}
	f.Fuzz(func(t *testing.T, text string, depth uint8) {
		j := begin(t)
		r := rand.New(rand.NewPCG(uint64(depth), 3))
		for range int(depth) % 60 {
			j.say(gabble(r, j.s))
		}
		j.say(text)
		require.NotEmpty(t, flow.Prompt(j.s, builder))
	})
}

// BenchmarkStep answers one question in the middle of a job: with the plan
// worked out anew, and without.
func BenchmarkStep(b *testing.B) {
	for _, c := range []struct{ name, step, text string }{
		{"a fact that moves the plan", "clear-span", "2850"},
		{"a yes", "deck-fixed", "yes"},
		{"not understood", "deck-fixed", "hm"},
	} {
		b.Run(c.name, func(b *testing.B) {
			j := begin(b)
			for flow.StepNow(j.s) != c.step {
				j.plain()
			}
			in := talk.Input{At: j.now, By: builder, Asked: flow.Question(j.s), What: talk.Said{Text: c.text}}
			b.ReportAllocs()
			for b.Loop() {
				flow.Step(j.s, in)
			}
		})
	}
}

// BenchmarkFold folds the record of a whole job.
func BenchmarkFold(b *testing.B) {
	j := begin(b)
	j.finish()
	b.ReportMetric(float64(len(j.entries)), "events")
	for b.Loop() {
		flow.Fold(flow.State{}, j.entries...)
	}
}
