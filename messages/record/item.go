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
	Zone   string // the site's time zone
	Erased []string
	Shown  []talk.Reply // what the event made the program say
	Asked  []talk.Reply // the question that stood open when all of its message was worked out
}

// erased says whether the value at a pointer is gone.
func (i Item) erased(pointer string) bool { return slices.Contains(i.Erased, pointer) }

// sameMessage says whether two events came of one thing that was said or rang.
func sameMessage(a, b event.Entry) bool {
	return a.At.Equal(b.At) && a.By == b.By && a.From == b.From && a.Cause == b.Cause
}

// Ends says whether next begins another message than e.
func Ends(e, next event.Entry) bool { return !sameMessage(e, next) }

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
