package hear

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
)

// brief writes what was heard so that a table can be read: "5400", "5400 ~"
// (soft), "gutter ." (offered), "? 2400 | 240!" (asks; ! is out of range),
// "no range" (refused).
func brief(h Heard) string {
	switch {
	case h.Refused != nil:
		return "no " + strings.TrimPrefix(h.Refused.Why, "hear.refused.")
	case h.Ask != nil:
		var parts []string
		for _, o := range h.Ask.Options {
			s := briefValues(o.Values)
			if o.Outside {
				s += "!"
			}
			parts = append(parts, s)
		}
		return "? " + strings.Join(parts, " | ")
	}
	s := briefValues(h.Values)
	if h.Soft {
		s += " ~"
	}
	if h.Offered {
		s += " ."
	}
	return s
}

func briefValues(vs []Value) string {
	var parts []string
	for _, v := range vs {
		switch v.Kind {
		case Choice, YesNo:
			parts = append(parts, v.Key)
		case Text:
			parts = append(parts, strconv.Quote(v.Text))
		case Time:
			parts = append(parts, briefWhen(v.When))
		default:
			parts = append(parts, strconv.FormatFloat(v.Num, 'f', -1, 64))
		}
	}
	return strings.Join(parts, " ")
}

func briefWhen(w When) string {
	if w.Relative {
		return fmt.Sprintf("%+gmin", w.After)
	}
	t := w.At.at()
	switch w.Grain {
	case GrainMinute:
		return t.Format("2006-01-02 15:04")
	case GrainWeek:
		return t.Format("2006-01-02 week")
	case GrainMonth:
		return t.Format("2006-01 month")
	case GrainSeason:
		return t.Format("2006-01 season")
	}
	return t.Format("2006-01-02")
}

// row is one line of a table: what is said, what is heard.
type row struct{ said, want string }

func check(t *testing.T, w Want, rows []row) {
	t.Helper()
	if len(rows) == 0 {
		t.Fatal("empty table")
	}
	for _, r := range rows {
		h := Answer(r.said, w)
		if got := brief(h); got != r.want {
			t.Errorf("said %q: heard %q, want %q", r.said, got, r.want)
		}
		checkWhole(t, r.said, w, h)
	}
}
