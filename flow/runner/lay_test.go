package runner_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"
	_ "time/tzdata" // a machine without zones has clock changes too

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/flow/talk"
	"chargehand/store/memory"
)

// Whole lays in virtual time: the runner, its clock loop, a store, two hands and
// one who follows.

var cy = talk.Person{ID: "cy", Name: "Cy", Role: "follower"}

const home event.Reader = "test:home"

// lay is a job with its process, which can die and come up again.
type lay struct {
	t       *testing.T
	ear     *ear
	journal *memory.Store
	r       *runner.Runner
	job     string
	n       int
	stop    func()
	answers map[string]string
}

// usual are the answers of a lean-to of 4.2 by 3.0 m in mild weather.
func usual(pairs ...string) map[string]string {
	a := map[string]string{"built": "1", "covering": "1", "guarded": "yes", "length": "4200 3000", "edges": "1 2 3 2", "clear-span": "2850", "wall-above": "2400", "upper-depth": "4000", "sheds": "no", "site": "80",
		"anchor-size": "12 150 47", "board": "2400 1200", "deck-damp": "14", "bed-joint": "188", "dust-left": "no", "overlaps": "210 160 260 160", "way-off": "gutter",
		"deck-temp": "18", "air-temp": "15", "night": "9", "damp": "normal", "wind": "calm", "rain-in": "none", "face-temps": "16 24", "learn": "pass", "laps": "1",
		"ring-who": "Dee 0123", "address": "1 Any Street"}
	for i := 0; i+1 < len(pairs); i += 2 {
		a[pairs[i]] = pairs[i+1]
	}
	return a
}

func begin(t *testing.T, zone string, answers map[string]string) *lay {
	l := &lay{t: t, ear: &ear{}, journal: new(memory.Store), answers: answers}
	l.up()
	t.Cleanup(func() { l.die() })
	if answers["hands"] == "" {
		l.goOn(zone)
	} else {
		job, err := l.r.Begin(t.Context(), talk.Input{At: time.Now(), By: ann, Reader: string(roof), What: talk.Begun{Name: "Garage", Zone: zone}})
		require.NoError(t, err)
		l.job = job
	}
	for _, reader := range []event.Reader{roof, kitchen, home} {
		require.NoError(t, l.r.Welcome(t.Context(), l.job, reader))
	}
	return l
}

// dry is the record of the same roof up to its upstands, which every lay begins
// with. Its times are those of a bubble's first minutes.
var dry = sync.OnceValue(func() []event.Entry {
	var s flow.State
	var out []event.Entry
	now := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	in := func(what talk.What) {
		now = now.Add(10 * time.Second)
		for _, e := range flow.Step(s, talk.Input{At: now, By: ann, Reader: string(roof), Asked: flow.Question(s), What: what}).Events {
			s, out = flow.Apply(s, e), append(out, e)
		}
	}
	in(talk.Begun{Name: "Garage", Zone: "UTC"})
	for range 200 {
		id := flow.StepNow(s)
		if id == "chase" {
			return out
		}
		text, ok := usual()[id]
		spec, _ := flow.Lookup(id)
		switch {
		case s.Pending != nil, !ok && spec.Offer == nil:
			text = "yes"
		case !ok:
			text = "."
		}
		in(talk.Said{Text: text})
	}
	return nil
})

// goOn puts that record into the store and goes on with it.
func (l *lay) goOn(zone string) {
	l.t.Helper()
	l.job = "dry"
	part := event.Part{Stream: l.job}
	var head event.Head
	var s flow.State
	for _, e := range dry() {
		if opened, ok := e.Event.(event.Opened); ok {
			opened.Zone = zone
			e.Event = opened
		}
		rec, err := event.Seal(head, e, func(b []byte) { clear(b) })
		require.NoError(l.t, err)
		part.Records, head, s = append(part.Records, rec), rec.Head(), flow.Apply(s, e)
	}
	require.Equal(l.t, "chase", flow.StepNow(s))
	part.Clocks = flow.Clocks(s)
	require.NoError(l.t, l.journal.Commit(l.t.Context(), event.Commit{Parts: []event.Part{part}}))
	time.Sleep(time.Until(s.LastAt) + time.Minute)
}

