package picture_test

import (
	"encoding/binary"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
	"chargehand/messages/picture"
	"chargehand/messages/text"
)

// sketchOf makes a sketch of any bytes: shapes at any places, on top of one
// another, of no size, far apart.
func sketchOf(raw []byte) talk.Sketch {
	at := 0
	next := func() int {
		if at+2 > len(raw) {
			at += 2
			return 0
		}
		n := int(int16(binary.LittleEndian.Uint16(raw[at:])))
		at += 2
		return n
	}
	point := func() geom.Point { return geom.Point{X: unit.Length(next()), Y: unit.Length(next())} }
	pens := []talk.Pen{talk.NoPen, talk.Wide, talk.Narrow, talk.Heavy, talk.Hidden, talk.Centre, talk.Movable, talk.Measured}
	tones := []talk.Tone{talk.Clear, talk.Blank, talk.Tint, talk.Shade, talk.Solid, talk.Brick, talk.Grain, talk.Board, talk.Mortar, talk.Wet, talk.Waste}
	anchors := []talk.Anchor{talk.Middle, talk.Above, talk.Below, talk.LeftOf, talk.RightOf}
	pick := func(n int) int { return (next()%n + n) % n }
	word := func() talk.Phrase { return talk.P("label.figure", "n", unit.Length(next())) }
	var p talk.Panel
	for at < len(raw) && len(p.Shapes) < 40 {
		switch pick(7) {
		case 0:
			p.Shapes = append(p.Shapes, talk.Stroke{Pen: pens[pick(len(pens))], Points: []geom.Point{point(), point(), point()}})
		case 1:
			p.Shapes = append(p.Shapes, talk.Area{Tone: tones[pick(len(tones))], Pen: pens[pick(len(pens))], Points: geom.Polygon{point(), point(), point(), point()}})
		case 2:
			p.Shapes = append(p.Shapes, talk.Arc{Pen: pens[pick(len(pens))], Tone: tones[pick(len(tones))], At: point(), Radius: unit.Length(pick(5000)), Sweep: unit.Angle(next()) / 1000})
		case 3:
			p.Shapes = append(p.Shapes, talk.Arrow{Pen: pens[pick(len(pens))], From: point(), To: point()})
		case 4:
			p.Shapes = append(p.Shapes, talk.Word{At: point(), Text: word(), Anchor: anchors[pick(len(anchors))], Turn: unit.Angle(next()) / 1000})
		case 5:
			p.Shapes = append(p.Shapes, talk.Note{At: point(), Text: word(), Left: pick(2) == 0})
		case 6:
			p.Shapes = append(p.Shapes, talk.Dim{From: point(), To: point(), Along: []talk.Direction{talk.Direct, talk.Across, talk.Upward}[pick(3)], Away: unit.Length(next()%20 + 1), Text: word()})
		}
	}
	return talk.Sketch{Panels: []talk.Panel{p}}
}

// Whatever is drawn comes to a page of a size, with its words on it, apart.
func FuzzLay(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte{4, 0, 1, 0, 2, 0, 9, 0, 0, 0, 0, 0})
	f.Add([]byte{6, 0, 0, 0, 0, 0, 0, 100, 0, 0, 0, 0, 7, 0, 5, 0, 5, 0, 1, 0, 2, 0, 3, 0, 4, 0, 200, 0})
	f.Add([]byte{1, 0, 5, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 4, 0, 0, 0, 0, 0, 4, 0, 0, 0, 0, 0, 4, 0, 0, 0, 0, 0})
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) > 400 {
			return
		}
		s := sketchOf(raw)
		l := picture.Lay(s, text.For("en"), picture.Phone)
		require.False(t, math.IsNaN(l.Width+l.Height) || math.IsInf(l.Width+l.Height, 0))
		boxes := l.Boxes()
		for i, b := range boxes {
			x, y := b.Reach()
			assert.True(t, b.X-x > -1e-6 && b.X+x < l.Width+1e-6 && b.Y-y > -1e-6 && b.Y+y < l.Height+1e-6, "%q at %v %v hangs over %v by %v", b.Text, b.X, b.Y, l.Width, l.Height)
			for _, c := range boxes[:i] {
				assert.False(t, b.Meets(c), "%q on %q", b.Text, c.Text)
			}
		}
	})
}
