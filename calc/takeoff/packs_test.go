package takeoff_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/takeoff"
)

func tins(sizes ...float64) []takeoff.PackSize {
	list := make([]takeoff.PackSize, len(sizes))
	for i, s := range sizes {
		list[i].Size = s
	}
	return list
}

func priced(pairs ...float64) []takeoff.PackSize {
	list := make([]takeoff.PackSize, len(pairs)/2)
	for i := range list {
		list[i] = takeoff.PackSize{Size: pairs[2*i], Price: ptr(takeoff.Money(pairs[2*i+1]))}
	}
	return list
}

// 456 screws with the outer long edges: 502 with waste, so 500 is short.
func TestPacksOfScrews(t *testing.T) {
	t.Parallel()
	p, err := takeoff.Packs(456, 46, tins(200, 500))
	require.NoError(t, err)
	assert.Equal(t, []takeoff.Pack{{Size: 500, Count: 1}, {Size: 200, Count: 1}}, p.Packs)
	assert.InDelta(t, 198, p.LeftOver, 1e-9)
}

func TestPacksByPrice(t *testing.T) {
	t.Parallel()
	// Invented prices. 3.76 l: four of 1 l are 4 · 9 = 36, 2.5 + 1 + 1 are 38, one
	// of 5 l is 33: the cheapest wins though more stays over.
	p, err := takeoff.Packs(3.27, 0.49, priced(1, 900, 2.5, 2000, 5, 3300))
	require.NoError(t, err)
	assert.Equal(t, []takeoff.Pack{{Size: 5, Count: 1}}, p.Packs)
	assert.Equal(t, takeoff.Money(3300), *p.Cost)
	// With the 5 l dearer, four small ones are the cheapest.
	p, err = takeoff.Packs(3.27, 0.49, priced(1, 900, 2.5, 2000, 5, 4000))
	require.NoError(t, err)
	assert.Equal(t, []takeoff.Pack{{Size: 1, Count: 4}}, p.Packs)
	// One price missing: prices do not choose, and there is a cost only if every
	// pack bought has one.
	shelf := priced(1, 900, 2.5, 2000, 5, 1)
	shelf[2].Price = nil
	p, err = takeoff.Packs(3.27, 0.49, shelf)
	require.NoError(t, err)
	assert.Equal(t, []takeoff.Pack{{Size: 2.5, Count: 1}, {Size: 1, Count: 2}}, p.Packs)
	assert.Equal(t, takeoff.Money(3800), *p.Cost)
	shelf[1].Price = nil
	p, err = takeoff.Packs(3.27, 0.49, shelf)
	require.NoError(t, err)
	assert.Nil(t, p.Cost)
	// Of two shops' prices for one size, the lower.
	p, err = takeoff.Packs(1, 0, priced(1, 900, 1, 700))
	require.NoError(t, err)
	assert.Equal(t, takeoff.Money(700), *p.Cost)
}

// A joint is never bought off by a price.
func TestFewestBeforePrice(t *testing.T) {
	t.Parallel()
	p, err := takeoff.Fewest.Packs(5.5, 0, priced(3, 100, 6, 100000, 5, 90))
	require.NoError(t, err)
	assert.Equal(t, []takeoff.Pack{{Size: 6, Count: 1}}, p.Packs)
	p, err = takeoff.Fewest.Packs(5.5, 0, priced(3, 100, 2.5, 400, 5, 90))
	require.NoError(t, err)
	assert.Equal(t, []takeoff.Pack{{Size: 5, Count: 2}}, p.Packs) // two pieces either way, 180 the cheapest
}

func TestFlags(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		need           float64
		tight, surplus bool
	}{{10, true, false}, {9.51, true, false}, {9.5, false, false}, {4, false, false}, {3.99, false, true}} {
		p, err := takeoff.Packs(c.need, 0, tins(10))
		require.NoError(t, err)
		assert.Equal(t, c.tight, p.Tight(), "%g", c.need)
		assert.Equal(t, c.surplus, p.Surplus(), "%g", c.need)
	}
}