// up starts the process: it rings what fell due while it was down, and runs on.
func (l *lay) up() {
	l.r = &runner.Runner{Journal: l.journal, Speaker: l.ear, Now: time.Now, NewID: func() string { l.n++; return fmt.Sprintf("job-%d", l.n) }, Salt: func(b []byte) { clear(b) }}
	l.r.Attach(roof, ann)
	l.r.Attach(kitchen, bo)
	l.r.Attach(home, cy)
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	r := l.r
	go func() { done <- r.Run(ctx) }()
	l.stop = func() { cancel(); <-done }
}

func (l *lay) die() {
	if l.stop != nil {
		l.stop()
		l.stop = nil
	}
}

func (l *lay) state() flow.State {
	l.t.Helper()
	s, err := l.r.State(l.t.Context(), l.job)
	require.NoError(l.t, err)
	return s
}

// wait lets time pass and the clocks ring.
func (l *lay) wait(d time.Duration) {
	time.Sleep(d)
	synctest.Wait()
}

func (l *lay) input(who talk.Person, at event.Reader, sent time.Time, what talk.What) {
	l.t.Helper()
	l.n++
	_, err := l.r.Handle(l.t.Context(), l.job, talk.Input{At: time.Now(), Sent: sent, By: who, Reader: string(at), Key: fmt.Sprint("m", l.n), What: what})
	require.NoError(l.t, err)
	synctest.Wait()
}

func (l *lay) say(text string) { l.t.Helper(); l.input(ann, roof, time.Time{}, talk.Said{Text: text}) }

// to answers plainly, a minute each, until a step is asked.
func (l *lay) to(step string) {
	l.t.Helper()
	for range 300 {
		s := l.state()
		id := flow.StepNow(s)
		if id == step {
			return
		}
		l.wait(time.Minute)
		spec, _ := flow.Lookup(id)
		text, ok := l.answers[id]
		switch {
		case id == "relax" && s.Works["relax"].Done("begun"):
			l.wait(time.Hour)
			text = "relaxed"
		case id == "relax":
			text = "laid"
		case id == "batches":
			l.batch(4*time.Minute, 3*time.Minute)
			continue
		case id == "contact":
			l.run()
			continue
		case s.Pending != nil:
			text = "yes"
		case ok:
		case spec.Offer != nil:
			text = "."
		default:
			text = "yes"
		}
		l.say(text)
	}
	l.t.Fatalf("never came to %s; at %s", step, flow.Question(l.state()))
}

// batch lays one batch, or ends the field where it is covered.
func (l *lay) batch(spread, laid time.Duration) {
	l.t.Helper()
	if l.offers("all-down") == 0 {
		l.say("all down")
		return
	}
	l.say("start")
	l.wait(spread)
	l.say("last")
	l.wait(laid)
	l.say("down")
}

// run does one contact run: each face is dry when its time is up.
func (l *lay) run() {
	l.t.Helper()
	if l.offers("all-pressed") == 0 {
		l.say("all pressed")
		return
	}
	l.say("coated wall")
	l.wait(6 * time.Minute)
	l.say("coated rubber")
	l.wait(13 * time.Minute)
	l.say("wall dry")
	l.say("rubber dry")
	l.say("pressed")
}

// offers is the place of an answer among those shown now; -1 where it is not.
func (l *lay) offers(action string) int {
	for _, reply := range flow.Prompt(l.state(), ann) {
		if ask, ok := reply.(talk.Ask); ok {
			return slices.IndexFunc(ask.Options, func(o talk.Option) bool { return o.Action == action })
		}
	}
	return -1
}

// events lists what happened, with when.
func (l *lay) events() []event.Entry {
	l.t.Helper()
	records, err := l.journal.Read(l.t.Context(), l.job, 0, 10000)
	require.NoError(l.t, err)
	_, err = event.VerifyChain(records)
	require.NoError(l.t, err)
	var out []event.Entry
	for _, rec := range records {
		e, err := rec.Open()
		require.NoError(l.t, err)
		out = append(out, e)
	}
	return out
}

