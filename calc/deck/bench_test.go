package deck_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc/deck"
)

// BenchmarkGarage prints time, boards and work for decks of garage size.
func BenchmarkGarage(b *testing.B) {
	small, double, grooved, el := garage(), garage(), garage(), garage()
	small.RowLength, small.Depth = 5500, 2900
	double.RowLength, double.Depth = 6000, 6000
	grooved.RowLength, grooved.Depth, grooved.BoardWidth = 6000, 6100, 600
	grooved.Strips = []deck.Strip{{Length: 1800, Height: 150, Count: 3}, {Length: 1100, Height: 150, Count: 4}}
	el.Regions = []deck.Region{{RowLength: 3300, Depth: 2600, JoistSpacing: 400}}
	for name, p := range map[string]deck.Problem{"5.5x2.9": small, "6x6": double, "6x6.1 in 600s with strips": grooved, "L": el} {
		b.Run(name, func(b *testing.B) {
			var l deck.Layout
			for b.Loop() {
				var err error
				l, err = deck.Solve(p)
				require.NoError(b, err)
			}
			b.ReportMetric(float64(l.Boards), "boards")
			b.ReportMetric(float64(l.Boards-l.Bound), "unproven")
			b.ReportMetric(float64(l.Work), "work")
		})
	}
}
