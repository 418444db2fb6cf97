package picture

import (
	"fmt"
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgpdf"
)

// Nothing rests on colour: no two lines are told apart by it, no two surfaces.
func TestNothingRestsOnColour(t *testing.T) {
	lines := map[string]string{}
	for pen, s := range strokes {
		how := fmt.Sprint(s.width, s.dash)
		assert.Empty(t, lines[how], "%s and %s differ by colour alone", pen, lines[how])
		lines[how] = string(pen)
	}
	surfaces := map[string]string{}
	for name, s := range tones {
		how := fmt.Sprint(s.hatches)
		if s.hatches == nil {
			how = fmt.Sprint(s.ground)
		}
		assert.Empty(t, surfaces[how], "%s and %s look alike", name, surfaces[how])
		surfaces[how] = string(name)
		if s.ground != nil {
			r, g, b, _ := s.ground.RGBA()
			assert.True(t, r == g && g == b, "%s is coloured", name)
		}
	}
	// The one colour there is stays dark on a photocopy.
	grey := color.GrayModel.Convert(accent).(color.Gray)
	assert.Less(t, grey.Y, uint8(90))
}

// The three weights are 1 : 2 : 4. Source: ISO 128 for construction drawings.
func TestLineWeights(t *testing.T) {
	assert.InDelta(t, 2, wide/narrow, 1e-9)
	assert.InDelta(t, 4, heavy/narrow, 1e-9)
}

// A text is as wide as the font says, letter by letter.
func TestTextWidth(t *testing.T) {
	for _, l := range typefaces() {
		f := l.at(2.5)
		for _, s := range []string{"4200", "Ø110", "fall 1:40", "12.6 m²", "żółw", ""} {
			assert.InDelta(t, f.Width(s).Points()/vg.Millimeter.Points(), l.width(s, 2.5), 1e-6, s)
		}
		assert.InDelta(t, 2.5, l.cap*l.size(2.5), 1e-9)
	}
}

// Words in letters that the PDF's encoding lacks are drawn as shapes.
func TestPDFOfOtherLetters(t *testing.T) {
	c := vgpdf.New(mm(50), mm(20))
	w := placed{size: 3, box: box{dir: pt{1, 0}}}
	inPDF(c, w, "żółw", pt{5, 5})
	inPDF(c, w, "plain", pt{5, 12})
	path := outlines(typefaces()[0], "żółw", typefaces()[0].size(3), pt{5, 5})
	require.NotEmpty(t, path)
	var far extent
	for _, p := range path {
		if p.Type != vg.CloseComp {
			far.add(pt{p.Pos.X.Points(), p.Pos.Y.Points()}, 0, 0)
		}
	}
	assert.InDelta(t, mm(typefaces()[0].width("żółw", 3)).Points(), far.width(), 4)
	n, err := c.WriteTo(discard{})
	require.NoError(t, err)
	assert.Greater(t, n, int64(1000))
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }

// Two boxes meet where no line along a side of either lies between them.
func TestBoxesMeet(t *testing.T) {
	level := box{mid: pt{0, 0}, hw: 4, hh: 1, dir: pt{1, 0}}
	at := func(x, y, turn float64) box { return box{mid: pt{x, y}, hw: 4, hh: 1, dir: pt{1, 0}.turned(turn)} }
	assert.True(t, level.meets(at(7.9, 0, 0)))
	assert.False(t, level.meets(at(8, 0, 0)), "side by side is not on one another")
	assert.False(t, level.meets(at(0, 2, 0)))
	assert.True(t, level.meets(at(0, 4.9, 1.5707963267948966)))
	assert.False(t, level.meets(at(0, 5.1, 1.5707963267948966)))
	// Corner to corner at 45°: the rectangles round them overlap, they do not.
	assert.False(t, level.meets(at(7.5, 3.4, 0.7853981633974483)))
	assert.True(t, level.meets(at(5, 1.5, 0.7853981633974483)))
}