// rung lists when the clocks of a name rang.
func (l *lay) rung(name string) []time.Time {
	var out []time.Time
	for _, e := range l.events() {
		if r, ok := e.Event.(event.Rang); ok && r.Clock == name {
			out = append(out, e.At)
		}
	}
	return out
}

// since lists the keys a reader is told while something is done.
func (l *lay) since(at event.Reader, do func()) []string {
	before := len(l.ear.keys(at))
	do()
	return l.ear.keys(at)[before:]
}

func TestANormalLay(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		said := l.since(roof, func() { l.say("start") })
		assert.Contains(t, said, "tap.batch-begun")
		w := l.state().Works["batch/1"]
		begun, usable := w.Marks["begun"], time.Duration(w.Has["usable"].Num()*float64(time.Minute))
		assert.InDelta(t, 0.6, w.Has["usable"].Num()/w.Has["window"].Num(), 0.01, "six tenths of the window on a tin not tried here")
		l.wait(usable - time.Minute)
		assert.Equal(t, []time.Time{begun.Add(usable * 6 / 10).UTC()}, utc(l.rung("batch/1/soon")), "at six tenths of the usable time, to the second")
		assert.Empty(t, l.rung("batch/1/cover"))
		l.say("down")
		l.wait(time.Hour)
		assert.Empty(t, l.rung("batch/1/cover"), "down before its time: nothing more rings")
		assert.Empty(t, l.rung("batch/1/dead"))

		l.to("batches")
		l.say("start")
		w = l.state().Works["batch/2"]
		assert.InDelta(t, 0.7, w.Has["usable"].Num()/w.Has["window"].Num(), 0.01, "seven tenths after a good one")
		l.wait(5 * time.Minute)
		said = l.since(roof, func() { l.say("last"); l.wait(3 * time.Minute); l.say("down") })
		assert.Contains(t, said, "pace", "what the batch taught is told")

		l.to("trim-hold")
		s := l.state()
		var area float64
		halves := map[string]float64{}
		for n := 1; ; n++ {
			w, ok := s.Works[fmt.Sprintf("batch/%d", n)]
			if !ok {
				break
			}
			area += w.Has["area"].Num()
			halves[w.Has["half"].Text] += w.Has["strip"].Num()
			assert.LessOrEqual(t, w.Marks["down"].Sub(w.Marks["begun"]).Minutes(), w.Has["window"].Num(), "batch %d", n)
		}
		assert.InDelta(t, 3.9*2.7, area, 0.1, "the field inside the dry strip, once")
		assert.InDelta(t, 1350, halves["far"], 5)
		assert.InDelta(t, 1350, halves["near"], 5)

		done := map[int]float64{}
		last := 0
		for n := 1; ; n++ {
			w, ok := s.Works[fmt.Sprintf("contact/%d", n)]
			if !ok || !w.Done("mated") {
				break
			}
			last = int(w.Has["edge"].Num())
			done[last] += w.Has["to"].Num() - w.Has["from"].Num()
		}
		assert.Equal(t, 1, last, "the ladder's edge, the gutter, comes last")
		for edge, want := range map[int]float64{1: 4200, 2: 3000, 3: 4200, 4: 3000} {
			assert.InDelta(t, want, done[edge], 3, "edge %d", edge)
		}
	})
}

func utc(times []time.Time) []time.Time {
	out := make([]time.Time, len(times))
	for i, at := range times {
		out[i] = at.UTC()
	}
	return out
}

