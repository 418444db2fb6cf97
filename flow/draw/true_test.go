package draw_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/draw"
	"chargehand/flow/draw/drawtest"
	"chargehand/flow/talk"
)

// roofs are the four, and some random ones.
func roofs(t *testing.T, n int, do func(name string, s draw.Subject)) {
	t.Helper()
	for name, s := range drawtest.Roofs() {
		do(name, s)
	}
	for seed := range n {
		do(fmt.Sprintf("roof %d", seed), drawtest.Random(rand.New(rand.NewPCG(uint64(seed), 11))))
	}
}

// shapes lists the shapes of one type in a picture.
func shapes[S talk.Shape](pic talk.Picture) []S {
	var out []S
	for _, p := range pic.Sketch.Panels {
		for _, s := range p.Shapes {
			if x, ok := s.(S); ok {
				out = append(out, x)
			}
		}
	}
	return out
}

// measure is the distance that a dimension stands beside.
func measure(d talk.Dim) float64 {
	switch d.Along {
	case talk.Across:
		return math.Abs(float64(d.To.X - d.From.X))
	case talk.Upward:
		return math.Abs(float64(d.To.Y - d.From.Y))
	}
	return float64(d.From.To(d.To))
}

// A dimension says what it stands beside, to the millimetre it is rounded to.
func TestDimensionsAreTrue(t *testing.T) {
	t.Parallel()
	seen := 0
	roofs(t, 40, func(name string, s draw.Subject) {
		for _, kind := range draw.Kinds() {
			pic, ok := draw.Of(kind, s)
			if !ok {
				continue
			}
			for _, d := range shapes[talk.Dim](pic) {
				seen++
				n, ok := d.Text.Args["n"].(unit.Length)
				if assert.True(t, ok, "%s %s: a dimension without its number: %v", name, kind, d.Text) {
					assert.InDelta(t, measure(d), float64(n), 0.5+1e-6, "%s %s %v", name, kind, d.Text)
				}
			}
		}
	})
	require.Greater(t, seen, 1000)
}

// figures are the numbers of the dimensions and of the plain words of a picture,
// each as often as it stands there.
func figures(pic talk.Picture) map[float64]int {
	out := map[float64]int{}
	for _, d := range shapes[talk.Dim](pic) {
		out[float64(d.Text.Args["n"].(unit.Length))]++
	}
	for _, w := range shapes[talk.Word](pic) {
		if w.Text.Key == "label.figure" {
			out[float64(w.Text.Args["n"].(unit.Length))]++
		}
	}
	return out
}

func rounded(l unit.Length) float64 { return math.Floor(float64(l) + 0.5) }

// holds says whether all lengths stand in a picture.
func holds(t *testing.T, name string, pic talk.Picture, ls ...unit.Length) {
	t.Helper()
	have := figures(pic)
	for _, l := range ls {
		assert.Positive(t, have[rounded(l)], "%s, %s: no %v", name, pic.Kind, rounded(l))
		have[rounded(l)]--
	}
}

// What a picture measures is what the plan has worked out.
func TestFiguresAreThePlans(t *testing.T) {
	t.Parallel()
	roofs(t, 40, func(name string, s draw.Subject) {
		p := s.Plan
		picture := func(kind string) (talk.Picture, bool) { return draw.Of(kind, s) }
		if pic, ok := picture(draw.Roof); ok {
			for i, e := range p.Outline.Edges {
				if s.In.Shape == "walked" || s.In.Shape == "four-sided" || i < 2 {
					holds(t, name, pic, e.Length)
				}
			}
		}
		if pic, ok := picture(draw.Rod); ok {
			var marks []unit.Length
			switch j := p.Joists; {
			case j.Parts != nil:
				for _, part := range j.Parts {
					marks = append(marks, part.Plan.Marks...)
				}
			case j.Skewed == nil:
				marks = j.Marks
			default:
				for _, q := range j.Skewed.Joists {
					if !q.Jack {
						marks = append(marks, q.Low, q.High)
					}
				}
			}
			holds(t, name, pic, marks...)
		}
		if pic, ok := picture(draw.Deck); ok {
			var widths []unit.Length
			for _, r := range p.Deck.Rows {
				widths = append(widths, r.Width)
			}
			holds(t, name, pic, append(widths, *p.Length, *p.Depth)...)
		}
		if pic, ok := picture(draw.Gutter); ok {
			holds(t, name, pic, p.Drip.Drip, *s.In.Fascia, *s.In.Batten, *s.In.Trim, *s.In.GutterSize)
		}
		if pic, ok := picture(draw.Abutment); ok {
			holds(t, name, pic, p.Upstands.BoardTop, p.Upstands.BedJoint, p.Upstands.Rubber)
		}
		if pic, ok := picture(draw.Parapet); ok {
			holds(t, name, pic, *s.In.ParapetHeight, *s.In.ParapetTop)
		}
		if pic, ok := picture(draw.Sheet); ok && len(p.Sheet.Strips) < 2 {
			holds(t, name, pic, p.Sheet.Length, p.Sheet.Width)
		}
		if pic, ok := picture(draw.Strips); ok {
			var widths []unit.Length
			for _, st := range append(append([]plan.Strip(nil), s.In.Laid...), p.Batch.Ahead...) {
				widths = append(widths, st.Width)
			}
			holds(t, name, pic, widths...)
		}
		if pic, ok := picture(draw.Lead); ok {
			for _, r := range p.Lead.Runs {
				holds(t, name, pic, r.Piece)
			}
		}
		if pic, ok := picture(draw.Pipe); ok {
			for _, q := range s.In.Pipes {
				holds(t, name, pic, q.X, q.Y)
			}
		}
	})
}

