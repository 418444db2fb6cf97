package setout

import (
	"math"

	"chargehand/calc/unit"
)

// ponds floods the grid of tops from the low end: the water level at a point
// is the lowest it can be with a way out, each step of the way no higher than
// the level. It is a shortest path whose length is the highest point on it.
func ponds(tops [][]unit.Length) []Pond {
	level := make([][]float64, len(tops))
	done := make([][]bool, len(tops))
	for i, row := range tops {
		level[i], done[i] = make([]float64, len(row)), make([]bool, len(row))
		for s := range row {
			level[i][s] = math.Inf(1)
		}
		level[i][0] = float64(row[0])
	}
	for {
		i, s := lowest(level, done)
		if i < 0 {
			break
		}
		done[i][s] = true
		for _, n := range [4][2]int{{i - 1, s}, {i + 1, s}, {i, s - 1}, {i, s + 1}} {
			if n[0] < 0 || n[0] >= len(tops) || n[1] < 0 || n[1] >= len(tops[n[0]]) || done[n[0]][n[1]] {
				continue
			}
			through := math.Max(level[i][s], float64(tops[n[0]][n[1]]))
			level[n[0]][n[1]] = math.Min(level[n[0]][n[1]], through)
		}
	}
	var out []Pond
	for i := range tops {
		for s := range tops[i] {
			if depth := level[i][s] - float64(tops[i][s]); depth > 0 {
				out = append(out, Pond{Joist: i, Station: s, Depth: unit.Length(depth)})
			}
		}
	}
	return out
}

// lowest returns the open point with the least level; -1 when none is left.
func lowest(level [][]float64, done [][]bool) (i, s int) {
	i, s = -1, -1
	for a := range level {
		for b := range level[a] {
			if !done[a][b] && (i < 0 || level[a][b] < level[i][s]) {
				i, s = a, b
			}
		}
	}
	return i, s
}
