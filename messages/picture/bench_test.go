package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/flow/draw"
	"chargehand/flow/draw/drawtest"
	"chargehand/messages/picture"
	"chargehand/messages/text"
)

// The aims are 30 ms for an image and 1 ms for a drawing; bytes are told beside
// them.
func BenchmarkPictures(b *testing.B) {
	s := drawtest.Roofs()[drawtest.LShape]
	for _, kind := range draw.Kinds() {
		pic, ok := draw.Of(kind, s)
		if !ok {
			continue
		}
		for _, way := range []struct {
			name string
			make func() ([]byte, error)
		}{
			{"png", func() ([]byte, error) { return picture.PNG(pic, "en") }},
			{"svg", func() ([]byte, error) { return picture.SVG(pic, "en") }},
			{"pdf", func() ([]byte, error) { return picture.PDF(pic, "en") }},
			{"layout", func() ([]byte, error) { picture.Lay(pic.Sketch, text.For("en"), picture.Phone); return nil, nil }},
			{"sketch", func() ([]byte, error) { _, _ = draw.Of(kind, s); return nil, nil }},
		} {
			b.Run(kind+"/"+way.name, func(b *testing.B) {
				var n int
				for b.Loop() {
					raw, err := way.make()
					require.NoError(b, err)
					n = len(raw)
				}
				b.ReportMetric(float64(n), "bytes")
			})
		}
	}
}
