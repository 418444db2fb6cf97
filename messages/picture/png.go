package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"

	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// resolution makes a page 100 mm wide 850 pixels: sharp on a phone that shows
// it 360 wide, and small enough to send from a roof.
const resolution = 216

// PNG writes a picture as an image for a chat.
func PNG(p talk.Picture, lang string) ([]byte, error) {
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.DefaultCompression}
	if err := e.Encode(&b, raster(Lay(p.Sketch, text.For(lang), Phone))); err != nil {
		return nil, fmt.Errorf("picture: %w", err)
	}
	return b.Bytes(), nil
}

func raster(l *Layout) *image.Paletted {
	c := vgimg.NewWith(vgimg.UseWH(mm(l.Width), mm(l.Height)), vgimg.UseDPI(resolution))
	l.onto(c, func(c vg.Canvas, w placed, s string, at pt) {
		turned(c, w, at, func(at pt) { c.Fill(outlines(face(w.bold), s, face(w.bold).size(w.size), at)) })
	})
	return few(c.Image())
}

// inks are the colours of an image: sixteen greys, and as many steps from the
// accent to white.
var inks = func() color.Palette {
	var p color.Palette
	for i := range 16 {
		p = append(p, color.Gray{uint8(17 * i)})
	}
	for i := range 16 {
		p = append(p, mix(accent, float64(i)/15))
	}
	return p
}()

func mix(c color.RGBA, white float64) color.RGBA {
	to := func(x uint8) uint8 { return uint8(float64(x) + (255-float64(x))*white + 0.5) }
	return color.RGBA{to(c.R), to(c.G), to(c.B), 255}
}

// few brings an image down to the inks: a drawing needs no more, and is a
// fraction of the size.
func few(img image.Image) *image.Paletted {
	out := image.NewPaletted(img.Bounds(), inks)
	full, ok := img.(*image.RGBA)
	if !ok {
		for i := range out.Pix {
			out.Pix[i] = uint8(inks.Index(img.At(i%out.Stride, i/out.Stride)))
		}
		return out
	}
	for i := range out.Pix {
		r, b := full.Pix[4*i], full.Pix[4*i+2]
		n := (int(r) + 8) / 17
		if b > r+16 {
			n = 16 + (int(r)*15+127)/255
		}
		out.Pix[i] = uint8(n)
	}
	return out
}