func TestAlarmsOfAStripThatIsLate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		w := l.state().Works["batch/1"]
		begun := w.Marks["begun"].UTC()
		minutes := func(key string) time.Duration { return time.Duration(w.Has[key].Num() * float64(time.Minute)) }
		l.wait(minutes("window") + time.Second)
		assert.Equal(t, begun.Add(minutes("usable")), l.rung("batch/1/cover")[0].UTC())
		assert.Equal(t, begun.Add(minutes("window")), l.rung("batch/1/dead")[0].UTC())
		assert.GreaterOrEqual(t, l.offers("still-wet"), 0, "the touch is asked for once the clock has called")

		said := l.since(roof, func() { l.say("white and wet") })
		assert.Contains(t, said, "tap.batch-still-wet", "the touch overrules the clock")
		l.wait(119 * time.Second)
		assert.Len(t, l.rung("batch/1/dead"), 1)
		l.wait(2 * time.Second)
		assert.Len(t, l.rung("batch/1/dead"), 2, "and the film is touched again two minutes later")
		said = l.since(roof, func() { l.say("down") })
		assert.Contains(t, said, "tap.batch-down", "laid wet, however old: no reproach")
	})
}

func TestATackyFilmIsCalledInAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		l.wait(5 * time.Minute)
		said := l.since(roof, func() { l.say("tacky") })
		assert.Contains(t, said, "tap.batch-tacky", "heard though it is not on the screen yet")
		l.wait(time.Second)
		assert.Len(t, l.rung("batch/1/cover"), 1, "long before its time")
		l.wait(time.Minute)
		assert.Len(t, l.rung("batch/1/dead"), 1)
		said = l.since(roof, func() { l.say("clear") })
		assert.Contains(t, said, "tap.batch-gone")
		assert.Equal(t, "deck-temp", flow.StepNow(l.state()), "the weather is asked again before the next")
		assert.Zero(t, l.state().Works["batch/1"].Marks["down"])

		l.say("30")
		l.to("learn")
		said = l.since(roof, func() { l.say("use it") })
		assert.Contains(t, said, "tap.learn-use")
		v := flow.View{S: l.state()}
		k := v.Plan().Window.JobFactor
		model := l.state().Works["batch/1"].Has["model"].Num()
		assert.InDelta(t, 6.0/model, k, 0.03, "gone at 6: planned with no longer than that")
	})
}

// A film that is gone at once says that something is wrong: tin, board or
// thermometer. Nothing is spread until the tin has been looked at again.
func TestAFilmGoneAtOnceAsksForTheTin(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		l.wait(3 * time.Minute)
		l.say("gone off")
		l.to("learn")
		l.say("use it")
		l.to("go")
		said := l.since(roof, func() { l.say("yes") })
		assert.Contains(t, said, "refuse.go-stop")
		assert.Contains(t, l.ear.keys(roof), "reason.square-low")
		assert.Equal(t, "tin", flow.StepNow(l.state()))
		l.to("batches")
		said = l.since(roof, func() { l.say("start") })
		assert.Contains(t, said, "tap.batch-begun")
	})
}

func TestRainAtHalf(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.batch(4*time.Minute, 3*time.Minute)
		l.to("batches")
		l.say("start")
		l.wait(2 * time.Minute)
		said := l.since(roof, func() { l.say("r") })
		assert.Equal(t, "rain.wet-glue", said[0], "one line, safety first")
		assert.Contains(t, l.ear.keys(home), "rain.wet-glue", "who follows knows")
		assert.GreaterOrEqual(t, l.offers("rained"), 0)
		said = l.since(roof, func() { l.say("rained on") })
		assert.Equal(t, "tap.batch-rained", said[0])
		s := l.state()
		for _, id := range []string{"deck-damp", "deck-hold", "rain-in", "deck-temp"} {
			assert.Equal(t, flow.StepReopened, s.Settled[id].Status, id)
		}
		l.answers["rain-in"], l.answers["deck-damp"] = "now", "18"
		l.to("go")
		said = l.since(roof, func() { l.say("yes") })
		assert.Contains(t, said, "refuse.go-stop", "no start in the rain")

		l.wait(3 * time.Hour) // it has dried
		l.answers["rain-in"] = "none"
		l.say("yes")
		assert.NotEqual(t, "batches", flow.StepNow(l.state()), "old weather answers don't open the tin")
		l.to("batches")
		assert.Equal(t, 18.0, l.state().Settled["deck-damp"].Value.Num(), "the deck was measured again")
		l.to("trim-hold")
		s = l.state()
		var area float64
		for n := 1; ; n++ {
			w, ok := s.Works[fmt.Sprintf("batch/%d", n)]
			if !ok {
				break
			}
			if w.Done("down") {
				area += w.Has["area"].Num()
			}
		}
		assert.InDelta(t, 3.9*2.7, area, 0.1, "what rained off was laid anew")
	})
}

