package main

import (
	"bytes"
	"encoding/json"
)

// ordered is a JSON object that keeps the order of its members, so that a
// schema lists keys as the topic does.
type ordered []pair

type pair struct {
	key   string
	value any
}

func (o *ordered) add(key string, value any) { *o = append(*o, pair{key, value}) }

// MarshalJSON writes the members in order.
func (o ordered) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, p := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := marshal(p.key)
		if err != nil {
			return nil, err
		}
		value, err := marshal(p.value)
		if err != nil {
			return nil, err
		}
		b.Write(bytes.TrimSpace(key))
		b.WriteByte(':')
		b.Write(bytes.TrimSpace(value))
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// marshal is a line of JSON that keeps <, > and & as they are.
func marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return b.Bytes(), err
}

// marshalIndent is marshal for reading.
func marshalIndent(v any) ([]byte, error) {
	line, err := marshal(v)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = json.Indent(&b, line, "", "  ")
	return b.Bytes(), err
}

// MarshalJSON keeps the order in which the members were written.
func (o object) MarshalJSON() ([]byte, error) {
	var out ordered
	for _, m := range o {
		out.add(m.key, m.value)
	}
	return out.MarshalJSON()
}
