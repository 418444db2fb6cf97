package record

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"

	"chargehand/calc/unit"
	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// Setter puts replies into lines, as they are seen on the way out in question.
type Setter func(w io.Writer, lang string, replies []talk.Reply) error

// Printer writes a record, event by event.
type Printer struct {
	out  io.Writer
	lang string
	say  *text.Speaker
	set  Setter

	day   string
	last  time.Time
	begun bool
}

// NewPrinter writes to out in a language.
func NewPrinter(out io.Writer, lang string, set Setter) *Printer {
	return &Printer{out: out, lang: lang, say: text.For(lang), set: set}
}

// Title is what stands above a record.
type Title struct {
	Name, Job, Zone string
	Events          int
	From, To        time.Time
}

// Title writes the heading.
func (p *Printer) Title(t Title) error {
	from, to := talk.Moment{At: t.From, Zone: t.Zone, Date: true}, talk.Moment{At: t.To, Zone: t.Zone, Date: true}
	when := p.say.Say(talk.P("record.day", "day", from))
	if end := p.say.Say(talk.P("record.day", "day", to)); end != when {
		when = p.say.Say(talk.P("record.days", "from", from, "to", to))
	}
	return p.line("", talk.P("record.title", "name", p.name(t.Name), "job", t.Job, "n", t.Events, "when", when, "zone", t.Zone))
}

func (p *Printer) name(s string) any {
	if s == "" {
		return talk.P("record.erased")
	}
	return s
}

// margin is as wide as a number and the space behind it.
const margin = 7

// Event writes one event: the gap before it, who said what, what was shown, and
// what was asked next.
func (p *Printer) Event(i Item) error {
	if err := p.before(i); err != nil {
		return err
	}
	number := fmt.Sprintf("%*d  ", margin-2, i.Seq)
	p.last, p.begun = i.Entry.At, true
	var shown bytes.Buffer
	if err := p.set(&shown, p.lang, i.Shown); err != nil {
		return err
	}
	if i.Begins || shown.Len() == 0 {
		if err := p.line(number, talk.P("record.line", "at", talk.Moment{At: i.Entry.At, Zone: i.Zone}, "who", p.who(i), "what", p.what(i))); err != nil {
			return err
		}
		number = ""
	}
	if err := p.set(&shown, p.lang, i.Asked); err != nil {
		return err
	}
	return p.block(number, shown.String())
}

// Stopped says that the record goes on behind what was shown.
func (p *Printer) Stopped() error { return p.line("", talk.P("record.until")) }

// before writes the day, and the silence where there was some.
func (p *Printer) before(i Item) error {
	gap := i.Entry.At.Sub(p.last)
	if p.begun && gap >= gapFrom {
		if err := p.line(strings.Repeat(" ", margin), talk.P("record.gap", "gap", unit.Minutes(gap.Minutes()))); err != nil {
			return err
		}
	}
	if p.begun && gap < 0 {
		if err := p.line(strings.Repeat(" ", margin), talk.P("record.set-back.gap", "gap", unit.Minutes(-gap.Minutes()))); err != nil {
			return err
		}
	}
	day := p.say.Say(talk.P("record.day", "day", talk.Moment{At: i.Entry.At, Zone: i.Zone, Date: true}))
	if day == p.day {
		return nil
	}
	p.day = day
	_, err := fmt.Fprintf(p.out, "\n%s\n", day)
	return err
}

// who is a person's name with the role, or the role where there is no name.
func (p *Printer) who(i Item) any {
	by := i.Entry.By
	role := talk.P("record." + by.Role)
	switch {
	case by.Name != "" && by.Role == "builder":
		return clean(by.Name)
	case by.Name != "":
		return talk.P("record.named", "name", clean(by.Name), "role", role)
	case i.erased("/by/name"), by.Role == "":
		return talk.P("record.erased")
	}
	return role
}

// what is what was said, or what was done where nothing was said.
func (p *Printer) what(i Item) any {
	said, at, photo := words(i.Entry.Event)
	var out []string
	if photo != "" {
		out = append(out, p.say.Say(talk.P("record.photo", "photo", photo[:min(len(photo), 12)])))
	}
	switch {
	case said != "":
		out = append(out, p.say.Say(talk.P("record.said", "words", clean(said))))
	case i.erased(at):
		out = append(out, p.say.Say(talk.P("record.said", "words", talk.P("record.erased"))))
	}
	if len(out) > 0 {
		return strings.Join(out, "  ")
	}
	return talk.P("record." + i.Entry.Event.Kind())
}

func (p *Printer) line(before string, ph talk.Phrase) error {
	_, err := fmt.Fprintf(p.out, "%s%s\n", before, p.say.Say(ph))
	return err
}

// block writes lines behind a margin, which for the first of them is number.
func (p *Printer) block(number, lines string) error {
	var b strings.Builder
	for l := range strings.Lines(lines) {
		if number == "" {
			number = strings.Repeat(" ", margin)
		}
		b.WriteString(strings.TrimRight(number+l, " \n"))
		b.WriteByte('\n')
		number = ""
	}
	_, err := io.WriteString(p.out, b.String())
	return err
}

// clean keeps what people typed on its line.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || (r >= 0x80 && r < 0xa0) {
			return ' '
		}
		return r
	}, s)
}