// choice is one way to buy, found by trying every count.
type choice struct {
	total, price int
	packs        int
}

// all tries every combination with no pack to spare from the whole.
func all(need int, sizes, prices []int) []choice {
	var found []choice
	var walk func(i int, c choice)
	walk = func(i int, c choice) {
		if i == len(sizes) {
			if c.total >= need {
				found = append(found, c)
			}
			return
		}
		for n := 0; n*sizes[i] < need+sizes[i]; n++ {
			walk(i+1, choice{c.total + n*sizes[i], c.price + n*prices[i], c.packs + n})
		}
	}
	walk(0, choice{})
	return found
}

// tinsAll is the choices in which the packs below any size add up to less.
func tinsAll(need int, sizes []int) []choice {
	var found []choice
	counts := make([]int, len(sizes))
	var walk func(i int)
	walk = func(i int) {
		if i < len(sizes) {
			for n := 0; n*sizes[i] < need+sizes[i]; n++ {
				counts[i] = n
				walk(i + 1)
			}
			counts[i] = 0
			return
		}
		c := choice{}
		for j, n := range counts {
			c.total += n * sizes[j]
			c.packs += n
			below := 0
			for k := range sizes {
				if sizes[k] < sizes[j] {
					below += counts[k] * sizes[k]
				}
			}
			if below >= sizes[j] {
				return
			}
		}
		if c.total >= need {
			found = append(found, c)
		}
	}
	walk(0)
	return found
}

func best(list []choice, less ...func(choice) int) choice {
	slices.SortFunc(list, func(a, b choice) int {
		for _, by := range less {
			if d := by(a) - by(b); d != 0 {
				return d
			}
		}
		return 0
	})
	return list[0]
}

// Every manner against trying all combinations.
func TestPacksAgainstTryingAll(t *testing.T) {
	t.Parallel()
	total, price, packs := func(c choice) int { return c.total }, func(c choice) int { return c.price }, func(c choice) int { return c.packs }
	rng := rand.New(rand.NewPCG(1, 2))
	for range 400 {
		n := 1 + rng.IntN(3)
		var sizes, prices []int
		for len(sizes) < n {
			if s := 1 + rng.IntN(20); !slices.Contains(sizes, s) {
				sizes, prices = append(sizes, s), append(prices, 1+rng.IntN(50))
			}
		}
		need := 1 + rng.IntN(60)
		var plain, dear []takeoff.PackSize
		for i := range sizes {
			plain = append(plain, takeoff.PackSize{Size: float64(sizes[i])})
			dear = append(dear, takeoff.PackSize{Size: float64(sizes[i]), Price: ptr(takeoff.Money(prices[i]))})
		}
		for _, c := range []struct {
			name   string
			manner takeoff.Manner
			sizes  []takeoff.PackSize
			want   choice
		}{
			{"tins", takeoff.Tins, plain, best(tinsAll(need, sizes), total, packs)},
			{"timbers", takeoff.Timbers, plain, best(all(need, sizes, prices), total, packs)},
			{"fewest", takeoff.Fewest, plain, best(all(need, sizes, prices), packs, total)},
			{"by price", takeoff.Tins, dear, best(all(need, sizes, prices), price, total, packs)},
			{"timbers by price", takeoff.Timbers, dear, best(all(need, sizes, prices), price, total, packs)},
			{"fewest by price", takeoff.Fewest, dear, best(all(need, sizes, prices), packs, price, total)},
		} {
			p, err := c.manner.Packs(float64(need), 0, c.sizes)
			require.NoError(t, err)
			got := 0
			for _, pack := range p.Packs {
				got += pack.Count
			}
			require.Equal(t, float64(c.want.total), p.ToBuy, "%s need %d of %v at %v", c.name, need, sizes, prices)
			require.Equal(t, c.want.packs, got, "%s need %d of %v at %v", c.name, need, sizes, prices)
			if p.Cost != nil {
				require.Equal(t, takeoff.Money(c.want.price), *p.Cost, c.name)
			}
			backwards := slices.Clone(c.sizes)
			slices.Reverse(backwards)
			q, err := c.manner.Packs(float64(need), 0, backwards)
			require.NoError(t, err)
			require.Equal(t, p, q, "order of sizes changed the choice")
		}
	}
}