func TestPhoneDeadForTwentyMinutes(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		w := l.state().Works["batch/1"]
		before := flow.Clocks(l.state())
		l.wait(2 * time.Minute)
		l.die()
		time.Sleep(20 * time.Minute)
		said := l.since(roof, func() { l.up(); l.wait(0) })
		assert.Equal(t, before, clocksOf(w), "the clocks are those of the marks, before and after")
		assert.Contains(t, said, "rang.batch-dead")
		assert.Contains(t, said, "rang.late")
		assert.NotContains(t, said, "rang.batch-soon", "one alarm, the gravest")
		assert.NotContains(t, said, "rang.batch-cover")
		for _, name := range []string{"soon", "cover", "dead"} {
			assert.Len(t, l.rung("batch/1/"+name), 1, "each is on record")
		}
	})
}

func TestPhoneDeadPastOneAlarm(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		w := l.state().Works["batch/1"]
		l.die()
		time.Sleep(time.Duration((w.Has["usable"].Num()+w.Has["window"].Num())/2*60) * time.Second)
		said := l.since(roof, func() { l.up(); l.wait(0) })
		assert.Contains(t, said, "rang.batch-cover")
		assert.NotContains(t, said, "rang.batch-soon")
		assert.NotContains(t, said, "rang.batch-dead", "that one is still to come")
		l.wait(time.Hour)
		assert.Len(t, l.rung("batch/1/dead"), 1)
	})
}

// clocksOf are the clocks that the numbers of a batch give, worked out by hand.
func clocksOf(w flow.Work) []event.Clock {
	at := func(key string, share float64) time.Time {
		return w.Marks["begun"].Add(time.Duration(w.Has[key].Num() * share * float64(time.Minute)).Round(time.Millisecond)).UTC()
	}
	return []event.Clock{{Name: "batch/1/soon", Due: at("usable", 0.6)}, {Name: "batch/1/cover", Due: at("usable", 1)}, {Name: "batch/1/dead", Due: at("window", 1)}}
}

// A message that was sent in time and came late counts when it was sent, and the
// alarms it makes pointless are not rung.
func TestTheSentTimeCounts(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		begun := time.Now()
		l.die() // nothing can ring meanwhile
		time.Sleep(30 * time.Minute)
		l.r = &runner.Runner{Journal: l.journal, Speaker: l.ear, Now: time.Now, Salt: func(b []byte) { clear(b) }}
		l.r.Attach(roof, ann)
		said := l.since(roof, func() {
			l.input(ann, roof, begun.Add(8*time.Minute), talk.Said{Text: "down"})
		})
		assert.Equal(t, begun.Add(8*time.Minute).UTC(), l.state().Works["batch/1"].Marks["down"].UTC())
		assert.Contains(t, said, "tap.batch-down")
		for _, key := range said {
			assert.False(t, strings.HasPrefix(key, "rang."), "%s", key)
		}
		// A phone whose clock is wrong does not put the end before the beginning.
		l.to("batches")
		l.say("start")
		l.wait(5 * time.Minute)
		l.input(ann, roof, begun.Add(-time.Hour), talk.Said{Text: "down"})
		assert.Equal(t, time.Now().UTC(), l.state().Works["batch/2"].Marks["down"].UTC())
	})
}

