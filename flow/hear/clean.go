package hear

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// clean checks text and makes it plain: one kind of space, ASCII for full-width
// characters, line ends as '\n'. why is a Refused... key, or "".
func clean(text string, max int, plain bool) (out, why string) {
	if len(text) > max {
		return "", RefusedLong
	}
	if !utf8.ValidString(text) {
		return "", RefusedBytes
	}
	var b strings.Builder
	b.Grow(len(text))
	for _, r := range text {
		switch {
		case r == '\n' || r == '\r' || r == '\u2028' || r == '\u2029':
			b.WriteByte('\n')
		case r == '\t' || unicode.Is(unicode.Zs, r):
			b.WriteByte(' ')
		case unicode.IsControl(r):
			return "", RefusedControl
		case r == 0xFE0F || r == 0xFE0E || r == 0x20E3: // how a sign is drawn, no meaning
			if plain {
				b.WriteRune(r)
			}
		case r == 0x200D && plain: // joins the parts of one emoji
			b.WriteRune(r)
		case hidden(r):
			return "", RefusedHidden
		case r >= 0xFF01 && r <= 0xFF5E && !plain: // full-width ASCII
			b.WriteRune(r - 0xFF01 + '!')
		default:
			b.WriteRune(r)
		}
	}
	out = strings.Trim(b.String(), " \n")
	if out == "" {
		return "", RefusedEmpty
	}
	return out, ""
}

// hidden says whether r is invisible or turns the direction of what follows: a
// text that reads otherwise than it is can't stand in a record.
func hidden(r rune) bool {
	switch {
	case unicode.Is(unicode.Cf, r), // zero width, bidi marks and switches, tags, soft hyphen
		unicode.Is(unicode.Co, r),                          // private use: drawn differently everywhere
		r == 0x115F, r == 0x1160, r == 0x3164, r == 0xFFA0, // fillers drawn as nothing
		r == 0x034F, r == 0x2800, r == utf8.RuneError:
		return true
	}
	return unicode.Is(unicode.Noncharacter_Code_Point, r)
}

// kept is text as it may be shown back: nothing invisible, one line, at most
// MaxKept bytes, whole runes.
func kept(text string) string {
	var b strings.Builder
	space := false
	for _, r := range text {
		if unicode.IsSpace(r) {
			space = b.Len() > 0
			continue
		}
		if unicode.IsControl(r) || hidden(r) {
			continue
		}
		n := utf8.RuneLen(r)
		if space {
			n++
		}
		if b.Len()+n > MaxKept {
			break
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		b.WriteRune(r)
	}
	return b.String()
}
