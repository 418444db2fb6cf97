package cut_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// siteProblem makes up a small cutting list: invented data.
func siteProblem(r *rand.Rand, kinds, pieces, stocks int) cut.Problem {
	lengths := []unit.Length{1500, 1800, 2100, 2400, 2700, 3000, 3600, 4200, 4800, 5400, 6000}
	p := cut.Problem{Kerf: unit.Length(r.IntN(6)), Trim: unit.Length(5 * r.IntN(3))}
	longest := unit.Length(0)
	for i := range stocks {
		s := cut.Stock{Length: lengths[r.IntN(len(lengths))], Available: cut.Unlimited}
		s.Cost = int64(float64(s.Length) / 40 * (0.85 + 0.3*r.Float64()))
		if i > 0 && r.IntN(4) == 0 { // a leftover on site
			s.Cost, s.Available = int64(r.IntN(2))*s.Cost, 1+r.IntN(3)
		} else {
			longest = max(longest, s.Length)
		}
		p.Stocks = append(p.Stocks, s)
	}
	for range kinds {
		span := int(longest-p.Trim) - 300
		p.Pieces = append(p.Pieces, cut.Piece{Length: unit.Length(300 + r.IntN(span)), Count: 1})
	}
	for n := kinds; n < pieces; n++ {
		p.Pieces[r.IntN(kinds)].Count++
	}
	return p
}

// exhaustive returns the least cost by looking at every set of pieces for every
// bar: slow, short, and nothing like the search it judges. +Inf if the stock
// does not suffice.
func exhaustive(p cut.Problem) float64 {
	memo := map[string]float64{}
	left := make([]int, len(p.Pieces))
	for i, pc := range p.Pieces {
		left[i] = pc.Count
	}
	stock := make([]int, len(p.Stocks))
	for k, s := range p.Stocks {
		stock[k] = s.Available
	}
	var best func() float64
	best = func() float64 {
		key := ""
		first := -1
		for i, n := range left {
			key += string(rune(n)) + ","
			if n > 0 && first < 0 {
				first = i
			}
		}
		for _, n := range stock {
			key += string(rune(n+1)) + ";"
		}
		if first < 0 {
			return 0
		}
		if v, ok := memo[key]; ok {
			return v
		}
		least := math.Inf(1)
		for k := range p.Stocks {
			if stock[k] == 0 {
				continue
			}
			stock[k] -= min(1, stock[k]+1)
			var fill func(i int, room unit.Length)
			fill = func(i int, room unit.Length) {
				if i == len(left) {
					least = min(least, float64(p.Stocks[k].Cost)+best())
					return
				}
				fill(i+1, room)
				taken := 0
				for left[i] > 0 && room >= p.Pieces[i].Length {
					left[i]--
					taken++
					room -= p.Pieces[i].Length + p.Kerf
					fill(i+1, room)
				}
				left[i] += taken
			}
			if room := p.Stocks[k].Length - p.Trim; room >= p.Pieces[first].Length {
				left[first]--
				fill(first, room-p.Pieces[first].Length-p.Kerf)
				left[first]++
			}
			if p.Stocks[k].Available != cut.Unlimited {
				stock[k]++
			}
		}
		memo[key] = least
		return least
	}
	return best()
}

func TestAgainstExhaustiveSearch(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(7, 11))
	short := 0
	for range 400 {
		kinds := 1 + r.IntN(5)
		p := siteProblem(r, kinds, kinds+r.IntN(8), 1+r.IntN(4))
		if r.IntN(8) == 0 { // nothing but what is on site
			for i := range p.Stocks {
				p.Stocks[i].Available = 1 + r.IntN(4)
			}
		}
		want := exhaustive(p)
		l, err := cut.Solve(p)
		if math.IsInf(want, 1) {
			var outside *calc.DomainError
			require.ErrorAs(t, err, &outside, "%+v", p)
			short++
			continue
		}
		require.NoError(t, err, "%+v", p)
		require.NoError(t, cut.Check(p, l), "%+v", p)
		require.True(t, l.Proven, "%+v", p)
		require.Equal(t, want, float64(l.Cost), "%+v", p)
	}
	require.Positive(t, short, "no case ran out of stock")
}
