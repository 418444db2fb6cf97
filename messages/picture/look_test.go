package picture_test

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	xdraw "golang.org/x/image/draw"

	"chargehand/flow/draw"
	"chargehand/flow/draw/drawtest"
	"chargehand/messages/picture"
)

var look = flag.String("look", "", "write every picture into this folder, 360 pixels wide, to look at")

// TestLook writes the pictures as a phone shows them, for eyes.
func TestLook(t *testing.T) {
	if *look == "" {
		t.Skip("for eyes: -look FOLDER")
	}
	roofs := drawtest.Roofs()
	for seed := range min(*many, 12) {
		roofs[fmt.Sprintf("random-%d", seed)] = drawtest.Random(rand.New(rand.NewPCG(uint64(seed), 7)))
	}
	for name, s := range roofs {
		for _, kind := range draw.Kinds() {
			pic, ok := draw.Of(kind, s)
			if !ok {
				continue
			}
			raw, err := picture.PNG(pic, "en")
			require.NoError(t, err)
			big, err := png.Decode(bytes.NewReader(raw))
			require.NoError(t, err)
			small := image.NewRGBA(image.Rect(0, 0, 360, big.Bounds().Dy()*360/big.Bounds().Dx()))
			xdraw.CatmullRom.Scale(small, small.Bounds(), big, big.Bounds(), xdraw.Src, nil)
			f, err := os.Create(filepath.Join(*look, kind+"-"+name+".png"))
			require.NoError(t, err)
			require.NoError(t, png.Encode(f, small))
			require.NoError(t, f.Close())
			t.Logf("%s %s: %d bytes, %v", kind, name, len(raw), big.Bounds().Max)
		}
	}
}
