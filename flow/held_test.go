package flow_test

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

var follower = talk.Person{ID: "f", Name: "Flo", Role: "follower"}

// heard are the phrases a person is told about some events, and whether all were
// alarms.
func (j *job) heard(es []event.Entry, to talk.Person) (keys []string, alarms bool) {
	s := flow.Fold(flow.State{}, j.entries[:len(j.entries)-len(es)]...)
	alarms = true
	for _, e := range es {
		for _, reply := range flow.Say(s, e, to) {
			tell, ok := reply.(talk.Tell)
			if !ok {
				alarms = false
				continue
			}
			alarms = alarms && tell.Level == talk.Alarm
			for _, l := range tell.Lines {
				keys = append(keys, l.Key)
			}
		}
		s = flow.Apply(s, e)
	}
	return keys, alarms
}

// While glue is wet nothing that others say or clocks bring is put before the hands
// in it, but alarms and what was done to that glue; afterwards all of it is, once.
func TestNothingButAlarmsWhileGlueIsWet(t *testing.T) {
	at := begin(t)
	at.to("chase")
	at.say("d 1 day")
	at.toBatches()
	for seed := range uint64(6) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			j := at.fork()
			j.t = t
			r := rand.New(rand.NewPCG(seed, 9))
			question := flow.Question(j.s)
			j.say("start")
			require.True(t, j.live(), flow.Question(j.s))
			said := 0
			for range 60 {
				j.now = j.now.Add(time.Duration(r.IntN(60)) * time.Second)
				var es []event.Entry
				switch r.IntN(5) {
				case 0:
					es = j.do(follower, flow.Question(j.s), talk.Said{Text: gabble(r, j.s)})
				case 1:
					es = j.do(follower, flow.Question(j.s), talk.Pictured{Hash: "h"})
				case 2:
					text := gabble(r, j.s)
					if text == "x" || text == "r" {
						continue // alarms are everybody's
					}
					es = j.do(second, flow.Question(j.s), talk.Said{Text: "change " + text})
				case 3:
					es = j.do(second, flow.Question(j.s), talk.Said{Text: "snag loose tile"})
				default:
					for _, c := range flow.Clocks(j.s) {
						if !c.Due.After(j.now) || c.Name == "put-off/chase" {
							es = append(es, j.do(talk.Person{ID: "system", Role: "system"}, "", talk.Rang{Clock: c.Name, Due: c.Due})...)
						}
					}
				}
				said += len(es)
				keys, alarms := j.heard(es, builder)
				assert.True(t, alarms, "said in the middle of a batch: %v", keys)
				require.Equal(t, question, flow.Question(j.s), "the question is the batch's")
				require.True(t, j.live(), "nobody else closes a batch")
			}
			require.NotZero(t, said)
			held := j.s.Held
			require.NotEmpty(t, held)
			es := j.say("down")
			released, ok := find[event.Released](es)
			require.True(t, ok)
			require.Len(t, released.Seqs, len(held))
			keys, _ := j.heard(es, builder)
			assert.Contains(t, keys, "released")
			assert.Empty(t, j.s.Held)
			again := j.do(builder, "", talk.Said{Text: "where"})
			keys, _ = j.heard(again, builder)
			assert.NotContains(t, keys, "noted.by", "once")
		})
	}
}

// toBatches comes to the first batch.
func (j *job) toBatches() {
	j.t.Helper()
	for n := 0; flow.StepNow(j.s) != "batches"; n++ {
		require.Less(j.t, n, 200, "at %s", flow.Question(j.s))
		j.patiently()
	}
}

// What a person says himself is always answered.
func TestWhoeverSpeaksIsAnsweredMidBatch(t *testing.T) {
	j := begin(t)
	j.toBatches()
	j.say("start")
	for text, key := range map[string]string{
		"note roller is shedding": "noted", "where": "where.at", "t": "timers.line", "p": "refuse.busy", "?": "why.batches", "change length 9000": "refuse.busy",
		"what": "why.batches",
	} {
		keys, _ := j.heard(j.say(text), builder)
		if assert.NotEmpty(t, keys, text) {
			assert.Equal(t, key, keys[0], text)
		}
	}
	assert.Equal(t, flow.JobActive, j.s.Status)
	keys, _ := j.heard(j.say("all down"), builder)
	assert.Equal(t, "tap.batch-down", keys[0], "all of this batch: the field goes on")
	assert.False(t, j.s.Works["field"].Done("down"))
}

// Wrong tin in mid-batch: one line, and the tin is asked for again.
func TestWrongTinInTheMiddle(t *testing.T) {
	j := begin(t)
	j.toBatches()
	j.say("start")
	es := j.say("wrong tin")
	keys, _ := j.heard(es, builder)
	assert.Equal(t, "tap.batch-wrong-tin", keys[0])
	assert.Equal(t, "tin", flow.StepNow(j.s))
	assert.False(t, j.live())
	assert.Zero(t, j.s.Works["batch/1"].Marks["down"])
}

// Litres are held against the area and the tin's cover: a fifth either way is said.
func TestLitresAgainstTheArea(t *testing.T) {
	at := begin(t)
	at.toBatches()
	for litres, key := range map[string]string{"0.9": "", "0.6": "doubt.film-thin", "1.3": "doubt.film-thick"} {
		j := at.fork()
		j.say("start")
		j.say("last")
		j.say("down")
		require.InDelta(t, 2.63, j.s.Works["batch/1"].Has["area"].Num(), 0.01)
		for n := 0; flow.StepNow(j.s) != "litres"; n++ {
			require.Less(t, n, 20)
			j.patiently()
		}
		es := j.say(litres)
		p, asked := find[event.Proposed](es)
		assert.Equal(t, key != "", asked, litres)
		assert.Equal(t, key, p.Doubt, litres)
	}
}
