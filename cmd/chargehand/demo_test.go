package main

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// teller tells the story of the demo: an invented roof whose work takes as long
// as such work takes.
type teller struct {
	*walker
	zone  *time.Location
	begun map[string]bool // the days that have begun
	said  map[string]bool // what is said only once
}

// days is when the work comes to a step: it waits for a result, a free day, for
// timber, for weather.
var days = map[string]string{
	"asbestos":    "2026-05-15 17:35",
	"plate":       "2026-05-16 08:40",
	"board":       "2026-05-18 08:15",
	"deck-cut":    "2026-05-19 08:10",
	"upstand-fix": "2026-05-20 08:30",
	"sheet-got":   "2026-05-23 08:45",
	"trim-stock":  "2026-05-24 09:30",
	"cuts":        "2026-05-25 10:00",
	"the lead":    "2026-06-06 09:15",
}

// takes is how many minutes the work of a step takes; a question that is not
// here takes a moment.
var takes = map[string]int{
	"length": 4, "diagonals": 6, "clear-span": 3, "drop": 3,
	"plate-fix": 95, "plate-level": 8, "dpc": 15, "straps": 40, "plates-hold": 6,
	"joist-order": 9, "joist-damp": 5, "joist-marks": 25, "joist-set": 165, "joist-falls": 12, "strutting": 55, "joists-hold": 8,
	"deck-cut": 50, "deck-fixed": 150, "tails": 20, "lips": 10, "deck-damp": 4, "deck-hold": 7,
	"bed-joint": 4, "upstand-fix": 75, "chase": 45, "upstands-hold": 6, "sheet-order": 7,
	"sheet-got": 6, "overlaps": 9, "dry-hold": 5, "deck-temp": 2, "bond-hold": 12, "trim-hold": 10,
	"battens-on": 30, "trims-on": 80, "corners-on": 25, "fascia-on": 60, "gutter-on": 55, "edges-hold": 8,
	"patched": 30, "bar-on": 40, "lead": 130, "pointing": 35, "flashing-hold": 10, "photos": 5,
}

// demoAnswers are the answers of the story; where it has none the offered value
// is taken, or yes said.
var demoAnswers = with(leanTo, "length#1", "36", "length", "3600", "depth", "2700", "edges", "1 2 3 2",
	"clear-span", "2250", "built", "before 2000", "suspect", "no", "asbestos", "lab report 4471: none found", "site", "110", "night", "8", "overlaps", "210 170 255 165",
	"papers", "certificate, tin labels", "anchor-size", "12 150 47")

// at says a line at a time; what falls due before it rings when it is due.
func (d *teller) at(t time.Time, text string) {
	d.t.Helper()
	d.until(t)
	d.now = t.Add(-time.Minute) // say takes the minute
	d.walker.say(text)
}

func (d *teller) until(t time.Time) {
	for {
		clocks := flow.Clocks(d.s)
		if len(clocks) == 0 || clocks[0].Due.After(t) {
			return
		}
		d.now = clocks[0].Due
		d.input(talk.Rang{Clock: clocks[0].Name, Due: clocks[0].Due})
	}
}

// after says a line so much later.
func (d *teller) after(wait time.Duration, text string) { d.t.Helper(); d.at(d.now.Add(wait), text) }

// once says whether this has not been done before.
func (d *teller) once(what string) bool {
	before := d.said[what]
	d.said[what] = true
	return !before
}

// wake moves the clock to the day on which something is begun.
func (d *teller) wake(what string) {
	day, ok := days[what]
	if !ok || d.begun[what] {
		return
	}
	d.begun[what] = true
	t, err := time.ParseInLocation("2006-01-02 15:04", day, d.zone)
	require.NoError(d.t, err)
	d.until(t)
	d.now = t
}

// moment is how long a person takes to read, look and type; it differs by step
// so that nothing ticks like a machine.
func moment(step string) time.Duration { return time.Duration(25+len(step)*7%40) * time.Second }

// tell tells the whole story.
func (d *teller) tell() {
	d.t.Helper()
	for range 600 {
		step := flow.StepNow(d.s)
		if step == "" {
			return
		}
		d.wake(step)
		if d.aside(step) {
			continue
		}
		switch step {
		case "relax":
			d.after(3*time.Minute, "laid")
			d.after(34*time.Minute, "relaxed")
		case "batches":
			d.batch()
		case "contact":
			d.contact()
		case "hose":
			d.after(4*time.Minute, "1")
			d.after(21*time.Minute, "dry below")
		default:
			wait := moment(step)
			if m, ok := takes[step]; ok {
				wait = time.Duration(m)*time.Minute + moment(step)
			}
			d.now = d.now.Add(wait - time.Minute)
			d.until(d.now.Add(time.Minute))
			d.answer(demoAnswers)
		}
	}
	d.t.Fatalf("the story does not end; at %q\n%s", flow.StepNow(d.s), tail(d.out.String()))
}

