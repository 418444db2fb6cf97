package deck_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/deck"
	"chargehand/calc/unit"
)

// The judge below knows only the written rules. It lays every deck there is,
// and packs the pieces of each by putting one after another everywhere it could
// go. Lengths in twentieths of a millimetre.

type tile struct{ l, w int }

func grains(l unit.Length) int { return int(l*20 + 0.5) }

// everyDeck returns the tiles of every way to lay the deck, each set once.
func everyDeck(p deck.Problem) [][]tile {
	sets := map[string][]tile{"": nil}
	regions := append([]deck.Region{{RowLength: p.RowLength, Depth: p.Depth, JoistSpacing: p.JoistSpacing, Lines: p.Lines}}, p.Regions...)
	for _, r := range regions {
		next := map[string][]tile{}
		for _, more := range everyRegion(p, r) {
			for _, have := range sets {
				all := append(append([]tile(nil), have...), more...)
				sort.Slice(all, func(a, b int) bool {
					return all[a].w > all[b].w || all[a].w == all[b].w && all[a].l > all[b].l
				})
				next[fmt.Sprint(all)] = all
			}
		}
		sets = next
	}
	var out [][]tile
	for _, s := range sets {
		out = append(out, s)
	}
	return out
}

func everyRegion(p deck.Problem, r deck.Region) [][]tile {
	var lines []int
	for x := unit.Length(0); x < r.RowLength; x += r.JoistSpacing {
		lines = append(lines, grains(x))
	}
	lines = append(lines, grains(r.RowLength))
	last := len(lines) - 1
	var rows [][]int // every row, by its joints and the far edge
	var lay func(at int, row []int)
	lay = func(at int, row []int) {
		if at == last {
			rows = append(rows, append([]int(nil), row...))
			return
		}
		for to := at + p.MinBays; to <= last; to++ {
			l := lines[to] - lines[at]
			if at > 0 {
				l -= grains(p.EndGap) / 2
			}
			if to < last {
				l -= grains(p.EndGap) / 2
			}
			if l <= grains(p.BoardLength) {
				lay(to, append(row, to))
			}
		}
	}
	lay(0, nil)
	var widths []int
	y := 0
	for ; y+grains(p.BoardWidth) <= grains(r.Depth); y += grains(p.BoardWidth) + grains(p.RowGap) {
		widths = append(widths, grains(p.BoardWidth))
	}
	if y < grains(r.Depth) {
		widths = append(widths, grains(r.Depth)-y)
	}
	var out [][]tile
	seen := map[string]bool{}
	var stack func(y int, before []int, tiles []tile)
	stack = func(y int, before []int, tiles []tile) {
		if y == len(widths) {
			sort.Slice(tiles, func(a, b int) bool {
				return tiles[a].w > tiles[b].w || tiles[a].w == tiles[b].w && tiles[a].l > tiles[b].l
			})
			if key := fmt.Sprint(tiles); !seen[key] {
				seen[key] = true
				out = append(out, tiles)
			}
			return
		}
	rows:
		for _, row := range rows {
			for _, a := range before {
				for _, b := range row {
					if a < last && b < last && max(a-b, b-a) < p.Stagger {
						continue rows
					}
				}
			}
			next := append([]tile(nil), tiles...)
			at := 0
			for _, to := range row {
				l := lines[to] - lines[at]
				if at > 0 {
					l -= grains(p.EndGap) / 2
				}
				if to < last {
					l -= grains(p.EndGap) / 2
				}
				next = append(next, tile{l, widths[y]})
				at = to
			}
			stack(y+1, row, next)
		}
	}
	stack(0, nil, nil)
	return out
}

// fitsBoards says whether so many boards yield the tiles.
func fitsBoards(p deck.Problem, tiles []tile, boards int) bool {
	length, width, kerf := grains(p.BoardLength), grains(p.BoardWidth), grains(p.Kerf)
	type lane struct{ w, used int }
	type board [][]lane // by section
	var all []board
	sectionLength := func(sec []lane) int {
		l := 0
		for _, ln := range sec {
			l = max(l, ln.used)
		}
		return l
	}
	boardLength := func(b board) int {
		l := -kerf
		for _, sec := range b {
			l += sectionLength(sec) + kerf
		}
		return l
	}
	dead := map[string]bool{}
	var place func(i int) bool
	place = func(i int) bool {
		if i == len(tiles) {
			return true
		}
		keys := make([]string, len(all))
		for k, b := range all {
			parts := make([]string, len(b))
			for j, sec := range b {
				ls := append([]lane(nil), sec...)
				sort.Slice(ls, func(x, y int) bool { return ls[x].w < ls[y].w || ls[x].w == ls[y].w && ls[x].used < ls[y].used })
				parts[j] = fmt.Sprint(ls)
			}
			sort.Strings(parts)
			keys[k] = strings.Join(parts, "+")
		}
		sort.Strings(keys)
		key := fmt.Sprint(i, keys)
		if dead[key] {
			return false
		}
		t := tiles[i]
		for k := range all {
			for j := range all[k] {
				sum := -kerf
				for _, ln := range all[k][j] {
					sum += ln.w + kerf
				}
				for m := range all[k][j] {
					if ln := &all[k][j][m]; ln.w == t.w && t.w < width {
						ln.used += kerf + t.l
						if boardLength(all[k]) <= length && place(i+1) {
							return true
						}
						all[k][j][m].used -= kerf + t.l
					}
				}
				if sum+kerf+t.w <= width {
					all[k][j] = append(all[k][j], lane{t.w, t.l})
					if boardLength(all[k]) <= length && place(i+1) {
						return true
					}
					all[k][j] = all[k][j][:len(all[k][j])-1]
				}
			}
			all[k] = append(all[k], []lane{{t.w, t.l}})
			if boardLength(all[k]) <= length && place(i+1) {
				return true
			}
			all[k] = all[k][:len(all[k])-1]
		}
		if len(all) < boards && t.l <= length {
			all = append(all, board{{{t.w, t.l}}})
			if place(i + 1) {
				return true
			}
			all = all[:len(all)-1]
		}
		dead[key] = true
		return false
	}
	return place(0)
}