func TestPacksDomain(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		need, waste float64
		sizes       []takeoff.PackSize
		field       string
	}{
		{-1, 0, tins(1), "needed"},
		{math.NaN(), 0, tins(1), "needed"},
		{1e6 + 1, 0, tins(1), "needed"},
		{1, -1, tins(1), "waste"},
		{1e6, 1, tins(1), "waste"},
		{1, 0, nil, "sizes"},
		{1, 0, tins(make([]float64, 13)...), "sizes"},
		{1, 0, tins(0), "size"},
		{1, 0, tins(math.Inf(1)), "size"},
		{1, 0, priced(1, -1), "price"},
		{1, 0, priced(1, 1e9), "price"},
		{1e6, 0, priced(0.001, 1), "sizes"},
	} {
		_, err := takeoff.Packs(c.need, c.waste, c.sizes)
		assertDomain(t, err, c.field)
	}
	p, err := takeoff.Packs(0, 0, tins(1))
	require.NoError(t, err)
	assert.Empty(t, p.Packs)
	p, err = takeoff.Packs(0, 0, priced(1, 100))
	require.NoError(t, err)
	assert.Zero(t, *p.Cost)
}

func assertDomain(t *testing.T, err error, field string) {
	t.Helper()
	var d *calc.DomainError
	if assert.True(t, errors.As(err, &d), "wanted a domain error for %s, got %v", field, err) {
		assert.Equal(t, field, d.Field)
		assert.NotEmpty(t, d.Wanted)
	}
}

func FuzzPacks(f *testing.F) {
	f.Add(4.507, 0.451, 2.5, 5.0, int64(-1), int64(-1), uint8(0))
	f.Add(16.8, 0.0, 2.5, 3.0, int64(1200), int64(1500), uint8(2))
	f.Add(0.0, 0.0, 0.001, 1e6, int64(0), int64(0), uint8(1))
	f.Fuzz(func(t *testing.T, need, waste, a, b float64, pa, pb int64, manner uint8) {
		sizes := tins(a, b)
		if pa >= 0 {
			sizes[0].Price = ptr(takeoff.Money(pa))
		}
		if pb >= 0 {
			sizes[1].Price = ptr(takeoff.Money(pb))
		}
		p, err := takeoff.Manner(manner%3).Packs(need, waste, sizes)
		if err != nil {
			var d *calc.DomainError
			require.ErrorAs(t, err, &d)
			return
		}
		total := 0.0
		for _, pack := range p.Packs {
			require.Positive(t, pack.Count)
			total += pack.Size * float64(pack.Count)
		}
		require.InDelta(t, total, p.ToBuy, 1e-6*(1+total))
		require.GreaterOrEqual(t, p.ToBuy, need+waste-1e-6)
		require.GreaterOrEqual(t, p.LeftOver, 0.0)
		require.False(t, math.IsNaN(p.LeftOver) || math.IsInf(p.ToBuy, 0))
	})
}

func BenchmarkPacks(b *testing.B) {
	for b.Loop() {
		_, _ = takeoff.Packs(4.93, 0.493, tins(2.5, 5, 10, 15))
	}
}

func BenchmarkPacksByPrice(b *testing.B) {
	shelf := priced(2.5, 2400, 5, 4100, 10, 7500, 15, 10900)
	for b.Loop() {
		_, _ = takeoff.Packs(4.93, 0.493, shelf)
	}
}