// aside is what people do beside answering: ask why, make a mistake and find it,
// change their mind, stop for the night, put off what has not come.
func (d *teller) aside(step string) bool {
	switch {
	case step == "clear-span" && d.once("why"):
		d.after(20*time.Second, "?")
	case step == "joist" && d.once("mistake"): // read off the tape the wrong way round
		d.after(2*time.Minute, "change clear span 2550")
		d.after(time.Minute, "yes")
	case step == "joist-marks" && d.once("mind"):
		d.after(4*time.Minute, "change centres 600")
		d.after(3*time.Minute, "no")
	case step == "lips" && d.once("night"):
		d.after(12*time.Minute, "p tarp over it, battened down")
		d.wake("upstand")
		d.after(time.Minute, "yes")
	case step == "dust-left" && d.once("note"):
		d.after(2*time.Minute, "note sheet comes Saturday, both of us here")
	case step == "lead" && d.once("put off"):
		d.after(2*time.Minute, "d 6 june")
	case step == "photos" && d.once("lead"):
		d.after(40*time.Second, "where")
		d.wake("the lead")
		d.after(time.Minute, "take up lead")
	default:
		return false
	}
	return true
}

// batch spreads and lays one batch: the roller first touches, the last is
// spread, the sheet is down, well inside the window.
func (d *teller) batch() {
	d.t.Helper()
	if strings.HasPrefix(d.option(), "all down") {
		d.after(50*time.Second, "all down")
		return
	}
	d.after(90*time.Second, "start")
	var m2 float64 // of the batch that has just begun
	for _, e := range d.entries {
		if tap, ok := e.Event.(event.Tapped); ok && tap.Mark == "begun" {
			m2 = tap.Has["area"].Num()
		}
	}
	d.after(time.Duration(m2*34)*time.Second, "last spread")
	d.after(time.Duration(20+m2*25)*time.Second, "down")
}

// contact coats both faces of a run, waits for each, presses.
func (d *teller) contact() {
	d.t.Helper()
	if strings.HasPrefix(d.option(), "all pressed") {
		d.after(2*time.Minute, "all pressed")
		return
	}
	d.after(2*time.Minute, "coated wall")
	d.after(6*time.Minute+30*time.Second, "coated rubber") // it dries faster
	d.after(10*time.Minute, "wall dry")
	d.after(2*time.Minute, "rubber dry")
	d.after(2*time.Minute, "pressed")
}

// option is the first answer that is offered, and what stands behind it.
func (d *teller) option() string {
	lines := strings.Split(strings.TrimSpace(d.out.String()), "\n")
	_, rest, _ := strings.Cut(lines[len(lines)-1], "1 ")
	return rest
}

// demoStory is the story from begin to hand-over, then the list.
func demoStory(t *testing.T) *teller {
	zone, err := time.LoadLocation(demoZone)
	require.NoError(t, err)
	w := &walker{t: t, now: time.Date(2026, 5, 11, 18, 10, 0, 0, zone), asked: map[string]int{}}
	d := &teller{walker: w, zone: zone, begun: map[string]bool{}, said: map[string]bool{}}
	d.input(talk.Begun{Name: demoName, Zone: demoZone})
	d.tell()
	d.after(2*time.Minute, "list")
	return d
}

// TestDemoScript holds the script of the demo against the story: a question
// that is new shows up as a line, and not as a story that answers the wrong
// questions. Run with -answers to write it anew.
func TestDemoScript(t *testing.T) {
	d := demoStory(t)
	require.Equal(t, flow.JobHanded, d.s.Status, tail(d.out.String()))
	a, err := txtar.ParseFile("demo.txtar")
	require.NoError(t, err)
	require.Len(t, a.Files, 1)
	if *answers {
		a.Files[0].Data = []byte(d.script())
		require.NoError(t, os.WriteFile("demo.txtar", txtar.Format(a), 0o644))
		return
	}
	require.Equal(t, string(a.Files[0].Data), d.script(), "run with -answers, then look at what chargehand demo says")

	refused := 0
	var offLead, changed bool
	for _, e := range d.entries {
		switch ev := e.Event.(type) {
		case event.Heard:
			if strings.HasPrefix(ev.Key, "hear.refused") || strings.HasPrefix(ev.Key, "refuse.") {
				refused++
				t.Log(ev.Said, ev.Key)
			}
		case event.PutOff:
			offLead = offLead || ev.Step == "lead"
		case event.Proposed:
			changed = true
		case event.Tapped:
			assert.NotEqual(t, "gone", ev.Mark)
		}
	}
	assert.Zero(t, refused, "the story is told without stumbling")
	assert.True(t, offLead)
	assert.True(t, changed)
}
