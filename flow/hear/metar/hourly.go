package metar

import (
	"strings"

	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Hourly reads hours pasted from a forecast, one a line, in minutes after the
// midnight before the first line. A time earlier than the one above it belongs
// to the next day.
//
// A line begins with its time. Then numbers with units ("14°C 70% 10mph gust
// 18mph 0.2mm"), a word before a number naming what it is; or, under a head
// line that names the columns ("time temp rh wind (mph) rain"), bare numbers in
// their order. Cells are parted by tabs, semicolons or bars where there are any,
// else by commas where there are no spaces, else by spaces.
//
// Errors: *Refusal only.
func Hourly(text string, words Words) (weather.Course, error) {
	if len(text) > mostBytes {
		return nil, &Refusal{Key: TooLong, Heard: head(text[:200]), Example: hourlyExample}
	}
	lines := strings.Split(text, "\n")
	if len(lines) > mostLines {
		return nil, &Refusal{Key: TooLong, Heard: head(text[:200]), Example: hourlyExample}
	}
	var course weather.Course
	var columns []heading
	for i, line := range lines {
		cells := split(line)
		if len(cells) == 0 {
			continue
		}
		if len(course) == 0 && columns == nil {
			if columns = readHead(cells, words); columns != nil {
				continue
			}
		}
		h, refusal := readLine(cells, columns, words)
		if refusal == nil {
			refusal = follow(course, &h, cells[0])
		}
		if refusal != nil {
			refusal.Line, refusal.Example = i+1, hourlyExample
			return nil, refusal
		}
		course = append(course, h)
	}
	if len(course) == 0 {
		return nil, &Refusal{Key: Empty, Heard: head(text), Example: hourlyExample}
	}
	return course, nil
}

// follow puts an hour after those before it and refuses an empty one.
func follow(course weather.Course, h *weather.Hour, clock string) *Refusal {
	if n := len(course); n > 0 {
		before := course[n-1].Minute
		for h.Minute < before {
			h.Minute += 24 * unit.Hour
		}
		if h.Minute == before {
			return &Refusal{Key: TimeRepeated, Heard: clock}
		}
		if h.Minute-course[0].Minute > 7*24*unit.Hour {
			return &Refusal{Key: TooLong, Heard: clock}
		}
	}
	if *h == (weather.Hour{Minute: h.Minute}) {
		return &Refusal{Key: NoValues, Heard: clock}
	}
	return nil
}

// split parts a line into cells, without empty ones at its ends.
func split(line string) []string {
	line = strings.TrimSpace(line)
	if line == "" {
		return nil
	}
	parts := strings.FieldsFunc(line, func(r rune) bool { return r == '\t' || r == ';' || r == '|' })
	switch {
	case len(parts) > 1:
	case !strings.ContainsAny(line, " \u00a0") && strings.Count(line, ",") > 1:
		parts = strings.Split(line, ",")
	default:
		parts = strings.Fields(line)
	}
	var cells []string
	for _, p := range parts {
		if p = strings.TrimSuffix(strings.TrimSpace(p), ","); p != "" {
			cells = append(cells, p)
		}
	}
	return cells
}

// heading is one column under a head.
type heading struct {
	column Column
	unit   string
}

// readHead reads a line of column names; nil when it is none. A unit in brackets
// belongs to the name before it.
func readHead(cells []string, words Words) []heading {
	if _, ok := readClock(cells[0], false); ok {
		return nil
	}
	var out []heading
	for _, cell := range cells {
		column, unitGiven, ok := readName(cell, words)
		switch {
		case !ok:
			return nil
		case column == "" && len(out) > 0:
			out[len(out)-1].unit = unitGiven
		case column == "":
			return nil
		default:
			out = append(out, heading{column, unitGiven})
		}
	}
	if out[0].column != Time {
		return nil
	}
	return out
}

// readName reads one cell of a head: words, a unit in brackets, or both. Two
// words in one cell name the stronger of the two.
func readName(s string, words Words) (column Column, unitGiven string, ok bool) {
	for _, w := range strings.Fields(strings.ReplaceAll(strings.ToLower(s), "(", " (")) {
		if inner, bracket := strings.CutPrefix(w, "("); bracket {
			inner = strings.TrimSuffix(inner, ")")
			if _, known := unitOf[inner]; !known {
				return "", "", false
			}
			unitGiven = inner
			continue
		}
		c, known := words[strings.TrimSuffix(w, ".")]
		if !known {
			return "", "", false
		}
		if column == "" || strength[c] > strength[column] {
			column = c
		}
	}
	return column, unitGiven, true
}

// readLine reads one hour. With a head each cell stands in its column; without,
// each number says by its unit what it is, and a word names the number after it.
func readLine(cells []string, columns []heading, words Words) (weather.Hour, *Refusal) {
	if columns != nil {
		return readColumns(cells, columns)
	}
	minute, ok := readClock(cells[0], false)
	if !ok {
		return weather.Hour{}, &Refusal{Key: NoTime, Heard: cells[0]}
	}
	h := weather.Hour{Minute: minute}
	var named Column
	cells = strings.Fields(strings.Join(cells[1:], " "))
	for i := 0; i < len(cells); i++ {
		if w, ok := words[strings.ToLower(strings.TrimSuffix(cells[i], ":"))]; ok {
			if named == "" || strength[w] > strength[named] {
				named = w
			}
			continue
		}
		c, ok := readCell(cells[i])
		if !ok {
			return h, &Refusal{Key: NotUnderstood, Heard: cells[i]}
		}
		if c.unit == "" && i+1 < len(cells) { // "10 mph"
			if _, known := unitOf[strings.ToLower(cells[i+1])]; known {
				c.unit = strings.ToLower(cells[i+1])
				i++
			}
		}
		column := named
		if column == "" || column == Passed {
			if c.unit == "" {
				return h, &Refusal{Key: BareNumber, Heard: c.text}
			}
			column = unitOf[c.unit].column
		}
		if column == Time {
			return h, &Refusal{Key: NotUnderstood, Heard: c.text}
		}
		if k := put(&h, column, c, ""); k != "" {
			return h, &Refusal{Key: k, Heard: c.text}
		}
		named = ""
	}
	return h, nil
}

func readColumns(cells []string, columns []heading) (weather.Hour, *Refusal) {
	if len(cells) != len(columns) {
		return weather.Hour{}, &Refusal{Key: Cells, Heard: head(strings.Join(cells, " "))}
	}
	minute, ok := readClock(cells[0], true)
	if !ok {
		return weather.Hour{}, &Refusal{Key: NoTime, Heard: cells[0]}
	}
	h := weather.Hour{Minute: minute}
	for i, s := range cells[1:] {
		at := columns[i+1]
		if s == "-" || at.column == Passed {
			continue // not given, or of no use here
		}
		if at.column == Time {
			return h, &Refusal{Key: TwoOfAKind, Heard: s}
		}
		c, ok := readCell(strings.ReplaceAll(s, " ", ""))
		if !ok {
			return h, &Refusal{Key: NotUnderstood, Heard: s}
		}
		if k := put(&h, at.column, c, at.unit); k != "" {
			return h, &Refusal{Key: k, Heard: s}
		}
	}
	return h, nil
}
