// Package text turns phrases into sentences: the only room with words for
// people. Each language is one table of templates; the keys are those of
// flow, and a test holds the two against each other.
//
// # Templates
//
//	{name}          the argument, as its quantity is written
//	{^name}         the same, with a capital
//	{name:mm}       a length as a bare number of millimetres
//	{name:m}        a length in metres
//	{n|board|boards} the number with the word that fits it
//
// Numbers are rounded here, once and last. A limit is rounded down before it
// comes here, because only the one who made it knows which way is cautious.
package text
