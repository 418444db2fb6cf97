package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// RunsID names the division of contact work into runs.
const RunsID = "glue.runs/1"

// Limits of one run of contact work.
//
// Source: common practice, no source. Contact adhesive grabs once, so handling
// binds before time does on all but the shortest labels.
const (
	handleAlone unit.Length = 1500 * unit.Millimetre
	handlePair  unit.Length = 3000 * unit.Millimetre
	coatMetre               = 1.5 // min to coat one metre, both faces
	leastRun    unit.Length = 300 * unit.Millimetre
)

// RunLimit says what a run was limited by.
type RunLimit string

const (
	ByHandling RunLimit = "handling"
	ByTime     RunLimit = "time"
)

// RunLength returns the longest run of contact work that can be coated and
// pressed in one go.
//
//	L = min(handling: 1.5 m alone, 3 m for two; open/c),  c = 1.5 min/m
//
// open is JointWindow.Open: the time the joint stays open with the faces coated
// at the best times. 0 with no error means: not now.
//
// Source: common practice, no source.
// Units: in and out by type.
// Shape: grows with the open time up to the handling limit.
// Domain: 1..3 hands, open 0..480 min.
// Errors: DomainError only.
func RunLength(hands int, open unit.Minutes) (unit.Length, RunLimit, error) {
	const op = "glue.runs"
	if err := calc.Outside(op, "hands", float64(hands), 1, 3, "people"); err != nil {
		return 0, "", err
	}
	if err := calc.Outside(op, "open_min", float64(open), 0, 480, "min"); err != nil {
		return 0, "", err
	}
	handling := handlePair
	if hands == 1 {
		handling = handleAlone
	}
	byTime := unit.Length(float64(open)/coatMetre) * unit.Metre
	switch {
	case byTime < leastRun:
		return 0, ByTime, nil
	case byTime < handling:
		return byTime, ByTime, nil
	}
	return handling, ByHandling, nil
}

// Run is one piece of contact work.
type Run struct {
	Edge     int         // index of the edge
	From, To unit.Length // along the edge, from its first corner clockwise
}

// Runs divides the edges of a roof into runs, in working order.
//
// Corners start and end a run, runs of one edge are equal, and the round goes
// clockwise from the edge after the ladder to the ladder's own, which is last.
//
// Source: common practice, no source.
// Units: in and out by type.
// Shape: the runs of an edge cover it once, none longer than longest.
// Domain: 3..40 edges of 0..30 m (0 = no contact work on it), a ladder edge among
// them, longest 0.3..30 m.
// Errors: DomainError only.
func Runs(edges []unit.Length, ladder int, longest unit.Length) ([]Run, error) {
	const op = "glue.runs"
	if err := calc.Outside(op, "edges", float64(len(edges)), 3, 40, "edges"); err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "ladder", float64(ladder), 0, float64(len(edges)-1), "an edge"); err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "longest_mm", float64(longest), float64(leastRun), 30000, "mm"); err != nil {
		return nil, err
	}
	var runs []Run
	for i := range edges {
		edge := (ladder + 1 + i) % len(edges)
		l := float64(edges[edge])
		if err := calc.Outside(op, "edge_mm", l, 0, 30000, "mm"); err != nil {
			return nil, err
		}
		const hair = 1e-9 // three runs of 1 m cover 3 m, whatever the last bit says
		n := math.Ceil(l/float64(longest) - hair)
		for k := range int(n) {
			runs = append(runs, Run{
				Edge: edge,
				From: unit.Length(l * float64(k) / n),
				To:   unit.Length(l * float64(k+1) / n),
			})
		}
	}
	return runs, nil
}
