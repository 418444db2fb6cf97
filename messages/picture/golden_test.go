package picture_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/draw"
	"chargehand/flow/draw/drawtest"
	"chargehand/flow/talk"
	"chargehand/messages/picture"
)

var update = flag.Bool("update", false, "write the golden pictures anew; then look at the difference, with eyes too")

const goldens = "../../testdata/picture"

// golden compares with a file, or writes it.
func golden(t *testing.T, name string, got []byte, same func(want, got []byte) bool) {
	t.Helper()
	name = filepath.Join(goldens, name)
	if *update {
		require.NoError(t, os.WriteFile(name, got, 0o644))
		return
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err, "run with -update, and look at what it writes")
	assert.True(t, same(want, got), "%s is drawn otherwise: run with -update, read the difference, and look at it with -look", name)
}

// svgs are the pictures kept as text: of the lean-to all it has, of the others
// those that differ from it in more than size.
var svgs = map[string][]string{
	drawtest.Rectangle:   draw.Kinds(),
	drawtest.LShape:      {draw.Roof, draw.Rod, draw.Deck, draw.Strips, draw.Sheet, draw.Runs, draw.Pipe},
	drawtest.OutOfSquare: {draw.Roof, draw.Rod, draw.Sheet, draw.Strips},
	drawtest.ThreeWalls:  {draw.Roof, draw.Parapet, draw.Lead, draw.Drift},
}

func TestGoldenSVG(t *testing.T) {
	t.Parallel()
	roofs := drawtest.Roofs()
	n := 0
	for name, kinds := range svgs {
		for _, kind := range kinds {
			pic, ok := draw.Of(kind, roofs[name])
			if !ok {
				continue
			}
			n++
			raw, err := picture.SVG(pic, "en")
			require.NoError(t, err)
			golden(t, kind+"-"+name+".svg", raw, bytes.Equal)
		}
	}
	require.Greater(t, n, 25)
}

// A few as images, pixel by pixel: what text and lines come to on a screen.
func TestGoldenPNG(t *testing.T) {
	t.Parallel()
	for _, kind := range []string{draw.Roof, draw.Abutment, draw.Strips, draw.OpenTime} {
		pic, ok := draw.Of(kind, drawtest.Roofs()[drawtest.Rectangle])
		require.True(t, ok)
		raw, err := picture.PNG(pic, "en")
		require.NoError(t, err)
		golden(t, kind+".png", raw, func(want, got []byte) bool {
			a, err := png.Decode(bytes.NewReader(want))
			require.NoError(t, err)
			b, err := png.Decode(bytes.NewReader(got))
			require.NoError(t, err)
			return samePixels(t, a, b)
		})
	}
}

// samePixels compares two images. One grey of sixteen is what a machine that
// fuses its multiplications may round otherwise.
func samePixels(t *testing.T, a, b image.Image) bool {
	t.Helper()
	if a.Bounds() != b.Bounds() {
		t.Logf("sizes %v and %v", a.Bounds(), b.Bounds())
		return false
	}
	off := 0
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			r, g, bl, _ := a.At(x, y).RGBA()
			s, u, v, _ := b.At(x, y).RGBA()
			const step = 17 * 257
			if far(r, s) > step || far(g, u) > step || far(bl, v) > step {
				off++
			}
		}
	}
	if off > 0 {
		t.Logf("%d pixels differ", off)
	}
	return off == 0
}

func far(a, b uint32) uint32 {
	if a > b {
		return a - b
	}
	return b - a
}

// The same picture twice is the same bytes, and an image is small enough for a
// phone's connection on a roof.
func TestImagesAreSmallAndTheSame(t *testing.T) {
	t.Parallel()
	for name, s := range drawtest.Roofs() {
		every(t, s, func(kind string, pic talk.Picture) {
			a, err := picture.PNG(pic, "en")
			require.NoError(t, err)
			assert.Less(t, len(a), 80_000, "%s %s", name, kind)
			if name == drawtest.Rectangle {
				b, err := picture.PNG(pic, "en")
				require.NoError(t, err)
				assert.True(t, bytes.Equal(a, b), kind)
			}
		})
	}
}

