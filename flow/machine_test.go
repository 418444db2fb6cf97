package flow

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fsm takes a misspelt state or a move given twice without a word; this table
// test does not.
func TestMachineTablesAreSound(t *testing.T) {
	known := map[string][]string{
		"job":   {JobDraft, JobActive, JobPaused, JobHanded, JobEnded},
		"phase": {PhaseWaiting, PhaseOpen, PhaseComplete},
		"step":  {StepPending, StepAsked, StepAnswered, StepPutOff, StepSkipped, StepReopened},
	}
	for _, m := range []machine{jobMachine, phaseMachine, stepMachine} {
		states := known[m.name]
		require.Contains(t, states, m.initial, m.name)
		reached := map[string]bool{m.initial: true}
		twice := map[string]bool{}
		for _, mv := range m.moves {
			require.NotEmpty(t, mv.Src, "%s %s", m.name, mv.Name)
			assert.Contains(t, states, mv.Dst, "%s %s", m.name, mv.Name)
			reached[mv.Dst] = true
			for _, src := range mv.Src {
				assert.Contains(t, states, src, "%s %s", m.name, mv.Name)
				key := mv.Name + "/" + src
				assert.False(t, twice[key], "%s: %s from %s is there twice, and the last one silently wins", m.name, mv.Name, src)
				twice[key] = true
			}
		}
		for _, s := range states {
			assert.True(t, reached[s], "%s: nothing leads to %q", m.name, s)
		}
	}
}

func TestMachineMovesAndRefusals(t *testing.T) {
	to, err := stepMachine.next(StepPending, "answer", nil)
	require.NoError(t, err)
	assert.Equal(t, StepAnswered, to)

	to, err = stepMachine.next(StepAnswered, "change", nil)
	require.NoError(t, err, "from a state to itself is a move here, though the library calls it none")
	assert.Equal(t, StepAnswered, to)

	_, err = stepMachine.next(StepAnswered, "skip", nil)
	require.Error(t, err)

	_, err = phaseMachine.next(PhaseWaiting, "enter", func() *Refusal { return &Refusal{Key: "why"} })
	var r *Refusal
	require.True(t, errors.As(err, &r))
	assert.Equal(t, "why", r.Key)

	assert.False(t, jobMachine.can(JobEnded, "begin"), "an ended job stays ended")
	assert.True(t, slices.ContainsFunc(Diagrams(), func(d Diagram) bool { return d.Name == "step" && len(d.Mermaid) > 100 }))
}

// Every step can be reached by name, has a phase of the list, and needs only
// steps that come before it: a need behind a step would be a dead end.
func TestScriptIsSound(t *testing.T) {
	place := map[string]int{}
	for i, s := range Script() {
		place[s.ID] = i
	}
	for i, s := range Script() {
		assert.Contains(t, phases, s.Phase, s.ID)
		for _, need := range s.Needs {
			at, ok := place[need]
			if assert.True(t, ok, "%s needs %q, which is no step", s.ID, need) {
				assert.Less(t, at, i, "%s needs %s, which comes after it", s.ID, need)
			}
		}
		for _, more := range s.More {
			assert.Contains(t, place, more, s.ID)
		}
		if s.Kind == Gate {
			assert.NotNil(t, s.When, "%s: a gate that never lifts", s.ID)
			assert.Empty(t, s.Risk, "%s: a gate can't be put off", s.ID)
		}
		if s.Short {
			assert.NotNil(t, s.Offer, "%s is left out in the short way but offers nothing", s.ID)
		}
	}
}
