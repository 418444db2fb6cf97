package picture_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/unit"
	"chargehand/flow/draw"
	"chargehand/flow/draw/drawtest"
	"chargehand/flow/talk"
	"chargehand/messages/picture"
	"chargehand/messages/text"
)

// keyNumbers are what somebody who can't see a picture must be told of it, as
// they are spoken.
func keyNumbers(kind string, s draw.Subject) []string {
	p := s.Plan
	var out []string
	mm := func(ls ...unit.Length) {
		for _, l := range ls {
			out = append(out, fmt.Sprintf("%.0f", math.Floor(float64(l)+0.5)))
		}
	}
	switch kind {
	case draw.Roof:
		for _, e := range p.Outline.Edges {
			mm(e.Length)
		}
		mm(p.Fall.Drop)
		out = append(out, strings.TrimSuffix(fmt.Sprintf("%.1f", p.Area.In(unit.SquareMetre)), ".0"))
	case draw.Rod:
		switch {
		case p.Joists.Parts != nil:
			for _, part := range p.Joists.Parts {
				mm(part.Plan.Marks...)
			}
		case p.Joists.Skewed == nil:
			mm(p.Joists.Marks...)
		}
	case draw.Deck:
		out = append(out, fmt.Sprint(p.Deck.Boards))
		for _, r := range p.Deck.Rows {
			mm(r.Lengths...)
			mm(r.Width)
		}
	case draw.Cuts:
		for _, l := range p.Lengths {
			if l.Whole() {
				continue
			}
			for _, b := range l.List.Bars {
				mm(b.Length)
				for _, c := range b.Cuts {
					mm(c.Length)
				}
			}
		}
	case draw.Gutter:
		mm(p.Drip.Drip, *s.In.Fascia, *s.In.Batten, *s.In.Trim, *s.In.GutterSize)
	case draw.Verge:
		mm(*s.In.Batten, *s.In.BoardThick, *s.In.Fascia)
	case draw.Abutment:
		mm(p.Upstands.BoardTop, p.Upstands.BedJoint, p.Upstands.Rubber, s.Chase)
	case draw.Parapet:
		mm(*s.In.ParapetHeight, *s.In.ParapetTop, *s.In.CopingWidth)
	case draw.Pipe:
		for _, q := range s.In.Pipes {
			mm(q.Dia, q.X, q.Y)
		}
		mm(75, 150)
	case draw.Sheet:
		mm(p.Sheet.Length, p.Sheet.Width)
		mm(p.Sheet.Allow...)
	case draw.Strips:
		mm(p.Batch.Strip)
		for _, st := range p.Batch.Ahead {
			mm(st.Width)
		}
	case draw.Runs:
		for _, r := range p.Contact.Runs {
			mm(r.To - r.From)
		}
	case draw.Lead:
		for _, r := range p.Lead.Runs {
			mm(r.Run, r.Piece)
			out = append(out, fmt.Sprint(r.Pieces), fmt.Sprint(r.Wedges), fmt.Sprint(r.Clips))
		}
		mm(p.Lead.Lap)
	case draw.Drift:
		peak := 0.0
		for _, b := range p.Snow.Banks {
			peak = max(peak, b.Peak.In(unit.KilonewtonPerM2))
		}
		out = append(out, fmt.Sprintf("%.2f", peak), fmt.Sprintf("%.2f", p.Snow.Flat.In(unit.KilonewtonPerM2)))
	case draw.Wind:
		out = append(out, fmt.Sprintf("%.2f", p.Wind.Total.In(unit.Kilonewton)), fmt.Sprintf("%.2f", p.Wind.Pressure.In(unit.KilonewtonPerM2)))
		for _, z := range p.Wind.Zones {
			if z.Area <= 0 {
				continue
			}
			out = append(out, fmt.Sprintf("%.2f", p.Wind.Uplift(z).In(unit.KilonewtonPerM2)))
		}
	case draw.OpenTime:
		out = append(out, fmt.Sprint(*s.In.SurfaceC))
		for _, b := range s.Batches {
			out = append(out, fmt.Sprint(float64(b.Deck)))
		}
	case draw.Timeline:
		out = append(out, "08:05", "15:30", "10:55", "12:10")
	}
	return out
}

// Who can't see a picture is told its key numbers, in every language.
func TestAltTextCarriesTheKeyNumbers(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	look := func(name string, s draw.Subject) {
		every(t, s, func(kind string, pic talk.Picture) {
			numbers := keyNumbers(kind, s)
			seen[kind] = seen[kind] || len(numbers) > 0
			for _, lang := range text.Languages() {
				alt := text.For(lang).Say(pic.Alt)
				for _, n := range numbers {
					assert.Contains(t, alt, n, "%s, %s, %s", name, kind, lang)
				}
			}
		})
	}
	for name, s := range drawtest.Roofs() {
		look(name, s)
	}
	for seed := range 30 {
		look(fmt.Sprintf("roof %d", seed), drawtest.Random(rand.New(rand.NewPCG(uint64(seed), 3))))
	}
	for _, kind := range draw.Kinds() {
		require.True(t, seen[kind], "nothing is asked of the %s", kind)
	}
}

// Every label, caption and alt text has words, in every language.
func TestEveryLabelHasWords(t *testing.T) {
	t.Parallel()
	look := func(s draw.Subject) {
		every(t, s, func(kind string, pic talk.Picture) {
			for _, lang := range text.Languages() {
				say := text.For(lang)
				words := []string{say.Say(pic.Caption), say.Say(pic.Alt)}
				for _, b := range picture.Lay(pic.Sketch, say, picture.Phone).Boxes() {
					words = append(words, b.Text)
				}
				for _, w := range words {
					assert.NotContains(t, w, text.Unsaid, "%s %s", kind, lang)
					assert.NotEmpty(t, strings.TrimSpace(w), "%s %s", kind, lang)
				}
			}
		})
	}
	for _, s := range drawtest.Roofs() {
		look(s)
	}
	for seed := range 20 {
		look(drawtest.Random(rand.New(rand.NewPCG(uint64(seed), 5))))
	}
}

// Letters are never smaller than is read on a phone 360 pixels wide: a capital of
// 9 pixels, the small size of ISO 3098 on a page 100 mm wide.
func TestLettersAreLargeEnough(t *testing.T) {
	t.Parallel()
	const shown = 360.0 / picture.Phone // pixels for a millimetre
	for name, s := range drawtest.Roofs() {
		every(t, s, func(kind string, pic talk.Picture) {
			for _, b := range picture.Lay(pic.Sketch, text.For("en"), picture.Phone).Boxes() {
				assert.GreaterOrEqual(t, b.Capital*shown, 8.99, "%s %s: %q", name, kind, b.Text)
			}
		})
	}
}
