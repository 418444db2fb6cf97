package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"reflect"

	"github.com/spf13/cobra"
)

// reckonCommand is `reckon TOPIC key=value ...`, with a command for each topic
// so that each has its own help.
func reckonCommand(w world) *cobra.Command {
	var o reckonOptions
	topics := reckonTopics()
	c := &cobra.Command{
		Use:   "reckon TOPIC key=value ...",
		Short: "Reckon one thing: a span, a window, a cut list, ...",
		Long: `reckon answers one question of the work without a job: a topic and what is
known about it as key=value words. Keys carry their unit; lengths are heard as
kindly as in the talk (5400, 5.4 m, 17'6), lists are separated by commas, what
begins with [ or { is JSON. First it says what it understood, then the answer.

With --json it reads one JSON object from stdin and writes one to stdout. What
can't be reckoned ends with exit code 2 and, on stdout and nothing else,
{"error":{"field":...,"got":...,"wanted":...}}. --schema prints the JSON Schema
(draft 2020-12) of what goes in; that of what comes out is its $defs/out.

Alone it lists the topics.`,
		Example: reckonExamples(topics),
		Args:    cobra.ArbitraryArgs,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 && !o.json && !o.schema {
				return listTopics(w.Out, topics)
			}
			r := &refusal{Field: "topic", Wanted: topicNames(topics)}
			if len(args) > 0 {
				r.Got = args[0]
			}
			return o.refuse(w, explained{r, "", topics[0].exampleLine()})
		},
	}
	c.PersistentFlags().BoolVar(&o.json, "json", false, "read one JSON object from stdin, write one to stdout")
	c.PersistentFlags().BoolVar(&o.schema, "schema", false, "print the JSON Schema of the topic")
	for _, t := range topics {
		c.AddCommand(t.command(w, &o))
	}
	return c
}

type reckonOptions struct{ json, schema bool }

// refuse tells a refusal: to a program on stdout, to people on stderr.
func (o reckonOptions) refuse(w world, r explained) error {
	if !o.json {
		return usage{r}
	}
	if _, err := w.Out.Write(r.json()); err != nil {
		return err
	}
	return quietUsage{r}
}

func (t reckonTopic) command(w world, o *reckonOptions) *cobra.Command {
	c := &cobra.Command{
		Use:     t.name + " key=value ...",
		Short:   t.says,
		Example: "  " + t.exampleLine(),
		Args:    cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			answer, err := t.answer(c.Context(), w.In, args, *o)
			if r := refusalOf(err); r != nil {
				return o.refuse(w, explained{r, t.name, t.exampleFor(r.Field)})
			}
			if err != nil {
				return err
			}
			_, err = w.Out.Write(answer)
			return err
		},
	}
	help := c.HelpFunc()
	c.SetHelpFunc(func(c *cobra.Command, args []string) {
		c.Long = t.help() // not before it is asked for
		help(c, args)
	})
	return c
}

// answer is everything that goes to stdout when nothing is refused.
func (t reckonTopic) answer(ctx context.Context, stdin io.Reader, args []string, o reckonOptions) ([]byte, error) {
	if (o.schema || o.json) && len(args) > 0 {
		return nil, &refusal{Got: args[0], Wanted: "no key=value beside --json or --schema"}
	}
	if o.schema {
		return marshalIndent(t.schema())
	}
	var given object
	if o.json {
		var err error
		if given, err = readJSON(stdin); err != nil {
			return nil, err
		}
	} else {
		var r *refusal
		if given, r = readWords(args, reckonKeys(t.in)); r != nil {
			return nil, r
		}
	}
	in := reflect.New(t.in).Elem()
	if r := fill(in, given, ""); r != nil {
		return nil, r
	}
	out, err := t.interruptible(ctx, in)
	if err != nil {
		return nil, err
	}
	if o.json {
		return marshal(out)
	}
	var b bytes.Buffer
	err = tellPeople(&b, in.Interface(), out)
	return b.Bytes(), err
}

// interruptible reckons until done or interrupted: a long search knows no
// clock and no context.
func (t reckonTopic) interruptible(ctx context.Context, in reflect.Value) (any, error) {
	type result struct {
		out any
		err error
	}
	done := make(chan result, 1)
	go func() {
		out, err := t.reckon(in)
		done <- result{out, err}
	}()
	select {
	case r := <-done:
		return r.out, r.err
	case <-ctx.Done():
		return nil, quiet{errors.New("interrupted")}
	}
}
