package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// What is shown as an answer must be heard as that answer: a person reads a
// label and says it.
func TestEveryLabelIsHeardAsItsChoice(t *testing.T) {
	n := 0
	for _, lang := range text.Languages() {
		for _, set := range flow.ChoiceSets() {
			w := hear.Want{Kind: hear.Choice, Lang: lang}
			for _, k := range set {
				w.Choices = append(w.Choices, hear.Pick{Key: k})
				if k == "unknown" {
					w.Unsure = k
				}
			}
			for _, k := range set {
				label := text.For(lang).Say(talk.P("pick." + k))
				h := hear.Answer(label, w)
				if assert.Len(t, h.Values, 1, "%s: %q in %v: %+v", lang, label, set, h.Refused) {
					assert.Equal(t, k, h.Values[0].Key, "%s: %q in %v", lang, label, set)
				}
				n++
			}
		}
	}
	require.NotZero(t, n)
}

// What the list calls a thing is heard as that thing: a person reads a line and
// says what it costs.
func TestEveryItemIsHeardByItsName(t *testing.T) {
	items := flow.Items()
	require.Greater(t, len(items), 40)
	for _, lang := range text.Languages() {
		w := hear.Want{Kind: hear.Choice, Lang: lang}
		for _, k := range items {
			w.Choices = append(w.Choices, hear.Pick{Key: k})
		}
		for _, k := range items {
			label := text.For(lang).Say(talk.P(k))
			h := hear.Answer(label, w)
			if assert.Len(t, h.Values, 1, "%s: %q: %+v", lang, label, h.Refused) {
				assert.Equal(t, k, h.Values[0].Key, "%s: %q", lang, label)
			}
		}
	}
}
