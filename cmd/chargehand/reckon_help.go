package main

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"text/tabwriter"
)

func listTopics(w io.Writer, topics []reckonTopic) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, topic := range topics {
		fmt.Fprintf(t, "%s\t%s\n", topic.name, topic.says)
	}
	return t.Flush()
}

func topicNames(topics []reckonTopic) string {
	var names []string
	for _, t := range topics {
		names = append(names, t.name)
	}
	return oneOf(names)
}

// help lists the keys of a topic.
func (t reckonTopic) help() string {
	var b strings.Builder
	fmt.Fprintf(&b, "reckon %s: %s.\n", t.name, t.says)
	for _, part := range []struct {
		title string
		keys  []reckonKey
		only  func(reckonKey) bool
	}{
		{"Needed", reckonKeys(t.in), func(k reckonKey) bool { return k.required }},
		{"May be given", reckonKeys(t.in), func(k reckonKey) bool { return !k.required }},
		{"Answered", reckonKeys(t.out), nil},
	} {
		w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
		title := "\n" + part.title + ":\n"
		for _, k := range part.keys {
			if part.only == nil || part.only(k) {
				fmt.Fprint(w, title)
				title = ""
				fmt.Fprintf(w, "  %s\t%s\n", k.name, k.about(part.only != nil))
			}
		}
		w.Flush()
	}
	return strings.TrimSpace(b.String())
}

// about is the doc of a key, with what it takes where it goes in.
func (k reckonKey) about(in bool) string {
	parts := []string{}
	if k.doc != "" {
		parts = append(parts, k.doc)
	}
	if in {
		parts = append(parts, "("+k.wanted()+")")
	}
	return strings.Join(parts, " ")
}

func reckonExamples(topics []reckonTopic) string {
	var lines []string
	for _, t := range topics {
		lines = append(lines, "  "+t.exampleLine())
	}
	return strings.Join(lines, "\n")
}

var plainWord = regexp.MustCompile(`^[A-Za-z0-9_=.,:/+-]+$`)

// exampleLine is the example as one would type it into a shell.
func (t reckonTopic) exampleLine() string {
	line := "chargehand reckon " + t.name
	for _, word := range t.example {
		if !plainWord.MatchString(word) {
			key, value, _ := strings.Cut(word, "=")
			word = key + "='" + value + "'"
		}
		line += " " + word
	}
	return line
}

// exampleFor is an example for one key, or of the whole topic.
func (t reckonTopic) exampleFor(field string) string {
	key := field[:len(field)-len(strings.TrimLeft(field, "abcdefghijklmnopqrstuvwxyz0123456789_"))]
	if i := slices.IndexFunc(t.example, func(word string) bool { return strings.HasPrefix(word, key+"=") }); i >= 0 && key != "" {
		return t.example[i]
	}
	return t.exampleLine()
}

// exampleJSON is the example as --json reads it.
func (t reckonTopic) exampleJSON() []byte {
	o, r := readWords(t.example, reckonKeys(t.in))
	if r != nil {
		panic(r) // the examples are our own and tested
	}
	raw, err := marshal(o)
	if err != nil {
		panic(err)
	}
	return raw
}
