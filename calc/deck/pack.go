package deck

// boardPlan is one board sawn.
type boardPlan struct {
	sections []sectionPlan
	free     int // length left at the end, kerf before it counted
}

type sectionPlan struct {
	length int
	lanes  []lanePlan
	free   int // width left, kerf before it counted
}

type lanePlan struct {
	width int
	parts []size
	free  int // length left, kerf before it counted
}

// pack saws the parts from boards one after another, widest and longest first
// as sizes are sorted: each into the lane, section or board it fills best.
func (s shape) pack(sizes []size, counts []int) []boardPlan {
	var boards []boardPlan
	for i, sz := range sizes {
		for range counts[i] {
			if sz.width == s.width {
				boards = s.placeWhole(boards, sz)
			} else {
				boards = s.placeRipped(boards, sz)
			}
		}
	}
	return boards
}

func (s shape) placeWhole(boards []boardPlan, sz size) []boardPlan {
	b := s.tightest(boards, sz.length)
	if b < 0 {
		boards = append(boards, boardPlan{free: s.board})
		b = len(boards) - 1
	}
	boards[b].sections = append(boards[b].sections, sectionPlan{
		length: sz.length, lanes: []lanePlan{{width: s.width, parts: []size{sz}}},
	})
	boards[b].free -= sz.length + s.kerf
	return boards
}

func (s shape) tightest(boards []boardPlan, length int) int {
	best := -1
	for b := range boards {
		if boards[b].free >= length && (best < 0 || boards[b].free < boards[best].free) {
			best = b
		}
	}
	return best
}

// placeRipped tries a lane of that width, then a new lane in a ripped section,
// then an offcut or a new board, which is then ripped over its whole length.
func (s shape) placeRipped(boards []boardPlan, sz size) []boardPlan {
	var lane *lanePlan
	var section *sectionPlan
	for b := range boards {
		for c := range boards[b].sections {
			sec := &boards[b].sections[c]
			for d := range sec.lanes {
				ln := &sec.lanes[d]
				if ln.width == sz.width && ln.width < s.width && ln.free >= sz.length && (lane == nil || ln.free < lane.free) {
					lane = ln
				}
			}
			if sec.free >= sz.width && sec.length >= sz.length && (section == nil || sec.length < section.length) {
				section = sec
			}
		}
	}
	if lane != nil {
		lane.parts = append(lane.parts, sz)
		lane.free -= sz.length + s.kerf
		return boards
	}
	if section == nil {
		b := s.tightest(boards, sz.length)
		if b < 0 {
			boards = append(boards, boardPlan{free: s.board})
			b = len(boards) - 1
		}
		boards[b].sections = append(boards[b].sections, sectionPlan{length: boards[b].free, free: s.width})
		section = &boards[b].sections[len(boards[b].sections)-1]
		boards[b].free = -s.kerf
	}
	section.lanes = append(section.lanes, lanePlan{width: sz.width, parts: []size{sz}, free: section.length - sz.length - s.kerf})
	section.free -= sz.width + s.kerf
	return boards
}
