package runner_test

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/flow/talk"
)

// unproven walks a job to a deck whose fewest boards the short search leaves open.
func (s *stage) unproven() {
	s.t.Helper()
	answers := map[string]string{"built": "1", "covering": "1", "guarded": "yes", "length": "3000 3600", "edges": "1 3 3 3", "clear-span": "3300", "wall-above": "2400", "site": "80",
		"anchor-size": "12 150 47", "board": "2440 1220", "bed-joint": "38"}
	for range 200 {
		st, err := s.r.State(s.t.Context(), s.job)
		require.NoError(s.t, err)
		id := flow.StepNow(st)
		if id == "deck-cut" {
			return
		}
		text, ok := answers[id]
		spec, _ := flow.Lookup(id)
		switch {
		case ok:
		case st.Pending != nil, spec.Offer == nil:
			text = "yes"
		default:
			text = "."
		}
		s.say(ann, roof, "", text)
	}
	s.t.Fatal("never came to the deck")
}

// The search runs beside the talk and is told when it is done, whoever asked.
func TestALongSearchComesBackIntoTheJob(t *testing.T) {
	s := setUp(t)
	s.unproven()
	s.say(ann, roof, "", "note the talk goes on meanwhile")
	s.r.Idle()
	st, err := s.r.State(t.Context(), s.job)
	require.NoError(t, err)
	require.Len(t, st.Found, 1)
	assert.True(t, flow.View{S: st}.Plan().Deck.Searched)
	keys := s.ear.keys(roof)
	assert.Equal(t, 1, count(keys, "solved.proven")+count(keys, "solved.open"), "%v", keys[max(0, len(keys)-30):])
	records, err := s.r.Journal.Read(t.Context(), s.job, 0, 10000)
	require.NoError(t, err)
	_, err = event.VerifyChain(records)
	require.NoError(t, err)
}

// dying loses every search at the moment it would be kept.
type dying struct{ runner.Journal }

func (j dying) Commit(ctx context.Context, c event.Commit) error {
	for _, p := range c.Parts {
		for _, r := range p.Records {
			if r.Kind == (event.Solved{}).Kind() {
				return errors.New("killed")
			}
		}
	}
	return j.Journal.Commit(ctx, c)
}

// A process that dies while it searches leaves nothing behind but the wish: the
// next one takes it up as soon as somebody looks at the job.
func TestASearchThatWasLostIsTakenUpAgain(t *testing.T) {
	s := setUp(t)
	whole := s.r.Journal
	s.r.Journal = dying{whole}
	s.unproven()
	s.r.Idle()
	st, err := s.r.State(t.Context(), s.job)
	require.NoError(t, err)
	require.Empty(t, st.Found)
	_, wanted := flow.Wanted(st)
	require.True(t, wanted)

	again := &runner.Runner{Journal: whole, Speaker: s.ear, Now: s.r.Now, NewID: s.r.NewID, Salt: s.r.Salt}
	require.NoError(t, again.Welcome(t.Context(), s.job, roof))
	again.Idle()
	st, err = again.State(t.Context(), s.job)
	require.NoError(t, err)
	assert.Len(t, st.Found, 1)
}

// A price said in one job is known to the next, also when another process wrote
// to the book in between.
func TestTheBookKnowsAcrossJobsAndProcesses(t *testing.T) {
	s := setUp(t)
	other := &runner.Runner{Journal: s.r.Journal, Speaker: s.ear, Now: s.r.Now, NewID: s.r.NewID, Salt: s.r.Salt}
	s.say(ann, roof, "1", "price primer 0.5 6.20")
	_, err := other.Handle(t.Context(), s.job, talk.Input{At: s.now, By: bo, Reader: string(kitchen), Key: "2", What: talk.Said{Text: "price tape 3.10"}})
	require.NoError(t, err)
	assert.False(t, s.say(ann, roof, "3", "price gloves 4"))
	assert.True(t, s.say(ann, roof, "3", "price gloves 5"), "the same message acts once")

	records, err := s.r.Journal.Read(t.Context(), event.Book, 0, 100)
	require.NoError(t, err)
	_, err = event.VerifyChain(records)
	require.NoError(t, err)
	assert.Len(t, records, 3)

	job, err := other.Begin(t.Context(), talk.Input{At: s.now, By: ann, Reader: string(roof), What: talk.Begun{Name: "Shed", Zone: "UTC"}})
	require.NoError(t, err)
	st, err := other.State(t.Context(), job)
	require.NoError(t, err)
	assert.Len(t, st.Prices, 3)
	assert.EqualValues(t, 400, st.Prices["gloves//1"].Price)
}
