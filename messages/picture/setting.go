package picture

import (
	"math"
	"strings"

	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// leading is from one line of letters to the next, in heights of a capital.
const leading = 1.75

// setting is a text measured but not placed.
type setting struct {
	lines []string
	size  float64
	bold  bool
	flush float64
	w, h  float64
}

func face(bold bool) *letters {
	if bold {
		return typefaces()[1]
	}
	return typefaces()[0]
}

// set measures a text; one wider than most is broken between words.
func set(s string, size float64, bold bool, most float64) setting {
	f := face(bold)
	out := setting{size: size, bold: bold}
	line := ""
	for word := range strings.FieldsSeq(s) {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && most > 0 && f.width(longer, size) > most {
			out.lines = append(out.lines, line)
			longer = word
		}
		line = longer
	}
	out.lines = append(out.lines, line)
	for _, l := range out.lines {
		out.w = max(out.w, f.width(l, size))
	}
	out.h = size * (1 + leading*float64(len(out.lines)-1))
	if strings.ContainsAny(out.lines[len(out.lines)-1], "gjpqyQ,;()") {
		out.h += 2 * f.drop * f.size(size) // the box stays centred on the capitals
	}
	return out
}

func sizeOf(s unit.Length) float64 {
	if s == 0 {
		s = talk.Small
	}
	return float64(s)
}

func (s setting) box(mid, dir pt) box { return box{mid: mid, hw: s.w / 2, hh: s.h / 2, dir: dir} }

// readable turns a direction so that its text reads from below or from the
// right. Source: ISO 129.
func readable(dir pt) pt {
	if dir.x < -1e-6 || math.Abs(dir.x) <= 1e-6 && dir.y < 0 {
		return dir.by(-1)
	}
	return dir
}

// off is from a word's place to its middle.
func (s setting) off(a talk.Anchor, dir pt) pt {
	switch a {
	case talk.Above:
		return dir.left().by(s.h/2 + besidePoint)
	case talk.Below:
		return dir.left().by(-s.h/2 - besidePoint)
	case talk.LeftOf:
		return dir.by(-s.w/2 - besidePoint)
	case talk.RightOf:
		return dir.by(s.w/2 + besidePoint)
	}
	return pt{}
}

// apart is a text's box with the room that keeps it from its neighbours: two
// figures on one line must not read as one.
func (b box) apart() box {
	b.hw += apartBeside
	b.hh += apart
	return b
}
