package flow

import "strings"

// Diagram is the table of one small machine, drawn.
type Diagram struct{ Name, Mermaid string }

// Diagrams draws the machines of a job, a phase and a step, so that a new state
// shows up in the guide as a readable difference.
func Diagrams() []Diagram {
	var out []Diagram
	for _, m := range []machine{jobMachine, phaseMachine, stepMachine} {
		out = append(out, Diagram{m.name, strings.TrimSpace(m.diagram())})
	}
	return out
}
