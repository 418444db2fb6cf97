// Package talk is the vocabulary of the conversation: what people do (Input)
// and what they are told (Reply), without a word of any language in it. A
// sentence is a [Phrase], a key with arguments typed by quantity; messages/text
// turns it into words and numbers in the reader's language and units.
package talk