// area adds up the surfaces of a picture that are filled in one of some ways.
func area(pic talk.Picture, panel int, is func(talk.Area) bool) float64 {
	sum := 0.0
	for _, s := range pic.Sketch.Panels[panel].Shapes {
		if a, ok := s.(talk.Area); ok && is(a) {
			sum += float64(a.Points.Area())
		}
	}
	return sum
}

// The surfaces drawn are those calc reckons with.
func TestAreasAreCalcs(t *testing.T) {
	t.Parallel()
	all := map[string]int{}
	roofs(t, 40, func(name string, s draw.Subject) {
		p := s.Plan
		if pic, ok := draw.Of(draw.Roof, s); ok {
			all[draw.Roof]++
			rims := shapes[talk.Rim](pic)
			require.Len(t, rims, 1)
			assert.InDelta(t, float64(*p.Area), float64(rims[0].Outline.Area()), 1)
			assert.InDelta(t, float64(*p.Area), area(pic, 0, func(a talk.Area) bool { return a.Tone == talk.Blank }), 1, name)
		}
		if pic, ok := draw.Of(draw.Deck, s); ok {
			all[draw.Deck]++
			want := 0.0
			for _, r := range p.Deck.Rows {
				for _, l := range r.Lengths {
					want += float64(l) * float64(r.Width)
				}
			}
			got := area(pic, 0, func(a talk.Area) bool { return a.Tone == talk.Tint })
			assert.InDelta(t, want, got, 1, name)
			// Boards cover each part but for the gaps between them.
			for i, place := range p.Deck.Places {
				covered, pieces := 0.0, 0
				for _, r := range p.Deck.Rows {
					if r.Part == i {
						for _, l := range r.Lengths {
							covered += float64(l) * float64(r.Width)
							pieces++
						}
					}
				}
				short := float64(place.Area()) - covered
				most := 3 * float64(place.Length()+place.Depth()) * float64(pieces)
				assert.True(t, short > -float64(place.Length()+place.Depth()) && short < most, "%s: part %d covered but for %v mm²", name, i, short)
			}
		}
		if pic, ok := draw.Of(draw.Strips, s); ok {
			all[draw.Strips]++
			got := area(pic, 0, func(a talk.Area) bool { return a.Pen == talk.NoPen && a.Tone != talk.Clear })
			got -= float64(*p.Area) // the roof under the strips
			assert.InDelta(t, float64(*p.Field), got, 0.002*float64(*p.Field)+20*float64(*p.Length), "%s: strips and field", name)
		}
		if pic, ok := draw.Of(draw.Wind, s); ok && p.Outline.IsRightAngled() && len(p.Outline.Edges) == 4 {
			all[draw.Wind]++
			want := 0.0
			for _, z := range p.Wind.Zones {
				want += float64(z.Area)
			}
			assert.InDelta(t, want, area(pic, 0, func(talk.Area) bool { return true }), 1e-6*want, name)
		}
		if pic, ok := draw.Of(draw.Sheet, s); ok && len(p.Sheet.Strips) < 2 {
			all[draw.Sheet]++
			assert.InDelta(t, float64(p.Sheet.Length)*float64(p.Sheet.Width), area(pic, 0, func(a talk.Area) bool { return a.Tone == talk.Tint }), 1, name)
		}
	})
	for _, kind := range []string{draw.Roof, draw.Deck, draw.Strips, draw.Wind, draw.Sheet} {
		require.Greater(t, all[kind], 5, kind)
	}
}

