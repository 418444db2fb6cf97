package timber_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// yard is an invented timber yard.
func yard() timber.Wish {
	w := timber.Wish{
		Joist: timber.Joist{Dead: 0.25 * unit.KilonewtonPerM2},
		Clear: 2850, Grades: []string{"C16", "C24"}, Board: 2400, Gap: 3, Limits: []unit.Length{410, 601},
	}
	for _, h := range timber.MachinedSizes().Depths {
		w.Sections = append(w.Sections, timber.Section{B: 47, H: h})
	}
	return w
}

func TestChooseTakesTheLeastTimber(t *testing.T) {
	t.Parallel()
	c, err := timber.Choose(yard())
	require.NoError(t, err)
	require.GreaterOrEqual(t, c.Best, 0)
	best := c.Options[c.Best]
	assert.Equal(t, calc.Within, best.Status)
	for _, o := range c.Options {
		// Every verdict again, and nothing lighter that is within.
		r, err := timber.Check(timber.Joist{Section: o.Section, Grade: o.Grade, Centres: o.Centres, Dead: 0.25 * unit.KilonewtonPerM2}, 2850)
		require.NoError(t, err)
		assert.Equal(t, r.Utilisation, o.Utilisation)
		assert.Equal(t, r.MaxClear, o.MaxClear)
		if o.Status == calc.Within {
			assert.GreaterOrEqual(t, o.Timber, best.Timber)
		}
	}
}

// Centres follow the board, not the row of a table: board plus gap in equal
// bays (407.2 for a 2440 board, 400.5 for 2400, 600.75 at the wide class).
func TestChooseCentresSuitTheBoard(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		board, limit unit.Length
		want         float64
		bays         int
	}{
		{2440, 410, 2443.0 / 6, 6}, {2400, 410, 400.5, 6}, {2400, 601, 600.75, 4}, {2440, 601, 488.6, 5}, {2440, 400, 349, 7},
	} {
		w := yard()
		w.Board, w.Limits = c.board, []unit.Length{c.limit}
		got, err := timber.Choose(w)
		require.NoError(t, err)
		assert.InDelta(t, c.want, float64(got.Options[0].Centres), 1e-9)
		assert.Equal(t, c.bays, got.Options[0].Bays)
	}
	w := yard()
	w.Board = 0
	got, err := timber.Choose(w)
	require.NoError(t, err)
	assert.Zero(t, got.Options[0].Bays)
}

func TestChooseShowsOneChangeAtATime(t *testing.T) {
	t.Parallel()
	w := yard()
	for _, h := range timber.MachinedSizes().Depths {
		w.Sections = append(w.Sections, timber.Section{B: 63, H: h})
	}
	c, err := timber.Choose(w)
	require.NoError(t, err)
	best := c.Options[c.Best]
	seen := map[string]bool{}
	for _, ch := range c.Changes {
		o := c.Options[ch.Option]
		seen[ch.What] = true
		assert.Equal(t, ch.What == "depth", o.Section.H != best.Section.H)
		assert.Equal(t, ch.What == "width", o.Section.B != best.Section.B)
		assert.Equal(t, ch.What == "grade", o.Grade != best.Grade)
		assert.Equal(t, ch.What == "centres", o.Centres != best.Centres)
	}
	for _, what := range []string{"depth", "width", "grade", "centres"} {
		assert.True(t, seen[what], what)
	}
}

func TestChooseMoreStockNeverHeavier(t *testing.T) {
	t.Parallel()
	w := yard()
	few := w
	few.Sections, few.Grades = w.Sections[3:5], []string{"C16"}
	a, err := timber.Choose(few)
	require.NoError(t, err)
	b, err := timber.Choose(w)
	require.NoError(t, err)
	assert.LessOrEqual(t, b.Options[b.Best].Timber, a.Options[a.Best].Timber)
}

func TestChooseWhenNothingReaches(t *testing.T) {
	t.Parallel()
	w := yard()
	w.Sections = []timber.Section{{B: 47, H: 97}}
	w.Clear = 4000
	c, err := timber.Choose(w)
	require.NoError(t, err)
	assert.Equal(t, -1, c.Best)
	assert.Empty(t, c.Changes)
	for _, o := range c.Options {
		assert.Equal(t, calc.Over, o.Status)
	}
}

func TestChooseDomain(t *testing.T) {
	t.Parallel()
	var d *calc.DomainError
	for field, spoil := range map[string]func(*timber.Wish){
		"board_length_mm": func(w *timber.Wish) { w.Board = 200 },
		"joint_gap_mm":    func(w *timber.Wish) { w.Gap = 25 },
		"max_centres_mm":  func(w *timber.Wish) { w.Limits = []unit.Length{0} },
		"options":         func(w *timber.Wish) { w.Grades = nil },
		"clear_span_mm":   func(w *timber.Wish) { w.Clear = 150 },
		"grade":           func(w *timber.Wish) { w.Grades = []string{"oak"} },
	} {
		w := yard()
		spoil(&w)
		_, err := timber.Choose(w)
		require.ErrorAs(t, err, &d, field)
		assert.Equal(t, field, d.Field)
	}
}

func TestReckonChoose(t *testing.T) {
	t.Parallel()
	board, drift, length := 2400.0, 2.6, 5.0e3
	out, err := timber.ReckonChoose(timber.ChooseIn{ClearMM: 2850, DeadKNM2: 0.25, BoardMM: &board})
	require.NoError(t, err)
	require.True(t, out.Found)
	c, err := timber.Choose(yard())
	require.NoError(t, err)
	want := c.Options[c.Best]
	assert.Equal(t, float64(want.Section.H), out.Best.HMM)
	assert.Equal(t, float64(want.Centres), out.Best.CentresMM)
	assert.Len(t, out.Options, len(c.Options))

	// A drift asks for more.
	more, err := timber.ReckonChoose(timber.ChooseIn{ClearMM: 2850, DeadKNM2: 0.25, BoardMM: &board, DriftKNM2: &drift, DriftLengthMM: &length})
	require.NoError(t, err)
	require.True(t, more.Found)
	assert.Greater(t, more.Best.TimberLM2, out.Best.TimberLM2)
	zero := 0.0
	_, err = timber.ReckonChoose(timber.ChooseIn{ClearMM: 2850, DeadKNM2: 0.25, BoardMM: &zero})
	assert.Error(t, err)
}
