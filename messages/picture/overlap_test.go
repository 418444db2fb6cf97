package picture_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/draw"
	"chargehand/flow/draw/drawtest"
	"chargehand/flow/talk"
	"chargehand/messages/picture"
	"chargehand/messages/text"
)

var many = flag.Int("roofs", 200, "how many random roofs to draw")

// every draws each picture that a roof has.
func every(t *testing.T, s draw.Subject, do func(kind string, pic talk.Picture)) {
	t.Helper()
	for _, kind := range draw.Kinds() {
		if pic, ok := draw.Of(kind, s); ok {
			do(kind, pic)
		}
	}
}

// No word lies on another, and none hangs over the page: on the roofs that are
// looked at, and on hundreds that nobody looks at.
func TestNoWordLiesOnAnother(t *testing.T) {
	t.Parallel()
	say := text.For("en")
	drawn := map[string]int{}
	look := func(name string, s draw.Subject) {
		every(t, s, func(kind string, pic talk.Picture) {
			drawn[kind]++
			for _, width := range []float64{picture.Phone, picture.Paper} {
				l := picture.Lay(pic.Sketch, say, width)
				boxes := l.Boxes()
				for i, b := range boxes {
					x, y := b.Reach()
					assert.True(t, b.X-x >= 0 && b.X+x <= l.Width && b.Y-y >= 0 && b.Y+y <= l.Height, "%s, %s, page %v: %q hangs over the edge", name, kind, width, b.Text)
					for _, c := range boxes[:i] {
						assert.False(t, b.Meets(c), "%s, %s, page %v: %q lies on %q", name, kind, width, b.Text, c.Text)
					}
				}
			}
		})
	}
	for name, s := range drawtest.Roofs() {
		look(name, s)
	}
	for seed := range *many {
		look(fmt.Sprintf("roof %d", seed), drawtest.Random(rand.New(rand.NewPCG(uint64(seed), 7))))
		if t.Failed() {
			t.FailNow()
		}
	}
	for _, kind := range draw.Kinds() {
		require.Greater(t, drawn[kind], *many/20, "hardly any %s was drawn", kind)
	}
}