// Everything stands on the plan where it belongs: boards within their part, runs
// end to end round the roof, strips on the field.
func TestBoardsLieInTheirPart(t *testing.T) {
	t.Parallel()
	roofs(t, 40, func(name string, s draw.Subject) {
		pic, ok := draw.Of(draw.Deck, s)
		if !ok {
			return
		}
		for _, a := range shapes[talk.Area](talk.Picture{Sketch: talk.Sketch{Panels: pic.Sketch.Panels[:1]}}) {
			if a.Tone != talk.Tint {
				continue
			}
			b := a.Points.Bounds()
			in := false
			for _, place := range s.Plan.Deck.Places {
				const up = 1 // boards are cut to whole millimetres, the next one out
				in = in || (b.Min.X >= place.Min.X-up && b.Max.X <= place.Max.X+up && b.Min.Y >= place.Min.Y-up && b.Max.Y <= place.Max.Y+up)
			}
			assert.True(t, in, "%s: a board at %v lies on no part", name, b)
		}
	})
}

func TestRunsGoRoundTheRoof(t *testing.T) {
	t.Parallel()
	roofs(t, 20, func(name string, s draw.Subject) {
		pic, ok := draw.Of(draw.Runs, s)
		if !ok {
			return
		}
		sum := unit.Length(0)
		for _, w := range shapes[talk.Word](pic) {
			sum += w.Text.Args["length"].(unit.Length)
		}
		n := len(shapes[talk.Word](pic))
		assert.InDelta(t, float64(s.Plan.Outline.Perimeter()), float64(sum), float64(n)/2+1, name)
	})
}

// A roof of which nothing is known has no picture, and one of which little is
// known has few: never a panic.
func TestLittleKnownLittleDrawn(t *testing.T) {
	t.Parallel()
	assert.Empty(t, draw.Possible(draw.Subject{}))
	assert.Empty(t, draw.Possible(draw.Subject{Plan: plan.Reckon(plan.Inputs{}, nil)}))
	l, d := 4200*unit.Millimetre, 3000*unit.Millimetre
	in := plan.Inputs{Length: &l, Depth: &d}
	assert.Equal(t, []string{draw.Roof}, draw.Possible(draw.Subject{In: in, Plan: plan.Reckon(in, nil)}))
	_, ok := draw.Of("nonsense", draw.Subject{In: in, Plan: plan.Reckon(in, nil)})
	assert.False(t, ok)
}

// Every kind can be drawn of one roof or another, names itself, and points at
// places that are numbers.
func TestEveryKindIsDrawn(t *testing.T) {
	t.Parallel()
	drawn := map[string]bool{}
	for name, s := range drawtest.Roofs() {
		for _, kind := range draw.Kinds() {
			pic, ok := draw.Of(kind, s)
			if !ok {
				continue
			}
			drawn[kind] = true
			assert.Equal(t, kind, pic.Kind)
			assert.NotEmpty(t, pic.Caption.Key)
			assert.NotEmpty(t, pic.Alt.Key)
			for _, a := range shapes[talk.Area](pic) {
				for _, p := range a.Points {
					finite(t, name+" "+kind, p)
				}
			}
			for _, l := range shapes[talk.Stroke](pic) {
				for _, p := range l.Points {
					finite(t, name+" "+kind, p)
				}
			}
		}
	}
	for _, kind := range draw.Kinds() {
		assert.True(t, drawn[kind], "no roof has a %s", kind)
	}
}

func finite(t *testing.T, name string, p geom.Point) {
	t.Helper()
	for _, x := range []unit.Length{p.X, p.Y} {
		assert.False(t, math.IsNaN(float64(x)) || math.IsInf(float64(x), 0), "%s: a place at %v", name, p)
	}
}

// A gutter that faces south has the north up the roof, one that faces east has it
// to the right: who looks out over it has the north on his left.
func TestNorth(t *testing.T) {
	t.Parallel()
	for faces, want := range map[string][2]float64{"south": {0, 1}, "east": {1, 0}, "north": {0, -1}, "west": {-1, 0}, "south-west": {-math.Sqrt2 / 2, math.Sqrt2 / 2}} {
		s := drawtest.Roofs()[drawtest.Rectangle]
		before, _ := draw.Of(draw.Roof, s)
		s.In.Faces = faces
		pic, ok := draw.Of(draw.Roof, s)
		require.True(t, ok)
		arrows := shapes[talk.Arrow](pic)
		require.Len(t, arrows, len(shapes[talk.Arrow](before))+1)
		a := arrows[len(arrows)-1]
		long := float64(a.From.To(a.To))
		assert.InDelta(t, want[0], float64(a.To.X-a.From.X)/long, 1e-9, faces)
		assert.InDelta(t, want[1], float64(a.To.Y-a.From.Y)/long, 1e-9, faces)
	}
}
