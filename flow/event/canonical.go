package event

import (
	"encoding/json"
	"fmt"
	"strconv"
	"unicode/utf8"
)

// canonical writes a JSON scalar the one way it is hashed.
//
// Source: RFC 8785 (JSON Canonicalization Scheme), 3.2.2.2 strings, 3.2.2.3
// numbers. One difference: whole numbers that a float64 can't hold (beyond
// 2^53, which RFC 8785 forbids) keep all their digits up to 64 bits, or a count
// of nanoseconds would change, and the largest would not decode.
func canonical(v any) (json.RawMessage, error) {
	switch t := v.(type) {
	case json.Number:
		return canonicalNumber(t)
	case string:
		return canonicalString(t), nil
	default:
		return json.Marshal(v)
	}
}

func canonicalNumber(n json.Number) (json.RawMessage, error) {
	text := n.String()
	if i, err := strconv.ParseInt(text, 10, 64); err == nil {
		return strconv.AppendInt(nil, i, 10), nil // turns -0 into 0 as well
	}
	if u, err := strconv.ParseUint(text, 10, 64); err == nil {
		return strconv.AppendUint(nil, u, 10), nil
	}
	f, err := n.Float64()
	if err != nil {
		return nil, fmt.Errorf("event: number %q: %w", text, err)
	}
	if f == 0 {
		return json.RawMessage("0"), nil // -0.0
	}
	return json.Marshal(f) // encoding/json prints floats as ECMAScript does
}

// canonicalString is not json.Marshal because that escapes U+2028 and U+2029,
// which RFC 8785 leaves as they are.
func canonicalString(s string) json.RawMessage {
	const hex = "0123456789abcdef"
	out := make([]byte, 0, len(s)+2)
	out = append(out, '"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			out = append(out, '\\', byte(r))
		case r == '\b':
			out = append(out, '\\', 'b')
		case r == '\t':
			out = append(out, '\\', 't')
		case r == '\n':
			out = append(out, '\\', 'n')
		case r == '\f':
			out = append(out, '\\', 'f')
		case r == '\r':
			out = append(out, '\\', 'r')
		case r < 0x20:
			out = append(out, '\\', 'u', '0', '0', hex[r>>4], hex[r&0xf])
		default:
			out = utf8.AppendRune(out, r)
		}
	}
	return append(out, '"')
}