func TestTheNightTheClocksChange(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "Europe/London", usual())
		l.to("deck-temp")
		l.die()
		// Summer time ends on 29 October 2000 at 01:00 UTC: the hour from 1 to 2 comes twice.
		time.Sleep(time.Until(time.Date(2000, 10, 29, 0, 40, 0, 0, time.UTC)))
		l.up()
		l.to("batches")
		time.Sleep(time.Until(time.Date(2000, 10, 29, 0, 55, 0, 0, time.UTC)))
		var told []talk.Phrase
		l.say("start")
		w := l.state().Works["batch/1"]
		usable := time.Duration(w.Has["usable"].Num() * float64(time.Minute))
		l.wait(usable + time.Second)
		assert.Equal(t, w.Marks["begun"].Add(usable).UTC(), l.rung("batch/1/cover")[0].UTC(), "9 minutes are 9 minutes")
		for _, m := range l.ear.told[roof] {
			for _, reply := range m.Replies {
				if tell, ok := reply.(talk.Tell); ok {
					told = append(told, tell.Lines...)
				}
			}
		}
		i := slices.IndexFunc(told, func(p talk.Phrase) bool { return p.Key == "tap.batch-begun" })
		require.GreaterOrEqual(t, i, 0)
		cover := told[i].Args["cover"].(talk.Moment)
		assert.Equal(t, w.Marks["begun"].Add(usable).UTC(), cover.At.UTC())
		assert.Equal(t, "01:04 GMT", cover.At.In(mustZone(t, cover.Zone)).Format("15:04 MST"), "begun at 01:55 by the old clock")
		l.say("down")
		assert.InDelta(t, usable.Minutes(), l.state().Works["batch/1"].Marks["down"].Sub(w.Marks["begun"]).Minutes(), 0.1)
	})
}

func mustZone(t *testing.T, name string) *time.Location {
	loc, err := time.LoadLocation(name)
	require.NoError(t, err)
	return loc
}

func TestTwoHandsAnswerAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		both := func(action string) {
			q := flow.Question(l.state())
			var wg sync.WaitGroup
			for who, at := range map[event.Reader]talk.Person{roof: ann, kitchen: bo} {
				wg.Go(func() {
					_, err := l.r.Handle(t.Context(), l.job, talk.Input{At: time.Now(), By: at, Reader: string(who), Key: action + at.ID, What: talk.Pressed{Question: q, Action: action}})
					assert.NoError(t, err)
				})
			}
			wg.Wait()
		}
		taps := func(mark string) int {
			n := 0
			for _, e := range l.events() {
				if tap, ok := e.Event.(event.Tapped); ok && tap.Mark == mark && strings.HasPrefix(tap.Work, "batch/") {
					n++
				}
			}
			return n
		}
		both("start")
		assert.Equal(t, 1, taps("begun"), "one batch, however many thumbs")
		l.wait(4 * time.Minute)
		both("last")
		l.wait(3 * time.Minute)
		var said []string
		said = append(said, l.since(roof, func() {
			said = append(said, l.since(kitchen, func() { both("down") })...)
		})...)
		assert.Contains(t, said, "already.tapped", "and the second hears when it was")
		assert.Equal(t, 1, taps("down"))
		assert.Contains(t, said, "tap.batch-down")
		assert.False(t, l.state().Works["batch/2"].Done("down"))
		assert.False(t, l.state().Works["field"].Done("down"), "a second \"down\" does not end the field")

		// One says last, the other down, from the same prompt: both count.
		l.to("batches")
		l.say("start")
		q := flow.Question(l.state())
		l.wait(4 * time.Minute)
		l.input(bo, kitchen, time.Time{}, talk.Pressed{Question: q, Action: "last"})
		l.wait(2 * time.Minute)
		l.input(ann, roof, time.Time{}, talk.Pressed{Question: q, Action: "down"})
		w := l.state().Works["batch/2"]
		assert.True(t, w.Done("last"))
		assert.True(t, w.Done("down"))
	})
}

