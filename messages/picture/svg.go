package picture

import (
	"bytes"
	"fmt"
	"html"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgsvg"

	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// SVG writes a picture as a document for a screen: letters stay text, and what
// it says stands in it for those who can't see it.
func SVG(p talk.Picture, lang string) ([]byte, error) {
	say := text.For(lang)
	l := Lay(p.Sketch, say, Phone)
	c := vgsvg.New(mm(l.Width), mm(l.Height))
	var wide []float64
	l.onto(c, func(c vg.Canvas, w placed, s string, at pt) {
		wide = append(wide, face(w.bold).width(s, w.size))
		turned(c, w, at, func(at pt) { c.FillString(face(w.bold).at(w.size), point(at), s) })
	})
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("picture: %w", err)
	}
	return document(b.Bytes(), l, wide, say.Say(p.Caption), say.Say(p.Alt)), nil
}

// turned writes at a place along the text's direction.
func turned(c vg.Canvas, w placed, at pt, write func(at pt)) {
	angle := math.Atan2(w.box.dir.y, w.box.dir.x)
	if math.Abs(angle) < 1e-9 {
		write(at)
		return
	}
	c.Push()
	c.Translate(point(at))
	c.Rotate(angle)
	write(pt{})
	c.Pop()
}

// document gives the drawing a head of its own. A screen without the font sets
// the letters in another: their width is written down, so that they still keep
// to their places.
func document(drawn []byte, l *Layout, wide []float64, caption, alt string) []byte {
	_, body, _ := bytes.Cut(drawn, []byte("xlink\">\n"))
	var out bytes.Buffer
	out.Grow(len(drawn) + 1000)
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="%.0fmm" height="%.1fmm" viewBox="0 0 %.2f %.2f">`+"\n",
		l.Width, l.Height, mm(l.Width).Points(), mm(l.Height).Points())
	fmt.Fprintf(&out, "<title>%s</title>\n<desc>%s</desc>\n", html.EscapeString(caption), html.EscapeString(alt))
	out.WriteString(`<rect width="100%" height="100%" fill="#fff"/>` + "\n")
	for n := 0; ; n++ {
		before, after, more := bytes.Cut(body, []byte("<text "))
		out.Write(before)
		if !more {
			break
		}
		fmt.Fprintf(&out, `<text textLength="%.2f" lengthAdjust="spacingAndGlyphs" `, mm(wide[n]).Points())
		body = after
	}
	return bytes.ReplaceAll(out.Bytes(), []byte("font-family:Go;font-variant:none;"), []byte("font-family:Go,sans-serif;"))
}
