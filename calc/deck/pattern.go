package deck

// span is a piece from one support line to a later one.
type span struct{ from, to int }

// pattern is one way to lay a row: spans end to end over the whole row.
type pattern struct {
	spans   []span
	joints  lineSet // interior joint lines
	blocked lineSet // lines on which a neighbouring row may have no joint
}

// maxLines is how many support lines a row may have.
const maxLines = 256

type lineSet [maxLines / 64]uint64

func (l *lineSet) add(i int) { l[i/64] |= 1 << (i % 64) }

func (l lineSet) meets(o lineSet) bool {
	for i := range l {
		if l[i]&o[i] != 0 {
			return true
		}
	}
	return false
}

// spanLength returns the length of a piece between two lines of r: half a gap
// is given up at each joint, none at the deck edges.
func (s shape) spanLength(r region, sp span) int {
	l := r.lines[sp.to] - r.lines[sp.from]
	if sp.from > 0 {
		l -= s.endGap / 2
	}
	if sp.to < len(r.lines)-1 {
		l -= s.endGap / 2
	}
	return l
}

// maxPatterns is how many ways to lay a row the search looks at; a row of up to
// some 8 m has fewer. Of a longer row's ways with more pieces it takes a sample,
// every so many of at most maxSampled.
const (
	maxPatterns = 1500
	maxSampled  = 20_000
)

// patterns returns ways to lay a row of r, fewest pieces first, and whether
// they are all there are.
func (s shape) patterns(r region) (ways []pattern, complete bool) {
	last := len(r.lines) - 1
	fewest := s.fewestPieces(r)
	if fewest[0] < 0 {
		return nil, true
	}
	for pieces := fewest[0]; pieces <= last; pieces++ {
		var level []pattern
		all := s.waysOf(r, fewest, pieces, nil, 0, &level)
		if room := maxPatterns - len(ways); !all || len(level) > room {
			for i := range min(room, len(level)) {
				ways = append(ways, level[i*len(level)/min(room, len(level))])
			}
			return ways, false
		}
		ways = append(ways, level...)
	}
	return ways, true
}

// fewestPieces returns for each line the fewest pieces from there to the far
// edge, -1 where it cannot be reached.
func (s shape) fewestPieces(r region) []int {
	last := len(r.lines) - 1
	fewest := make([]int, last+1)
	for from := last - 1; from >= 0; from-- {
		fewest[from] = -1
		for to := from + s.minBays; to <= last; to++ {
			if l := s.spanLength(r, span{from, to}); l <= 0 || l > s.board || fewest[to] < 0 {
				continue
			}
			if fewest[from] < 0 || fewest[to]+1 < fewest[from] {
				fewest[from] = fewest[to] + 1
			}
		}
	}
	return fewest
}

// waysOf appends every way to lay the row from a line on with exactly so many
// pieces. It returns false when there are too many.
func (s shape) waysOf(r region, fewest []int, pieces int, done []span, from int, out *[]pattern) bool {
	last := len(r.lines) - 1
	if from == last {
		if pieces == 0 {
			*out = append(*out, s.pattern(r, done))
		}
		return len(*out) < maxSampled
	}
	for to := from + s.minBays; to <= last; to++ {
		l := s.spanLength(r, span{from, to})
		if l > s.board {
			break
		}
		if l <= 0 || fewest[to] < 0 || fewest[to] > pieces-1 {
			continue
		}
		if !s.waysOf(r, fewest, pieces-1, append(done, span{from, to}), to, out) {
			return false
		}
	}
	return true
}

// pattern notes where the joints of a row are and where they keep the
// neighbours' joints from.
func (s shape) pattern(r region, spans []span) pattern {
	p := pattern{spans: append([]span(nil), spans...)}
	for _, sp := range spans[:len(spans)-1] {
		p.joints.add(sp.to)
		for j := range r.lines {
			lines, x := sp.to-j, r.lines[sp.to]-r.lines[j]
			if max(lines, -lines) < s.stagger || max(x, -x) < s.staggerLength {
				p.blocked.add(j)
			}
		}
	}
	return p
}

// apart says whether two neighbouring rows may be laid so.
func apart(a, b pattern) bool { return !a.blocked.meets(b.joints) }