func TestContactMatedTooEarlyIsRefused(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("contact")
		said := l.since(roof, func() { l.say("pressed") })
		assert.Contains(t, said, "refuse.mate-bare")
		said = l.since(roof, func() { l.say("coated wall") })
		assert.Contains(t, said, "coat-later", "the rubber dries faster: it comes later")
		l.wait(7 * time.Minute)
		assert.Len(t, l.rung("contact/1/coat-rubber"), 1, "and is called for")
		l.say("coated rubber")
		said = l.since(roof, func() { l.say("pressed") })
		assert.Contains(t, said, "refuse.mate-wet")
		assert.False(t, l.state().Works["contact/1"].Done("mated"))

		w := l.state().Works["contact/1"]
		ready := w.Has["ready-coated-rubber"].Num()
		coated := w.Marks["coated-rubber"]
		l.wait(time.Duration(ready * float64(time.Minute)))
		var want []float64
		for share := 0.7; share < 1; share += 0.15 {
			want = append(want, share)
		}
		var got []float64
		for _, at := range l.rung("contact/1/knuckle-rubber") {
			got = append(got, at.Sub(coated).Minutes()/ready)
		}
		require.Len(t, got, len(want), "the knuckle is asked for at 0.7 of its time, then at every 0.15")
		for i := range want {
			assert.InDelta(t, want[i], got[i], 0.01)
		}
		l.say("rubber dry")
		said = l.since(roof, func() { l.say("pressed") })
		assert.Contains(t, said, "refuse.mate-wet", "one face is not two")
		l.say("wall dry")
		said = l.since(roof, func() { l.say("pressed") })
		assert.Contains(t, said, "tap.contact-mated")
	})
}

func TestAFaceTooOldIsCoatedAgain(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("contact")
		l.say("coated wall")
		l.wait(6 * time.Minute)
		l.say("coated rubber")
		l.wait(13 * time.Minute)
		l.say("wall dry")
		l.say("rubber dry")
		l.wait(time.Hour)
		assert.Len(t, l.rung("contact/1/dead-rubber"), 1)
		require.GreaterOrEqual(t, l.offers("coat-rubber"), 0, "a thin fresh coat is offered")
		l.say("coated rubber")
		said := l.since(roof, func() { l.say("pressed") })
		assert.Contains(t, said, "refuse.mate-wet", "the fresh coat is wet again")
		l.wait(13 * time.Minute)
		l.say("rubber dry")
		said = l.since(roof, func() { l.say("pressed") })
		assert.Contains(t, said, "tap.contact-mated-late", "the wall's coat was old: pull a corner")
	})
}

func TestMidBatchSilence(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("chase")
		l.say("d 3 days")
		l.to("batches")
		var due time.Time
		for _, c := range flow.Clocks(l.state()) {
			if c.Name == "put-off/chase" {
				due = c.Due
			}
		}
		require.False(t, due.IsZero())
		time.Sleep(time.Until(due.Add(-2 * time.Minute)))
		l.say("start")
		for flow.StepNow(l.state()) != "batches" || !l.state().Works["batch/1"].Done("begun") { // the weather is asked again first
			id := flow.StepNow(l.state())
			if text, ok := l.answers[id]; ok {
				l.say(text)
			} else if id == "batches" {
				l.say("start")
			} else {
				l.say(".")
			}
		}
		messages := func() int { l.ear.mu.Lock(); defer l.ear.mu.Unlock(); return len(l.ear.told[roof]) }
		quiet := messages()
		said := l.since(home, func() { l.input(cy, home, time.Time{}, talk.Said{Text: "how is it going?"}) })
		assert.Equal(t, []string{"noted.held"}, said)
		l.input(cy, home, time.Time{}, talk.Pictured{Hash: "h", Caption: "the trims"})
		l.input(bo, kitchen, time.Time{}, talk.Said{Text: "snag tile cracked"})
		l.input(bo, kitchen, time.Time{}, talk.Said{Text: "where"})
		l.input(bo, kitchen, time.Time{}, talk.Said{Text: "change hands 1"})
		l.input(cy, home, time.Time{}, talk.Pressed{Question: flow.Question(l.state()), Action: "down"})
		l.wait(3 * time.Minute)
		assert.Len(t, l.rung("put-off/chase"), 1, "it has rung")
		assert.Equal(t, quiet, messages(), "and nothing at all was put before the hands in the glue")
		assert.False(t, l.state().Works["batch/1"].Done("down"), "who follows moves nothing")

		l.wait(3 * time.Minute)
		assert.Greater(t, messages(), quiet, "an alarm passes")
		assert.Contains(t, l.ear.keys(roof), "rang.batch-soon")

		said = l.since(roof, func() { l.say("down") })
		i := slices.Index(said, "released")
		require.GreaterOrEqual(t, i, 0, "%v", said)
		assert.Less(t, slices.Index(said, "tap.batch-down"), i)
		for _, key := range []string{"noted.by", "noted.photo.by", "snagged", "rang.put-off"} {
			assert.Contains(t, said[i:], key)
		}
		assert.Empty(t, l.state().Held)
		assert.NotContains(t, l.ear.keys(home), "released", "who follows has heard it as it came")
	})
}

