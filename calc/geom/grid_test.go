package geom_test

import (
	"math/rand/v2"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/require"
)

// grid is a roof made of cells: an independent truth for everything that is
// asked of a right-angled outline, since each answer can be counted off.
type grid struct {
	cells [][]bool      // [row][column], row 0 lowest
	xs    []unit.Length // column lines, len columns+1, from 0
	ys    []unit.Length
}

const gridSide = 6

// randomGrid grows one connected roof without holes and without cells that
// touch in a corner only.
func randomGrid(r *rand.Rand) grid {
	for {
		g := grid{xs: lines(r), ys: lines(r), cells: make([][]bool, gridSide)}
		for i := range g.cells {
			g.cells[i] = make([]bool, gridSide)
		}
		g.cells[r.IntN(gridSide)][r.IntN(gridSide)] = true
		for range 4 + r.IntN(60) {
			y, x := r.IntN(gridSide), r.IntN(gridSide)
			if g.at(y-1, x) || g.at(y+1, x) || g.at(y, x-1) || g.at(y, x+1) {
				g.cells[y][x] = true
			}
		}
		if g.whole() {
			return g
		}
	}
}

func lines(r *rand.Rand) []unit.Length {
	at := []unit.Length{0}
	for range gridSide {
		at = append(at, at[len(at)-1]+unit.Length(60+r.IntN(1500)))
	}
	return at
}

func (g grid) at(y, x int) bool {
	return y >= 0 && y < gridSide && x >= 0 && x < gridSide && g.cells[y][x]
}

// whole reports that no two cells touch in a corner only and that the outside
// is one region, so that the roof has no hole.
func (g grid) whole() bool {
	for y := -1; y < gridSide; y++ {
		for x := -1; x < gridSide; x++ {
			a, b, c, d := g.at(y, x), g.at(y, x+1), g.at(y+1, x), g.at(y+1, x+1)
			if a == d && b == c && a != b {
				return false
			}
		}
	}
	seen := map[[2]int]bool{}
	var flood func(y, x int)
	flood = func(y, x int) {
		if y < -1 || y > gridSide || x < -1 || x > gridSide || g.at(y, x) || seen[[2]int{y, x}] {
			return
		}
		seen[[2]int{y, x}] = true
		flood(y-1, x)
		flood(y+1, x)
		flood(y, x-1)
		flood(y, x+1)
	}
	flood(-1, -1)
	covered := 0
	for y := range gridSide {
		for x := range gridSide {
			if g.at(y, x) {
				covered++
			}
		}
	}
	return len(seen)+covered == (gridSide+2)*(gridSide+2)
}

// steps walks round the cells clockwise, from the right end of a lowest edge,
// and returns the grid point of the gutter's left end beside the steps.
func (g grid) steps(r *rand.Rand) (steps []geom.Step, left [2]int) {
	y0 := 0
	for !anyOf(g.cells[y0]) {
		y0++
	}
	x0 := gridSide
	for !g.at(y0, x0-1) {
		x0--
	}
	// Unit moves along the boundary, the roof at the right hand.
	type move struct{ dy, dx int }
	var moves []move
	y, x, m := y0, x0, move{0, -1}
	for {
		moves = append(moves, m)
		y, x = y+m.dy, x+m.dx
		if y == y0 && x == x0 {
			break
		}
		for _, next := range []move{{-m.dx, m.dy}, m, {m.dx, -m.dy}} { // right, straight, left
			// the cell to the right of the next move must be roof, to the left not
			if g.sideOf(y, x, next.dy, next.dx, true) && !g.sideOf(y, x, next.dy, next.dx, false) {
				m = next
				break
			}
		}
	}
	kinds := geom.Kinds()
	y, x = y0, x0
	for i := 0; i < len(moves); {
		m := moves[i]
		var l unit.Length
		for i < len(moves) && moves[i] == m {
			l += g.span(y, x, m.dy, m.dx)
			y, x = y+m.dy, x+m.dx
			i++
		}
		turn := geom.Right
		if next := moves[i%len(moves)]; m.dy*next.dx-m.dx*next.dy < 0 {
			turn = geom.Left
		}
		if len(steps) == 0 {
			left = [2]int{y, x}
		}
		steps = append(steps, geom.Step{Length: l, Turn: turn, Kind: kinds[r.IntN(len(kinds))]})
	}
	return steps, left
}

// sideOf reports whether the cell to the right (or left) of a unit move from
// grid point (y, x) is roof.
func (g grid) sideOf(y, x, dy, dx int, right bool) bool {
	switch {
	case dx == -1: // heading left: right hand is up
		if right {
			return g.at(y, x-1)
		}
		return g.at(y-1, x-1)
	case dx == 1:
		if right {
			return g.at(y-1, x)
		}
		return g.at(y, x)
	case dy == 1: // heading up: right hand is +x
		if right {
			return g.at(y, x)
		}
		return g.at(y, x-1)
	}
	if right {
		return g.at(y-1, x-1)
	}
	return g.at(y-1, x)
}

func (g grid) span(y, x, dy, dx int) unit.Length {
	switch {
	case dx == -1:
		return g.xs[x] - g.xs[x-1]
	case dx == 1:
		return g.xs[x+1] - g.xs[x]
	case dy == 1:
		return g.ys[y+1] - g.ys[y]
	}
	return g.ys[y] - g.ys[y-1]
}

func (g grid) area() float64 {
	sum := 0.0
	for y := range gridSide {
		for x := range gridSide {
			if g.at(y, x) {
				sum += float64((g.ys[y+1] - g.ys[y]).By(g.xs[x+1] - g.xs[x]))
			}
		}
	}
	return sum
}

func anyOf(row []bool) bool {
	for _, c := range row {
		if c {
			return true
		}
	}
	return false
}

// walked returns the outline of g, and g moved so that its origin is the
// outline's.
func (g grid) walked(t testing.TB, r *rand.Rand) (geom.Walked, grid) {
	t.Helper()
	steps, left := g.steps(r)
	w, err := geom.Walk(steps)
	require.NoError(t, err, "%v", steps)
	x0, y0 := g.xs[left[1]], g.ys[left[0]]
	moved := grid{cells: g.cells}
	for _, x := range g.xs {
		moved.xs = append(moved.xs, x-x0)
	}
	for _, y := range g.ys {
		moved.ys = append(moved.ys, y-y0)
	}
	return w, moved
}
