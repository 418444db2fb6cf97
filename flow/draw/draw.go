package draw

import (
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// The kinds of pictures, by the words that ask for them.
const (
	Roof     = "roof"      // the plan with its edges and the fall
	Rod      = "rod"       // every joist mark along one tape
	Deck     = "deck"      // the boards as they lie, and as they are sawn
	Cuts     = "cuts"      // what is cut from which bar
	Gutter   = "gutter"    // section of the gutter edge
	Verge    = "verge"     // section of a verge
	Abutment = "abutment"  // section at a wall
	Parapet  = "parapet"   // section of a parapet and its coping
	Pipe     = "pipe"      // a pipe through the roof: where it is, how it is sealed
	Sheet    = "sheet"     // the rubber over the deck
	Strips   = "strips"    // the strips of glue in their order
	Runs     = "runs"      // the runs along the edges
	Lead     = "lead"      // the pieces of the flashing
	Drift    = "drift"     // snow banked against a taller wall
	Wind     = "wind"      // where the wind lifts most
	OpenTime = "open-time" // how long glue may lie, by the heat of the deck
	Timeline = "timeline"  // the job so far
)

// Subject is what a picture is drawn from.
type Subject struct {
	In    plan.Inputs
	Plan  *plan.Plan
	Chase unit.Length // depth of the chase; 0 = not told

	Batches []Begun
	Story   *Story
}

// kinds in the order of the work, each with the function that draws it; false
// where something it needs is not known, or not on this roof.
var kinds = []struct {
	kind string
	draw func(Subject) (talk.Picture, bool)
}{
	{Roof, roof},
	{Rod, rod},
	{Deck, deckPicture},
	{Cuts, cuts},
	{Gutter, gutterEdge},
	{Verge, verge},
	{Abutment, abutment},
	{Parapet, parapet},
	{Pipe, pipe},
	{Sheet, sheetPicture},
	{Strips, glueStrips},
	{Runs, contactRuns},
	{Lead, leadPicture},
	{Drift, drift},
	{Wind, wind},
	{OpenTime, openTime},
	{Timeline, timeline},
}

// Kinds lists the kinds of pictures in the order of the work.
func Kinds() []string {
	out := make([]string, len(kinds))
	for i, k := range kinds {
		out[i] = k.kind
	}
	return out
}

// Of draws a picture; ok is false where it can't be drawn yet, or not of this
// roof.
func Of(kind string, s Subject) (pic talk.Picture, ok bool) {
	if s.Plan == nil {
		return talk.Picture{}, false
	}
	for _, k := range kinds {
		if k.kind != kind {
			continue
		}
		if pic, ok = k.draw(s); ok {
			pic.Kind = kind
		}
		return pic, ok
	}
	return talk.Picture{}, false
}

// Possible lists the kinds that can be drawn now.
func Possible(s Subject) []string {
	var out []string
	for _, k := range kinds {
		if _, ok := Of(k.kind, s); ok {
			out = append(out, k.kind)
		}
	}
	return out
}