// What is held is not held for ever: a batch that nobody closes lets go.
func TestAnAbandonedBatchLetsGo(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		l.input(cy, home, time.Time{}, talk.Said{Text: "tea is ready"})
		l.wait(time.Hour)
		assert.NotContains(t, l.ear.keys(roof), "released")
		l.wait(time.Hour + time.Minute)
		assert.Contains(t, l.ear.keys(roof), "released")
		assert.Contains(t, l.ear.keys(roof), "noted.by")
		assert.GreaterOrEqual(t, l.offers("gone"), 0, "the batch can still be closed")
	})
}

func TestCheckInOfOneAlone(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual("hands", "1"))
		l.to("relax")
		said := l.since(roof, func() { l.say("laid") })
		assert.Contains(t, said, "tap.roof-up-watched", "who unrolls the sheet is on the roof")
		l.say("off")
		l.to("batches")
		before := len(l.rung("check-in/silent"))
		assert.Zero(t, before)
		said = l.since(roof, func() { l.say("start") })
		assert.Contains(t, said, "tap.roof-up-watched", "and who spreads glue")
		l.wait(5 * time.Minute)
		l.say("last")
		l.wait(4 * time.Minute)
		l.say("down")
		last := time.Now()
		said = l.since(home, func() { l.wait(31 * time.Minute) })
		assert.Contains(t, said, "rang.check-in-silent.follower", "half an hour without a word")
		assert.NotContains(t, said, "rang.check-in-ask")
		assert.Equal(t, last.Add(30*time.Minute).UTC(), l.rung("check-in/silent")[0].UTC())
		assert.Equal(t, last.Add(25*time.Minute).UTC(), l.rung("check-in/ask")[0].UTC(), "the builder is asked five minutes before")
		l.say("where")
		l.wait(24 * time.Minute)
		l.say("off")
		said = l.since(home, func() { l.wait(2 * time.Hour) })
		assert.Empty(t, said, "off the roof: nobody is rung for")
	})
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual("hands", "1"))
		l.to("ring-who")
		l.say("/s nobody at home")
		l.to("batches")
		said := l.since(roof, func() { l.say("up") })
		assert.Contains(t, said, "refuse.check-in", "a check-in with nobody to ring would promise what nobody keeps")
		l.wait(time.Hour)
		assert.Empty(t, l.rung("check-in/silent"))
	})
}

func TestASlippedThumbIsTakenBack(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		l := begin(t, "UTC", usual())
		l.to("batches")
		l.say("start")
		l.wait(2 * time.Minute)
		l.say("down")
		require.Equal(t, "deck-temp", flow.StepNow(l.state()))
		l.wait(time.Minute)
		said := l.since(roof, func() { l.say("u") })
		assert.Contains(t, said, "undone.tap")
		assert.Equal(t, "batches", flow.StepNow(l.state()), "the glue is still wet: its question comes first")
		l.wait(20 * time.Minute)
		assert.Len(t, l.rung("batch/1/dead"), 1, "and its clocks ring as if nothing had been tapped")
	})
}
