package picture

import (
	"cmp"
	"slices"

	"chargehand/flow/talk"
)

// Notes stand in a margin of their own, so they never lie on the drawing or on
// one another: each as near to the height of its thing as the others let it.

// noteWide is the most a margin takes of the page's width.
const noteWide = 0.36

// shelf is the level piece of line at a note.
const shelf = 2.0

// margin is the notes of one side.
type margin struct {
	notes []talk.Note
	sets  []setting
	width float64 // of the texts; 0: no notes
}

func (e *easel) margin(shapes []talk.Shape, left bool, page float64) margin {
	var m margin
	for _, s := range shapes {
		n, ok := s.(talk.Note)
		if !ok || n.Left != left {
			continue
		}
		set := set(e.say.Say(n.Text), float64(talk.Small), false, noteWide*page)
		set.flush = -1
		if left {
			set.flush = 1
		}
		m.notes, m.sets = append(m.notes, n), append(m.sets, set)
		m.width = max(m.width, set.w)
	}
	return m
}

// room is what a margin takes of the width, line and all.
func (m margin) room() float64 {
	if len(m.notes) == 0 {
		return 0
	}
	return m.width + shelf + 5
}

// notes sets the notes of one side down beside what has been drawn.
func (e *easel) notes(m margin, left bool) {
	if len(m.notes) == 0 {
		return
	}
	order := make([]int, len(m.notes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(e.at(m.notes[b].At).y, e.at(m.notes[a].At).y)
	})
	edge := e.seen.max.x + 3 + shelf
	if left {
		edge = e.seen.min.x - 3 - shelf
	}
	// Two lines that would cross change places, until none do.
	for range order {
		swapped := false
		ys := stack(e, m, order)
		for i := 1; i < len(order); i++ {
			a, b := order[i-1], order[i]
			la := line{pt{edge, ys[i-1]}, e.at(m.notes[a].At)}
			lb := line{pt{edge, ys[i]}, e.at(m.notes[b].At)}
			if la.crosses(lb) {
				order[i-1], order[i] = b, a
				swapped = true
				break
			}
		}
		if !swapped {
			break
		}
	}
	for i, y := range stack(e, m, order) {
		n, s := m.notes[order[i]], m.sets[order[i]]
		knee := pt{edge, y}
		end := knee.add(pt{shelf, 0})
		mid := end.add(pt{s.w/2 + 0.8, 0})
		if left {
			end = knee.sub(pt{shelf, 0})
			mid = end.sub(pt{s.w/2 + 0.8, 0})
		}
		at := e.at(n.At)
		e.stroke(talk.Narrow, []pt{end, knee, at}, false)
		e.dot(at)
		e.put(s, s.box(mid, pt{1, 0}), nil)
	}
}

// stack finds heights for notes in order from the top: as near to their things
// as can be, none on another. Neighbours that would overlap are moved together
// by the mean of what each wants.
func stack(e *easel, m margin, order []int) []float64 {
	type group struct {
		want, tall float64 // height of its top note's middle, from there to its last one's
		members    int
	}
	half := func(i int) float64 { return m.sets[order[i]].h/2 + 0.9 }
	var groups []group
	for i, n := range order {
		groups = append(groups, group{want: e.at(m.notes[n].At).y, members: 1})
		for len(groups) > 1 {
			a, b := groups[len(groups)-2], groups[len(groups)-1]
			last := i - b.members // the last note of the group above
			gap := half(last) + half(last+1)
			if a.want-a.tall-b.want >= gap {
				break
			}
			shift := a.tall + gap
			want := (a.want*float64(a.members) + (b.want+shift)*float64(b.members)) / float64(a.members+b.members)
			groups = append(groups[:len(groups)-2], group{want, shift + b.tall, a.members + b.members})
		}
	}
	var ys []float64
	i := 0
	for _, g := range groups {
		y := g.want
		for k := range g.members {
			if k > 0 {
				y -= half(i-1) + half(i)
			}
			ys = append(ys, y)
			i++
		}
	}
	return ys
}
