package deck

// walker knows the ways to lay the rows of one region: what parts each needs and
// which may lie side by side. A walk is one way for each row.
type walker struct {
	r        region
	ways     []pattern
	complete bool            // ways are all there are
	beside   [][]int32       // by way: those that may lie in the next row
	parts    [2][][]int      // by full or ripped row, by way: the parts it needs
	spanPart [2]map[span]int // by full or ripped row: the part of a span
}

// toGo is the least value of the rows of a region from each row on, by the way
// that row is laid in.
type toGo [][]int64

// rowKind is 0 for a row of full width, 1 for a ripped one.
func (w *walker) rowKind(y int) int {
	if y < w.r.full {
		return 0
	}
	return 1
}

// least works out toGo for the parts' values.
func (w *walker) least(value []int64) (toGo, int64) {
	rows := w.r.rows()
	cost := [2][]int64{make([]int64, len(w.ways)), make([]int64, len(w.ways))}
	work := int64(0)
	for kind := range 2 {
		for i, parts := range w.parts[kind] {
			for _, p := range parts {
				cost[kind][i] += value[p]
			}
		}
	}
	out := make(toGo, rows)
	for y := rows - 1; y >= 0; y-- {
		out[y] = make([]int64, len(w.ways))
		for i := range w.ways {
			out[y][i] = cost[w.rowKind(y)][i]
			if y == rows-1 {
				continue
			}
			best := int64(never)
			for _, j := range w.beside[i] {
				best = min(best, out[y+1][j])
			}
			work += int64(len(w.beside[i]))
			out[y][i] = min(out[y][i]+best, never)
		}
	}
	return out, work
}

// never is the value of what can't be laid.
const never = int64(1) << 60

// cheapest returns the walk of least value and that value.
func (w *walker) cheapest(g toGo) ([]int, int64) {
	var walk []int
	total := never
	for y := range g {
		at, best := -1, never
		if y == 0 {
			for i, v := range g[0] {
				if v < best {
					at, best = i, v
				}
			}
			total = best
		} else {
			for _, i := range w.beside[walk[y-1]] {
				if v := g[y][i]; v < best {
					at, best = int(i), v
				}
			}
		}
		if at < 0 {
			return nil, never
		}
		walk = append(walk, at)
	}
	return walk, total
}

// apartFromNeighbours returns the least value of all rows as if no row had
// neighbours, over every way there is: a bound where the ways are not complete.
func (w *walker) apartFromNeighbours(s shape, value []int64) int64 {
	last := len(w.r.lines) - 1
	total := int64(0)
	for kind, rows := range []int{w.r.full, w.r.rows() - w.r.full} {
		if rows == 0 {
			continue
		}
		from := make([]int64, last+1)
		for i := last - 1; i >= 0; i-- {
			from[i] = never
			for to := i + s.minBays; to <= last; to++ {
				if p, ok := w.spanPart[kind][span{i, to}]; ok {
					from[i] = min(from[i], from[to]+value[p])
				}
			}
		}
		total += int64(rows) * from[0]
	}
	return total
}
