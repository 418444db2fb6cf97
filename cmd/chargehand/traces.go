package main

import (
	"encoding/json"
	"regexp"
	"strings"

	"chargehand/flow/event"
)

// traces is where a person's data stands in a record: who acted and where from,
// and the free words in which the person is named. What was measured, decided
// and done stays.
type traces struct {
	ids     map[string]bool
	names   []*regexp.Regexp
	readers map[event.Reader]bool // places of this person and of nobody else
	own     map[uint64]bool       // events of this person
	words   map[uint64]map[string]bool
}

// tracesOf finds a person by id, or by name as it is written beside an event or
// in somebody's words.
func tracesOf(records []event.Record, who string) traces {
	t := traces{ids: map[string]bool{}, readers: map[event.Reader]bool{}, own: map[uint64]bool{}, words: map[uint64]map[string]bool{}}
	names := map[string]bool{}
	others := map[event.Reader]bool{}
	for _, r := range records {
		e, err := r.Open()
		if err != nil {
			continue // what does not decode has no person that could be told
		}
		t.words[r.Seq] = freeWords(r)
		if met, ok := e.Event.(event.Met); ok && (met.Person == who || strings.EqualFold(met.Name, who)) {
			t.ids[met.Person], names[strings.ToLower(met.Name)] = true, true
		}
		if e.By.Role == "system" || e.By.ID != who && !strings.EqualFold(e.By.Name, who) {
			others[e.From] = true
			continue
		}
		t.ids[e.By.ID], names[strings.ToLower(e.By.Name)] = true, true
		t.own[r.Seq], t.readers[e.From] = true, true
	}
	for reader := range others {
		delete(t.readers, reader)
	}
	if !t.ids[who] { // an id is no word to look for in what people say
		names[strings.ToLower(who)] = true
	}
	delete(names, "")
	delete(t.ids, "")
	delete(t.readers, "")
	for n := range names {
		t.names = append(t.names, regexp.MustCompile(`(?i)(^|[^\pL\pN])`+regexp.QuoteMeta(n)+`($|[^\pL\pN])`))
	}
	return t
}

// match says whether a leaf is the person's.
func (t traces) match(seq uint64, pointer string, value json.RawMessage) bool {
	switch pointer {
	case "/by/id", "/by/name", "/from", "/cause":
		return t.own[seq]
	}
	var s string
	if !t.words[seq][pointer] || json.Unmarshal(value, &s) != nil {
		return false
	}
	if t.ids[s] || t.readers[event.Reader(s)] {
		return true
	}
	for _, n := range t.names {
		if n.MatchString(s) {
			return true
		}
	}
	return false
}

// freeWords are the leaves of a record that hold what a person wrote, or a
// person's name, and not a word of the program.
func freeWords(r event.Record) map[string]bool {
	out := map[string]bool{}
	for _, l := range r.Leaves {
		switch stem, isText := strings.CutSuffix(l.Pointer, "/text"); l.Pointer {
		case "/data/said", "/data/reason", "/data/temporary", "/data/owner", "/data/protected", "/data/how", "/data/name", "/data/person", "/data/reader":
			out[l.Pointer] = true
		case "/data/text":
			out[l.Pointer] = r.Kind == event.Noted{}.Kind()
		case "/data/what":
			out[l.Pointer] = r.Kind == event.Snagged{}.Kind()
		default:
			out[l.Pointer] = isText && unitAt(r, stem) == "text"
		}
	}
	return out
}

// unitAt is the unit of the value at a pointer.
func unitAt(r event.Record, pointer string) string {
	for _, l := range r.Leaves {
		var s string
		if l.Pointer == pointer+"/unit" && json.Unmarshal(l.Value, &s) == nil {
			return s
		}
	}
	return ""
}
