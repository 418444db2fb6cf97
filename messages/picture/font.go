package picture

import (
	"fmt"
	"sync"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// letters is a font with what is needed to measure a text without drawing it.
type letters struct {
	face    font.Face
	em      float64
	cap     float64 // height of a capital, in ems
	drop    float64 // how far a g hangs below the line, in ems
	advance [256]float64
}

// typefaces are the fonts every picture is set in. They are read once.
var typefaces = sync.OnceValue(func() [2]*letters {
	return [2]*letters{load(goregular.TTF, xfont.WeightNormal), load(gobold.TTF, xfont.WeightBold)}
})

// load reads a font that is part of the program: one that does not read is a
// broken build.
func load(ttf []byte, weight xfont.Weight) *letters {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic(fmt.Sprintf("picture: the built-in font does not read: %v", err))
	}
	l := &letters{face: font.Face{Font: font.Font{Typeface: "Go", Weight: weight}, Face: f}, em: float64(f.UnitsPerEm())}
	l.cap = l.bounds('H', false)
	l.drop = l.bounds('g', true)
	for r := range l.advance {
		l.advance[r] = l.wide(rune(r))
	}
	return l
}

// bounds is how far a glyph stands above its line, or hangs below it, in ems.
func (l *letters) bounds(r rune, below bool) float64 {
	var buf sfnt.Buffer
	gid, err := l.face.Face.GlyphIndex(&buf, r)
	if err != nil {
		return 0
	}
	b, _, err := l.face.Face.GlyphBounds(&buf, gid, fixed.Int26_6(l.em), xfont.HintingNone)
	if err != nil {
		return 0
	}
	if below {
		return float64(b.Max.Y) / l.em
	}
	return -float64(b.Min.Y) / l.em
}

func (l *letters) wide(r rune) float64 {
	var buf sfnt.Buffer
	gid, err := l.face.Face.GlyphIndex(&buf, r)
	if err != nil {
		return 0
	}
	a, err := l.face.Face.GlyphAdvance(&buf, gid, fixed.Int26_6(l.em), xfont.HintingNone)
	if err != nil {
		return 0
	}
	return float64(a) / l.em
}

// size is the font size, in mm, whose capitals are so high.
func (l *letters) size(capital float64) float64 { return capital / l.cap }

// width is how long a text is, in mm, with capitals so high. The Go fonts have
// no kerning, so it is the sum of its letters.
func (l *letters) width(s string, capital float64) float64 {
	w := 0.0
	for _, r := range s {
		if int(r) < len(l.advance) {
			w += l.advance[r]
		} else {
			w += l.wide(r)
		}
	}
	return w * l.size(capital)
}

// at is the font at a size.
func (l *letters) at(capital float64) font.Face {
	f := l.face
	f.Font.Size = mm(l.size(capital))
	return f
}

// mm is a length on paper.
func mm(x float64) vg.Length { return vg.Length(x) * vg.Millimeter }
