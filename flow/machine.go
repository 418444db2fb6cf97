package flow

import (
	"context"
	"errors"
	"fmt"

	"github.com/looplab/fsm"
)

// machine is a small table of moves. The record is the truth about where a job
// stands; a machine only answers "may this happen from here, and where does it
// lead". A new fsm instance is made for each decision, because an instance is
// spoiled by a cancelled context or a panic and must not be shared.
type machine struct {
	name    string
	initial string
	moves   fsm.Events
}

// Job states.
const (
	JobDraft  = "draft"
	JobActive = "active"
	JobPaused = "paused"
	JobHanded = "handed over" // aftercare, open for years
	JobEnded  = "ended"
)

// Phase states.
const (
	PhaseWaiting  = "waiting"
	PhaseOpen     = "open"
	PhaseComplete = "complete"
)

// Step states.
const (
	StepPending  = "pending"
	StepAsked    = "asked"
	StepAnswered = "answered"
	StepPutOff   = "put off"
	StepSkipped  = "skipped"
	StepReopened = "reopened"
)

var jobMachine = machine{"job", JobDraft, fsm.Events{
	{Name: "begin", Src: []string{JobDraft}, Dst: JobActive},
	{Name: "pause", Src: []string{JobActive, JobHanded}, Dst: JobPaused},
	{Name: "go on", Src: []string{JobPaused}, Dst: JobActive},
	{Name: "hand over", Src: []string{JobActive}, Dst: JobHanded},
	{Name: "reopen", Src: []string{JobHanded}, Dst: JobActive},
	{Name: "end", Src: []string{JobActive, JobPaused, JobHanded}, Dst: JobEnded},
}}

var phaseMachine = machine{"phase", PhaseWaiting, fsm.Events{
	{Name: "enter", Src: []string{PhaseWaiting}, Dst: PhaseOpen},
	{Name: "look again", Src: []string{PhaseComplete}, Dst: PhaseOpen},
	{Name: "complete", Src: []string{PhaseOpen}, Dst: PhaseComplete},
}}

var stepMachine = machine{"step", StepPending, fsm.Events{
	{Name: "ask", Src: []string{StepPending, StepReopened}, Dst: StepAsked},
	{Name: "answer", Src: []string{StepPending, StepAsked, StepReopened, StepPutOff, StepSkipped}, Dst: StepAnswered},
	{Name: "change", Src: []string{StepAnswered}, Dst: StepAnswered},
	{Name: "skip", Src: []string{StepPending, StepAsked, StepReopened, StepPutOff}, Dst: StepSkipped},
	{Name: "put off", Src: []string{StepPending, StepAsked, StepReopened, StepSkipped, StepPutOff}, Dst: StepPutOff},
	{Name: "take up", Src: []string{StepPutOff, StepSkipped}, Dst: StepReopened},
	{Name: "reopen", Src: []string{StepAnswered, StepSkipped}, Dst: StepReopened},
	{Name: "undo", Src: []string{StepAnswered, StepSkipped, StepPutOff, StepReopened}, Dst: StepPending},
}}

// Refusal is a guard's reason for saying no; Key names the phrase for people.
type Refusal struct {
	Key  string
	Args map[string]any
}

func (r *Refusal) Error() string { return "refused: " + r.Key }

// next returns where a move leads from a state. A guard may refuse with a
// reason; a move the table does not have is refused with the machine's name.
func (m machine) next(from, move string, guard func() *Refusal) (string, error) {
	calls := fsm.Callbacks{}
	if guard != nil {
		calls["before_"+move] = func(_ context.Context, e *fsm.Event) {
			if r := guard(); r != nil {
				e.Cancel(r)
			}
		}
	}
	f := fsm.NewFSM(from, m.moves, calls)
	err := f.Event(context.Background(), move)
	var none fsm.NoTransitionError
	if errors.As(err, &none) && none.Err == nil { // Src == Dst is not an error here
		return from, nil
	}
	var refused *Refusal
	if errors.As(err, &refused) {
		return from, refused
	}
	if err != nil {
		return from, fmt.Errorf("%s cannot %s from %q: %w", m.name, move, from, err)
	}
	return f.Current(), nil
}

// can reports whether the table has the move at all.
func (m machine) can(from, move string) bool {
	_, err := m.next(from, move, nil)
	return err == nil
}

// diagram draws the table in the state-diagram notation of Mermaid.
func (m machine) diagram() string {
	f := fsm.NewFSM(m.initial, m.moves, nil)
	s, err := fsm.VisualizeWithType(f, fsm.MermaidStateDiagram)
	if err != nil {
		return "cannot draw " + m.name + ": " + err.Error() // only an unknown type can do this
	}
	return s
}
