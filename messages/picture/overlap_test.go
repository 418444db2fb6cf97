package picture_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"sync"
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
	for name, s := range drawtest.Roofs() {
		apart(t, name, s, picture.Phone, picture.Paper)
	}
	var mu sync.Mutex
	drawn := map[string]int{}
	t.Run("random", func(t *testing.T) {
		const parts = 4
		for part := range parts {
			t.Run(fmt.Sprint(part), func(t *testing.T) {
				t.Parallel()
				for seed := part; seed < *many && !t.Failed(); seed += parts {
					widths := []float64{picture.Phone}
					if seed%5 == 0 {
						widths = append(widths, picture.Paper)
					}
					kinds := apart(t, fmt.Sprintf("roof %d", seed), drawtest.Random(rand.New(rand.NewPCG(uint64(seed), 7))), widths...)
					mu.Lock()
					for _, k := range kinds {
						drawn[k]++
					}
					mu.Unlock()
				}
			})
		}
	})
	for _, kind := range draw.Kinds() {
		require.Greater(t, drawn[kind], *many/20, "hardly any %s was drawn", kind)
	}
}

// apart looks for words on one another in every picture of a roof, and returns
// which there were.
func apart(t *testing.T, name string, s draw.Subject, widths ...float64) []string {
	t.Helper()
	var kinds []string
	say := text.For("en")
	every(t, s, func(kind string, pic talk.Picture) {
		kinds = append(kinds, kind)
		for _, width := range widths {
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
	return kinds
}
