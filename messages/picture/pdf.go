package picture

import (
	"bytes"
	"fmt"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/encoding/charmap"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgpdf"

	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// A4 in mm, and its margin.
const (
	sheetWide   = 210
	sheetHigh   = 297
	sheetMargin = (sheetWide - Paper) / 2
)

// PDF writes a picture as A4 pages for paper, the caption below it. A panel that
// does not fit below the one before it begins a page.
func PDF(p talk.Picture, lang string) (out []byte, err error) {
	defer func() {
		// The PDF library writes its fonts by way of temporary files and panics
		// where there can be none.
		if r := recover(); r != nil {
			err = fmt.Errorf("picture: %v", r)
		}
	}()
	say := text.For(lang)
	l := Lay(p.Sketch, say, Paper)
	foot := &easel{say: say}
	s := set(say.Say(p.Caption), float64(talk.Small), false, l.inner())
	s.flush = -1
	foot.put(s, s.box(pt{s.w / 2, -s.h / 2}, pt{1, 0}), nil)
	l.gap(betweenBl)
	l.add(foot)

	c := vgpdf.New(mm(sheetWide), mm(sheetHigh))
	top, fresh := float64(sheetHigh-sheetMargin), true
	for i, b := range l.blocks {
		tall := b.height
		if b.easel != nil && i+2 < len(l.blocks) && b.easel.marks == nil {
			tall += l.blocks[i+1].height + l.blocks[i+2].height // a heading keeps to its panel
		}
		if top-tall < sheetMargin && !fresh {
			c.NextPage()
			top, fresh = sheetHigh-sheetMargin, true
		}
		if fresh && b.easel == nil {
			continue
		}
		top -= b.height
		if b.easel != nil {
			b.easel.onto(c, b.shift.add(pt{sheetMargin, top}), inPDF)
			fresh = false
		}
	}
	var buf bytes.Buffer
	if _, err := c.WriteTo(&buf); err != nil {
		return nil, fmt.Errorf("picture: %w", err)
	}
	return buf.Bytes(), nil
}

// onePDF is the size at which the PDF library is given the font; it keeps a copy
// of it for each size otherwise.
const onePDF = 10.0

// inPDF writes letters as text where the PDF's encoding has them all, else as
// shapes. So it does with bold ones: the PDF library keeps one font a document,
// whatever it is given, and sets everything in the last of them.
func inPDF(c vg.Canvas, w placed, s string, at pt) {
	turned(c, w, at, func(at pt) {
		f := face(w.bold)
		coded, err := charmap.Windows1252.NewEncoder().String(s)
		if err != nil || w.bold {
			c.Fill(outlines(f, s, f.size(w.size), at))
			return
		}
		k := f.size(w.size) / onePDF
		c.Push()
		c.Translate(point(at))
		c.Scale(k, k)
		nominal := f.face
		nominal.Font.Size = mm(onePDF)
		c.FillString(nominal, vg.Point{}, coded)
		c.Pop()
	})
}

// outlines are the shapes of letters.
func outlines(f *letters, s string, size float64, at pt) vg.Path {
	var path vg.Path
	var buf sfnt.Buffer
	for _, r := range s {
		gid, err := f.face.Face.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		segments, err := f.face.Face.LoadGlyph(&buf, gid, fixed.Int26_6(f.em), nil)
		if err != nil {
			continue
		}
		to := func(p fixed.Point26_6) vg.Point {
			return point(at.add(pt{float64(p.X) / f.em * size, -float64(p.Y) / f.em * size}))
		}
		for _, g := range segments {
			switch g.Op {
			case sfnt.SegmentOpMoveTo:
				path.Move(to(g.Args[0]))
			case sfnt.SegmentOpLineTo:
				path.Line(to(g.Args[0]))
			case sfnt.SegmentOpQuadTo:
				path.QuadTo(to(g.Args[0]), to(g.Args[1]))
			case sfnt.SegmentOpCubeTo:
				path.CubeTo(to(g.Args[0]), to(g.Args[1]), to(g.Args[2]))
			}
		}
		a, err := f.face.Face.GlyphAdvance(&buf, gid, fixed.Int26_6(f.em), font.HintingNone)
		if err == nil {
			at.x += float64(a) / f.em * size
		}
	}
	return path
}
