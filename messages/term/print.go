package term

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// marks open a line so that it can be told apart without colour.
var marks = map[talk.Level]string{
	talk.Plain:   "",
	talk.Caution: "! ",
	talk.Alarm:   "!!! ",
	talk.Stop:    "STOP. ",
	talk.Change:  "~ ",
}

// Print writes replies as lines. An alarm also rings the bell where bell is set. A
// picture is its caption.
func Print(w io.Writer, lang string, replies []talk.Reply, bell bool) error {
	return PrintKeeping(w, lang, replies, bell, nil)
}

// Keep puts a picture where it can be opened, and returns where that is.
type Keep func(talk.Picture) (place string, err error)

// PrintKeeping is Print with pictures: below its caption stands where each is
// kept.
func PrintKeeping(w io.Writer, lang string, replies []talk.Reply, bell bool, keep Keep) error {
	p := printer{say: text.For(lang), bell: bell, keep: keep}
	for _, r := range replies {
		switch r := r.(type) {
		case talk.Tell:
			p.tell(r)
		case talk.Ask:
			p.ask(r)
		case talk.Show:
			p.show(r)
		case talk.Picture:
			p.picture(r)
		}
	}
	_, err := io.WriteString(w, p.b.String())
	return err
}

type printer struct {
	b    strings.Builder
	say  *text.Speaker
	bell bool
	keep Keep
}

// picture prints what a picture says, and where it is. One that can't be kept is
// no reason to stop the talk.
func (p *printer) picture(pic talk.Picture) {
	p.line(p.say.Say(talk.P("picture.line", "caption", pic.Caption)))
	if p.keep == nil {
		return
	}
	place, err := p.keep(pic)
	if err != nil {
		place = "(" + err.Error() + ")"
	}
	p.line("  " + place)
}

func (p *printer) line(s string) {
	p.b.WriteString(clean(s))
	p.b.WriteByte('\n')
}

// clean keeps what people typed from moving the cursor or the colours.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0x7f || (r >= 0x80 && r < 0xa0) {
			return -1
		}
		return r
	}, s)
}

func (p *printer) tell(t talk.Tell) {
	if t.Level == talk.Alarm && p.bell {
		p.b.WriteByte('\a')
	}
	for i, l := range t.Lines {
		mark := marks[t.Level]
		if i > 0 && t.Level != talk.Caution {
			mark = strings.Repeat(" ", len(mark))
		}
		p.line(mark + p.say.Say(l))
	}
}

// ask prints the question, the answers by number, and what "." takes.
func (p *printer) ask(a talk.Ask) {
	p.line("? " + p.say.Say(a.Phrase))
	var row []string
	for i, o := range a.Options {
		row = append(row, fmt.Sprintf("%d %s", i+1, p.say.Say(o.Label)))
	}
	yesNo := len(a.Options) == 2 && a.Options[0].Action == "yes" && a.Options[1].Action == "no"
	if len(row) > 0 && !yesNo {
		p.line("  " + strings.Join(row, " · "))
	}
	if a.Offered != nil {
		p.line("  " + p.say.Say(*a.Offered))
	}
}

// show prints a table with columns as wide as their widest cell.
func (p *printer) show(s talk.Show) {
	p.line(p.say.Say(s.Title))
	cells := [][]string{p.row(s.Head)}
	for _, r := range s.Rows {
		cells = append(cells, p.row(r))
	}
	var width []int
	for _, r := range cells {
		if len(r) == 1 {
			continue // a heading is as long as it is
		}
		for i, c := range r {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range cells {
		if len(r) == 1 {
			p.line(r[0])
			continue
		}
		var b strings.Builder
		for i, c := range r {
			b.WriteString("  " + c + strings.Repeat(" ", width[i]-utf8.RuneCountInString(c)))
		}
		p.line(strings.TrimRight(b.String(), " "))
	}
	for _, f := range s.Foot {
		p.line(p.say.Say(f))
	}
}

func (p *printer) row(r []talk.Phrase) []string {
	out := make([]string, len(r))
	for i, c := range r {
		out[i] = strings.TrimSpace(p.say.Say(c))
	}
	return out
}
