package record

import (
	"slices"
	"time"

	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// Item is one event with what was said about it.
type Item struct {
	Seq    uint64
	Entry  event.Entry
	Zone   string       // the site's time zone
	Erased []string     // pointers of the values that are gone
	Begins bool         // it begins what came of another message
	Shown  []talk.Reply // what the event made the program say
	Asked  []talk.Reply // the question that stood open when all of its message was worked out
}

// erased says whether the value at a pointer is gone.
func (i Item) erased(pointer string) bool { return slices.Contains(i.Erased, pointer) }

// Begins says for each event whether it begins what came of another message: of
// something said, tapped or rung. Those that follow it are what the program made
// of it.
func Begins(entries []event.Entry) []bool {
	out := make([]bool, len(entries))
	var last event.Entry
	said := ""
	for i, e := range entries {
		now, _, _ := words(e.Event)
		a, ok := e.Event.(event.Answered)
		assumed := ok && a.Offered && said != "" // taken as usual behind an answer, without being asked
		same := e.At.Equal(last.At) && e.By == last.By && e.From == last.From && e.Cause == last.Cause
		if i == 0 || !same || now != "" && now != said && !assumed {
			out[i], said = true, now
		}
		last = e
	}
	return out
}

// words are what a person said, as given; photo is the name of a picture.
func words(e event.Event) (said, pointer, photo string) {
	switch ev := e.(type) {
	case event.Answered:
		return ev.Said, "/data/said", ""
	case event.Proposed:
		return ev.Said, "/data/said", ""
	case event.Heard:
		return ev.Said, "/data/said", ""
	case event.Skipped:
		return ev.Reason, "/data/reason", ""
	case event.PutOff:
		return ev.Said, "/data/said", ""
	case event.Noted:
		return ev.Text, "/data/text", ev.Photo
	case event.Snagged:
		return ev.What, "/data/what", ""
	case event.Paused:
		return ev.Protected, "/data/protected", ""
	case event.Ended:
		return ev.Reason, "/data/reason", ""
	}
	return "", "", ""
}

// gapFrom is from when on silence is shown as a gap: a coffee is none.
const gapFrom = time.Hour
