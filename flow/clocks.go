package flow

import (
	"sort"
	"time"

	"chargehand/flow/event"
)

// stepLook is the inspection that comes round in the aftercare.
const stepLook = "look"

// Clocks is the whole set of alarms of a job, worked out from its state. A
// clock that has rung at its due time is not in it any more.
func Clocks(s State) []event.Clock {
	var out []event.Clock
	add := func(name string, due time.Time) {
		if rung, ok := s.Rung[name]; ok && !rung.Before(due) {
			return
		}
		out = append(out, event.Clock{Name: name, Due: due.UTC()})
	}
	if s.Status == "" || s.Status == JobEnded {
		return nil
	}
	v := View{s}
	if w := s.Works[stepRelax]; w.Done("begun") && !w.Done("down") {
		add("relax/done", w.Marks["begun"].Add(after(w, "for")))
	}
	if at := waitOver(s); !at.IsZero() {
		add("wait/over", at)
	}
	glueClocks(s, add)
	checkIn(s, add)
	if w := s.Works["hose"]; w.Done("begun") && !w.Done("dry") {
		add("hose/done", w.Marks["begun"].Add(20*time.Minute))
	}
	for _, spec := range script() {
		if set := s.Settled[spec.ID]; set.Status == StepPutOff {
			name := "put-off/" + spec.ID
			for _, due := range reminders(set.Until) {
				if due.After(s.Rung[name]) { // one at a time: the next is armed when this has rung
					add(name, due)
					break
				}
			}
		}
	}
	if !s.Handed.IsZero() {
		if name, due, ok := nextInspection(v); ok {
			add(name, due)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if !out[i].Due.Equal(out[j].Due) {
			return out[i].Due.Before(out[j].Due)
		}
		return out[i].Name < out[j].Name
	})
	return out
}

// waitOver is when the weather was said to come round; zero where no wait was told,
// or it is over.
func waitOver(s State) time.Time {
	if s.Settled[stepGo].Answer() || s.Settled[stepBatches].Answer() {
		return time.Time{}
	}
	for _, l := range s.Told["go"].Lines {
		if l.Key == "told.wait" || l.Key == "told.wait-tomorrow" {
			return l.Args["at"].At
		}
	}
	return time.Time{}
}

// glueClocks are the clocks of what is wet: squares, batches, contact runs.
func glueClocks(s State, add func(string, time.Time)) {
	if n, w := square(s); w.Done("begun") {
		name := squareName(n) + "/look"
		if at := nextLook(w, s.Rung[name]); !at.IsZero() {
			add(name, at)
		}
	}
	if n, w := batch(s); w.Done("begun") {
		soon, cover, dead := alarms(w)
		add(batchName(n)+"/soon", soon)
		add(batchName(n)+"/cover", cover)
		add(batchName(n)+"/dead", dead)
	}
	if n, w := run(s); coated(w) {
		name := contactName(n)
		for _, face := range faces {
			if !w.Done("coated-" + face) {
				if w.Has["first"].Text == otherFace(face) {
					add(name+"/coat-"+face, w.Marks["coated-"+otherFace(face)].Add(after(w, "wait")))
				}
				continue
			}
			if at := nextKnuckle(w, face, s.Rung[name+"/knuckle-"+face]); !dry(w, face) && !at.IsZero() {
				add(name+"/knuckle-"+face, at)
			}
			add(name+"/dead-"+face, deadAt(w, face))
		}
	}
	if begun, ok := busySince(s); ok && len(s.Held) > 0 {
		add("hands/free", begun.Add(handsFull))
	}
}

func sorted[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

func after(w Work, key string) time.Duration {
	return time.Duration(w.Has[key].Num() * float64(time.Minute)).Round(time.Millisecond)
}

// reminders of something put off thin out but never stop: on the day, after
// two weeks, after two months, then twice a year for ten years.
func reminders(until time.Time) []time.Time {
	out := []time.Time{until, until.AddDate(0, 0, 14), until.AddDate(0, 2, 0)}
	for half := 1; half <= 20; half++ {
		out = append(out, until.AddDate(0, 2+6*half, 0))
	}
	return out
}

// inspectionYears is how far ahead inspections are set out; a state always has
// the next one, so the aftercare never runs dry while somebody answers.
const inspectionYears = 60

// inspections after the hand-over: a week, a month, then each spring and
// autumn. Twice a year: BS 6229, from memory; the first two common practice.
func inspections(handed time.Time) []time.Time {
	out := []time.Time{handed.AddDate(0, 0, 7), handed.AddDate(0, 1, 0)}
	for y := handed.Year(); y <= handed.Year()+inspectionYears; y++ {
		for _, m := range []time.Month{time.April, time.October} {
			d := time.Date(y, m, 15, 8, 0, 0, 0, time.UTC)
			if d.After(handed.AddDate(0, 2, 0)) {
				out = append(out, d)
			}
		}
	}
	return out
}

// nextInspection is the first one that nobody has looked at yet.
func nextInspection(v View) (name string, due time.Time, ok bool) {
	for _, due := range inspections(v.S.Handed) {
		name := "look/" + due.Format("2006-01-02")
		w := v.S.Works[name]
		if !w.Done("sound") && !w.Done("found") {
			return name, due, true
		}
	}
	return "", time.Time{}, false
}

// inspectionDue names the inspection that has rung and waits for an answer.
func inspectionDue(v View) string {
	if v.S.Handed.IsZero() {
		return ""
	}
	name, due, ok := nextInspection(v)
	if !ok {
		return ""
	}
	if rung, yes := v.S.Rung[name]; yes && !rung.Before(due) {
		return name
	}
	return ""
}