// A drawing says in itself what it shows.
func TestSVGSaysWhatItShows(t *testing.T) {
	t.Parallel()
	pic, ok := draw.Of(draw.Roof, drawtest.Roofs()[drawtest.Rectangle])
	require.True(t, ok)
	raw, err := picture.SVG(pic, "en")
	require.NoError(t, err)
	d := xml.NewDecoder(bytes.NewReader(raw))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else {
			require.NoError(t, err, "not well-formed")
		}
	}
	s := string(raw)
	assert.Contains(t, s, "<title>Roof plan: 12.6 m², falls 75 mm to the gutter (1:40).</title>")
	assert.Contains(t, s, "<desc>Roof plan, 12.6 m². Edges clockwise from the gutter, in mm: 1 gutter 4200,")
	assert.Contains(t, s, `role="img"`)
	assert.Equal(t, strings.Count(s, "<text "), strings.Count(s, "textLength="), "a text without its width moves when the font is missing")
	assert.NotContains(t, s, "font-family:Go;", "no other letters to fall back on")
}

// tool finds a tool of the machine: missing it is a skip on a bare laptop, and a
// failure where CI promises it.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is missing: poppler-utils has it", name)
	}
	t.Skipf("%s is not here", name)
	return ""
}

// Paper is looked at through another program's eyes: as many pages as it takes,
// ink on each, all of it inside the margins, and the words can be read back.
func TestPDFAsAnotherProgramReadsIt(t *testing.T) {
	t.Parallel()
	toPixels, toText := tool(t, "pdftoppm"), tool(t, "pdftotext")
	dir := t.TempDir()
	roofs := drawtest.Roofs()
	for _, c := range []struct {
		kind, roof string
		pages      int
		words      []string
	}{
		{draw.Roof, drawtest.LShape, 1, []string{"4800", "1:40", "Ø110", "Roof plan: 19 m²"}},
		{draw.Abutment, drawtest.Rectangle, 1, []string{"188", "178", "upstand board 18", "bar, bead on top"}},
		{draw.Deck, drawtest.LShape, 2, []string{"A 2400", "J 1199 × 594", "5000", "Deck: 7 boards"}},
		{draw.Timeline, drawtest.Rectangle, 1, []string{"survey check", "hose test over"}},
	} {
		pic, ok := draw.Of(c.kind, roofs[c.roof])
		require.True(t, ok, c.kind)
		raw, err := picture.PDF(pic, "en")
		require.NoError(t, err)
		name := filepath.Join(dir, c.kind+".pdf")
		require.NoError(t, os.WriteFile(name, raw, 0o600))
		words, err := exec.Command(toText, "-raw", name, "-").CombinedOutput()
		require.NoError(t, err, "%s", words)
		for _, w := range c.words {
			assert.Contains(t, string(words), w, c.kind)
		}
		out, err := exec.Command(toPixels, "-r", "50", "-png", name, filepath.Join(dir, c.kind)).CombinedOutput()
		require.NoError(t, err, "%s", out)
		pages, err := filepath.Glob(filepath.Join(dir, c.kind+"-*.png"))
		require.NoError(t, err)
		assert.Len(t, pages, c.pages, c.kind)
		for _, page := range pages {
			inked(t, page)
		}
	}
}

// inked says that a page at 50 dots an inch has ink, and none in its margins.
func inked(t *testing.T, page string) {
	t.Helper()
	f, err := os.Open(page)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	b := img.Bounds()
	assert.InDelta(t, 210.0/25.4*50, b.Dx(), 2)
	assert.InDelta(t, 297.0/25.4*50, b.Dy(), 2)
	const margin = 12 / 25.4 * 50 // mm
	inside, outside := 0, 0
	for y := range b.Dy() {
		for x := range b.Dx() {
			r, _, _, _ := img.At(x, y).RGBA()
			if r > 0x8000 {
				continue
			}
			if float64(x) < margin || float64(y) < margin || float64(b.Dx()-x) < margin || float64(b.Dy()-y) < margin {
				outside++
			} else {
				inside++
			}
		}
	}
	assert.Greater(t, inside, 200, "%s is nearly empty", page)
	assert.Zero(t, outside, "%s runs into its margin", page)
}