// fewest returns the fewest boards, then the fewest pieces.
func fewest(p deck.Problem) (boards, pieces int, ok bool) {
	sets := everyDeck(p)
	if len(sets) == 0 {
		return 0, 0, false
	}
	sort.Slice(sets, func(a, b int) bool { return len(sets[a]) < len(sets[b]) })
	var strips []tile
	for _, st := range p.Strips {
		for range st.Count {
			strips = append(strips, tile{grains(st.Length), grains(st.Height)})
		}
	}
	for boards = 1; ; boards++ {
		for _, tiles := range sets {
			area := 0
			all := append(append([]tile(nil), tiles...), strips...)
			for _, t := range all {
				area += t.l * t.w
			}
			if area > boards*grains(p.BoardLength)*grains(p.BoardWidth) {
				continue
			}
			sort.Slice(all, func(a, b int) bool { return all[a].w > all[b].w || all[a].w == all[b].w && all[a].l > all[b].l })
			if fitsBoards(p, all, boards) {
				return boards, len(tiles), true
			}
		}
	}
}

// smallRoof makes up a small deck: invented data.
func smallRoof(r *rand.Rand) deck.Problem {
	spacing := []unit.Length{300, 400, 450, 600}[r.IntN(4)]
	bays := 3 + r.IntN(5)
	p := deck.Problem{
		JoistSpacing: spacing, RowLength: spacing*unit.Length(bays) - unit.Length(r.IntN(3)*70),
		BoardLength: []unit.Length{1800, 2400, 2440}[r.IntN(3)], BoardWidth: []unit.Length{600, 1200, 1220}[r.IntN(3)],
		Kerf: unit.Length(r.IntN(5)), EndGap: unit.Length(r.IntN(4)), RowGap: unit.Length(r.IntN(3)),
		MinBays: 1 + r.IntN(2), Stagger: r.IntN(3),
	}
	rows := 1 + r.IntN(3)
	p.Depth = p.BoardWidth*unit.Length(rows) + p.RowGap*unit.Length(rows-1)
	if r.IntN(2) == 0 {
		p.Depth -= unit.Length(50 * (1 + r.IntN(9)))
	}
	if r.IntN(3) == 0 {
		p.Strips = []deck.Strip{{Length: unit.Length(600 + 100*r.IntN(12)), Height: unit.Length(100 + 50*r.IntN(3)), Count: 1 + r.IntN(2)}}
	}
	if r.IntN(5) == 0 && bays <= 4 {
		p.Regions = []deck.Region{{RowLength: spacing * 3, Depth: p.BoardWidth, JoistSpacing: spacing}}
	}
	return p
}

var roofs = flag.Int("roofs", 220, "small roofs to lay in every way there is")

func TestAgainstExhaustiveSearch(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(2, 9))
	ripped, strips, regions, none := 0, 0, 0, 0
	for range *roofs {
		p := smallRoof(r)
		boards, pieces, ok := fewest(p)
		l, err := deck.Solve(p)
		if !ok {
			var outside *calc.DomainError
			require.ErrorAs(t, err, &outside, "%+v", p)
			none++
			continue
		}
		require.NoError(t, err, "%+v", p)
		require.NoError(t, deck.Check(p, l), "%+v", p)
		require.True(t, l.Proven, "%+v: %d boards, bound %d, judge %d", p, l.Boards, l.Bound, boards)
		require.Equal(t, boards, l.Boards, "%+v", p)
		require.Equal(t, pieces, l.Pieces, "%+v", p)
		if l.Rows[len(l.Rows)-1].Width < p.BoardWidth {
			ripped++
		}
		strips += len(p.Strips)
		regions += len(p.Regions)
	}
	t.Log("ripped", ripped, "with strips", strips, "L-shaped", regions, "impossible", none)
	require.Positive(t, ripped*strips*regions*none, "a kind of roof is missing")
}
