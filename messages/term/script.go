package term

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"
)

// Line is one line of a script: what is said, and optionally when it was sent
// and a key that makes it act once however often it is sent.
type Line struct {
	Sent time.Time // zero = now
	Key  string
	Text string
}

// LongLine is the longest line a script may hold. A longer one is cut there and
// said to be too long by whoever hears it, instead of ending the script.
const LongLine = 1 << 20

// ParseLine takes the leading @RFC3339 and #key off a line, in any order.
func ParseLine(s string) (Line, error) {
	var l Line
	for {
		word, rest, _ := strings.Cut(s, " ")
		switch {
		case strings.HasPrefix(word, "@") && l.Sent.IsZero() && len(word) > 1:
			at, err := time.Parse(time.RFC3339, word[1:])
			if err != nil {
				return l, fmt.Errorf("%q is no time like @2026-05-12T10:42:00Z", word)
			}
			l.Sent = at
		case strings.HasPrefix(word, "#") && l.Key == "" && len(word) > 1:
			l.Key = word[1:]
		default:
			l.Text = s
			return l, nil
		}
		s = rest
	}
}

// Lines reads a script line by line, without its end-of-line characters.
type Lines struct{ r *bufio.Reader }

// NewLines reads lines from r.
func NewLines(r io.Reader) *Lines { return &Lines{bufio.NewReaderSize(r, 64<<10)} }

// Next returns the next line; io.EOF after the last.
func (l *Lines) Next() (string, error) {
	var b strings.Builder
	for {
		part, err := l.r.ReadSlice('\n')
		if b.Len() < LongLine {
			b.Write(part)
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && b.Len() > 0:
			return strings.TrimRight(b.String(), "\r\n"), nil
		case err != nil:
			return "", err
		}
		return strings.TrimRight(b.String(), "\r\n"), nil
	}
}
