package fixings_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// Counts as the trade writes them out, by hand: see testdata/worked/takeoff.
func TestRunCounts(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		what fixings.What
		run  unit.Length
		want int
	}{
		{fixings.Plate, 5500, 10},           // (5500-300)/600 = 8.67 → 9, and 1
		{fixings.Ledger, 5500, 10},          // the same
		{fixings.Bar, 3200, 17},             // 3100/200 = 15.5 → 16, and 1
		{fixings.Bar, 5400, 28},             // 5300/200 = 26.5 → 27, and 1
		{fixings.Trim, 3000, 11},            // 10 and 1
		{fixings.Trim, 2500, 10},            // 8.33 → 9, and 1
		{fixings.Strap, 5500, 4},            // 2.75 → 3, and 1
		{fixings.Strap, 4000, 3},            // exactly 2 m apart at most
		{fixings.UpstandBoard, 3200, 9},     // 3100/400 = 7.75 → 8, and 1
		{fixings.LeadClip, 4200, 10},        // 8.4 → 9, and 1
		{fixings.LeadClipExposed, 4200, 15}, // 14, and 1
		{fixings.Wedge, 4200, 11},           // 9.33 → 10, and 1
		{fixings.Bracket, 5500, 8},          // 6.875 → 7, and 1
	} {
		row, err := fixings.Run(c.what, c.run)
		require.NoError(t, err)
		assert.Equal(t, c.want, row.Count, "%s %v", c.what, c.run)
	}
}

// The short names are the kinds under their usual rule.
func TestShortNames(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		short func(unit.Length) (fixings.Row, error)
		what  fixings.What
	}{{fixings.PlateAnchors, fixings.Plate}, {fixings.BarScrews, fixings.Bar}, {fixings.Straps, fixings.Strap}} {
		got, err := c.short(5400)
		require.NoError(t, err)
		want, err := fixings.Run(c.what, 5400)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
}

func TestTrimNailsOfTheWorkedEdge(t *testing.T) {
	t.Parallel()
	n, err := fixings.TrimNails([]unit.Length{3000, 2500})
	require.NoError(t, err)
	assert.Equal(t, 21, n) // 11 and 10
}

func TestUpstandPlugsInTwoRowsAbove150(t *testing.T) {
	t.Parallel()
	_, rows, err := fixings.UpstandPlugs(3200, 150)
	require.NoError(t, err)
	assert.Equal(t, 1, rows)
	row, rows, err := fixings.UpstandPlugs(3200, 178)
	require.NoError(t, err)
	assert.Equal(t, 2, rows)
	assert.Equal(t, 9, row.Count)
	_, _, err = fixings.UpstandPlugs(3200, 0)
	assertDomain(t, err, "height_mm")
	_, _, err = fixings.UpstandPlugs(90, 150)
	assertDomain(t, err, "run_mm")
}

var runKinds = []fixings.What{fixings.Plate, fixings.Ledger, fixings.Bar, fixings.Trim, fixings.UpstandBoard,
	fixings.Strap, fixings.LateralStrap, fixings.LeadClip, fixings.LeadClipExposed, fixings.Wedge, fixings.Bracket}

// The promises of Rule.Row, for every kind over whole and broken lengths.
func TestRowShape(t *testing.T) {
	t.Parallel()
	for _, what := range runKinds {
		rule, err := fixings.RuleOf(what)
		require.NoError(t, err)
		last := 0
		for run := 2*float64(rule.First) + 1; run < 12000; run += 37.3 {
			row, err := rule.Row(unit.Length(run))
			require.NoError(t, err)
			require.GreaterOrEqual(t, row.Count, last, "%s %g", what, run)
			require.GreaterOrEqual(t, row.Count, 2)
			last = row.Count
			require.LessOrEqual(t, float64(row.Spacing), float64(rule.Most)+1e-6, "%s %g", what, run)
			marks := row.Marks()
			require.Len(t, marks, row.Count)
			require.InDelta(t, run-float64(row.First), float64(marks[row.Count-1]), 1e-6)
			if rule.Lost == rule.First {
				require.Equal(t, stepped(run, float64(rule.First), float64(rule.Most)), row.Count, "%s %g", what, run)
			}
		}
	}
}

// stepped counts by walking along the run, another way to the same number.
func stepped(run, first, most float64) int {
	n, at, end := 1, first, math.Ceil(run)-first
	for at < end-1e-9 {
		at += most
		n++
	}
	return n
}

func TestRowDomain(t *testing.T) {
	t.Parallel()
	rule, err := fixings.RuleOf(fixings.Plate)
	require.NoError(t, err)
	_, err = rule.Row(300)
	assertDomain(t, err, "run_mm")
	_, err = rule.Row(300.5)
	require.NoError(t, err)
	_, err = rule.Row(50 * unit.Metre)
	require.NoError(t, err)
	_, err = rule.Row(50*unit.Metre + 1)
	assertDomain(t, err, "run_mm")
	_, err = rule.Row(unit.Length(math.NaN()))
	assertDomain(t, err, "run_mm")
	_, err = fixings.Rule{First: 10, Lost: 20, Most: 100}.Row(500)
	assertDomain(t, err, "lost_mm")
	_, err = fixings.Rule{First: -1, Most: 100}.Row(500)
	assertDomain(t, err, "end_mm")
	_, err = fixings.Rule{Most: 9}.Row(500)
	assertDomain(t, err, "max_spacing_mm")
	_, err = fixings.Run("rope", 500)
	assertDomain(t, err, "what")
	_, err = fixings.TrimNails([]unit.Length{3000, 40})
	assertDomain(t, err, "run_mm")
}

func assertDomain(t *testing.T, err error, field string) {
	t.Helper()
	var d *calc.DomainError
	if assert.True(t, errors.As(err, &d), "wanted a domain error, got %v", err) {
		assert.Equal(t, field, d.Field)
		assert.NotEmpty(t, d.Wanted)
	}
}

func FuzzRow(f *testing.F) {
	f.Add(5500.0, 150.0, 150.0, 600.0)
	f.Add(0.0, 0.0, 0.0, 10.0)
	f.Add(math.Inf(1), 1.0, 0.0, 300.0)
	f.Fuzz(func(t *testing.T, run, first, lost, most float64) {
		row, err := fixings.Rule{First: unit.Length(first), Lost: unit.Length(lost), Most: unit.Length(most)}.Row(unit.Length(run))
		if err != nil {
			var d *calc.DomainError
			require.ErrorAs(t, err, &d)
			return
		}
		require.Greater(t, row.Count, 1)
		require.False(t, math.IsNaN(float64(row.Spacing)) || math.IsInf(float64(row.Spacing), 0))
		require.Positive(t, float64(row.Spacing))
	})
}

func BenchmarkRun(b *testing.B) {
	for b.Loop() {
		_, _ = fixings.Run(fixings.Plate, 5500)
	}
}
