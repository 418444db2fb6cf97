package main

import (
	"encoding/json"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
)

// programWords are the string fields that hold a word of the program and never
// one of a person.
var programWords = map[string][]string{
	"opened":   {"/data/zone", "/data/way"},
	"answered": {"/data/step", "/data/value/unit"}, "proposed": {"/data/step", "/data/value/unit", "/data/doubt"},
	"heard": {"/data/step", "/data/key"}, "skipped": {"/data/step"}, "put-off": {"/data/step", "/data/risk"}, "taken-up": {"/data/step"},
	"moved": {"/data/phase", "/data/step"}, "reopened": {"/data/because", "/data/steps/0"}, "tapped": {"/data/work", "/data/mark"}, "rang": {"/data/clock"},
	"told": {"/data/what", "/data/level", "/data/formulas/0"}, "noted": {"/data/photo", "/data/step"}, "snagged": {"/data/snag"}, "snag-closed": {"/data/snag"},
	"priced": {"/data/item", "/data/of"}, "recalled": {"/data/prices/0/item", "/data/prices/0/of", "/data/films/0/substrate"}, "calibrated": {"/data/film/substrate"}, "came": {"/data/item"}, "solved": {"/data/what", "/data/of", "/data/rows", "/data/boards"},
	"met": {"/data/lang", "/data/units"}, "chose": {"/data/job"},
}

// Every text of every event is either known as a word of the program or goes
// with the person who is named in it. A new field has to be put on one side.
func TestEveryTextIsSomebodys(t *testing.T) {
	const name = "Ottoline"
	seen := 0
	for _, kind := range event.All() {
		v := reflect.New(reflect.TypeOf(kind)).Elem()
		nameAll(v, name)
		r, err := event.Seal(event.Head{}, event.Entry{At: time.Unix(0, 0), By: event.Actor{ID: "x1", Role: "builder"}, Event: v.Interface().(event.Event)}, func([]byte) {})
		require.NoError(t, err)
		tr := tracesOf([]event.Record{r}, name)
		for _, l := range r.Leaves {
			var s string
			if json.Unmarshal(l.Value, &s) != nil || s != name && s != "text" {
				continue
			}
			seen++
			known := slices.Contains(programWords[kind.Kind()], l.Pointer)
			assert.NotEqual(t, known || s == "text", tr.match(1, l.Pointer, l.Value), "%s %s", kind.Kind(), l.Pointer)
		}
	}
	require.Greater(t, seen, 40)
}

// nameAll puts a name into every text, and the unit of a text beside a value's.
func nameAll(v reflect.Value, name string) {
	switch {
	case v.Type() == reflect.TypeFor[event.Value]():
		v.Set(reflect.ValueOf(event.Word("text", name)))
	case v.Kind() == reflect.String:
		v.SetString(name)
	case v.Kind() == reflect.Struct && v.Type() != reflect.TypeFor[time.Time]():
		for i := range v.NumField() {
			nameAll(v.Field(i), name)
		}
	case v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.String:
		v.Set(reflect.ValueOf([]string{name}))
	case v.Type() == reflect.TypeFor[map[string]event.Value]():
		v.Set(reflect.ValueOf(map[string]event.Value{"who": event.Word("text", name)}))
	case v.Type() == reflect.TypeFor[[]event.Line]():
		v.Set(reflect.ValueOf([]event.Line{{Key: "list.title", Args: map[string]event.Value{"who": event.Word("text", name)}}}))
	}
}

// Erasing changes who, and nothing of the job: the same state but for the names,
// the same clocks, the same open question, and today's numbers are still those
// that were told.
func TestErasingChangesNothingOfTheJob(t *testing.T) {
	d := demoStory(t)
	for i := range d.entries {
		d.entries[i].By.Name = []string{"Ottoline", "Bo"}[i%2]
	}
	db := stored(t, d.entries)
	before := flow.Fold(flow.State{}, d.entries...)
	good(t, "erase", "Ottoline", "--everywhere", "--db", db)
	good(t, "erase", "local", "--job", "job-1", "--db", db)
	took, err := takeRecord(t.Context(), scriptWorld(), options{db: db}, "job-1")
	require.NoError(t, err)
	require.NoError(t, took.broken)
	after := took.state
	assert.Equal(t, flow.Question(before), flow.Question(after))
	assert.Equal(t, flow.Clocks(before), flow.Clocks(after))
	assert.Equal(t, before.Works, after.Works)
	require.Len(t, after.Settled, len(before.Settled))
	for id, was := range before.Settled {
		now := after.Settled[id]
		assert.Empty(t, now.By.ID+now.By.Name)
		was.By, now.By = event.Actor{}, event.Actor{}
		assert.Equal(t, was, now, id)
	}
	assert.Contains(t, good(t, "replay", "job-1", "--diff", "--db", db), "say the same")
	assert.Contains(t, good(t, "check", "--db", db), "Sound")
}

// A name is found as a word, an id only where an id stands.
func TestWhatNamesAPerson(t *testing.T) {
	by := func(id, name string, e event.Event) event.Entry {
		return event.Entry{At: time.Unix(0, 0), By: event.Actor{ID: id, Name: name, Role: "builder"}, From: event.Reader("bot:" + id), Cause: "k", Event: e}
	}
	records := sealAll(t, []event.Entry{
		by("a1", "Ann", event.Opened{Name: "The annexe"}),
		by("b2", "Bo", event.Noted{Text: "ANN's ladder"}),
		by("b2", "Bo", event.Noted{Text: "annex, a1 sauce"}),
		by("b2", "Bo", event.Heard{Key: "already.done", Args: map[string]event.Value{"who": event.Word("text", "Ann"), "value": event.Word("pick", "Ann")}}),
	})
	for who, want := range map[string][]string{
		"ann":  {"1/by/id", "1/by/name", "1/cause", "1/from", "2/data/text", "4/data/args/who/text"},
		"a1":   {"1/by/id", "1/by/name", "1/cause", "1/from", "2/data/text", "4/data/args/who/text"},
		"Eve":  nil,
		"Bo's": nil,
	} {
		tr := tracesOf(records, who)
		var got []string
		for _, r := range records {
			for _, l := range r.Leaves {
				if tr.match(r.Seq, l.Pointer, l.Value) {
					got = append(got, string(rune('0'+r.Seq))+l.Pointer)
				}
			}
		}
		assert.Equal(t, want, got, who)
	}
}
