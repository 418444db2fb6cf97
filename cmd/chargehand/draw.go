package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"chargehand/flow"
	"chargehand/flow/draw"
	"chargehand/flow/talk"
	"chargehand/messages/picture"
	"chargehand/messages/text"
)

func drawCommand(w world, o *options) *cobra.Command {
	var out, lang string
	c := &cobra.Command{
		Use:   "draw JOB [KIND] [--out FILE]",
		Short: "Draw a picture of a job as it stands",
		Long: `draw writes a picture of a job as it stands: an image, a drawing for a page or
sheets of paper, by the ending of the file: .png, .svg or .pdf. What the picture
says stands on the screen.

The kinds are ` + strings.Join(draw.Kinds(), ", ") + `.
Without a kind it lists those that can be drawn now.`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(c *cobra.Command, args []string) error {
			t, err := takeRecord(c.Context(), w, *o, args[0])
			if err != nil {
				return err
			}
			if len(args) == 1 {
				could := flow.Pictures(t.state)
				if len(could) == 0 {
					could = []string{"Nothing can be drawn of this job yet."}
				}
				fmt.Fprintln(w.Out, strings.Join(could, "\n"))
				return t.broken
			}
			pic, err := pictureOf(t.state, args[1])
			if err != nil {
				return err
			}
			if out == "" {
				out = args[1] + ".png"
			}
			raw, err := drawn(pic, out, lang)
			if err != nil {
				return err
			}
			if err := os.WriteFile(out, raw, 0o600); err != nil {
				return err
			}
			fmt.Fprintf(w.Out, "%s\n%s\n", text.For(lang).Say(pic.Alt), out)
			return t.broken
		},
	}
	c.Flags().StringVar(&out, "out", "", "the file to write, .png, .svg or .pdf; KIND.png unless named")
	c.Flags().StringVar(&lang, "lang", "", "language: "+languages())
	return c
}

// pictureOf draws one kind of picture, or says which there are.
func pictureOf(s flow.State, kind string) (talk.Picture, error) {
	pic, ok := flow.Picture(s, kind)
	if ok {
		return pic, nil
	}
	could := flow.Pictures(s)
	if len(could) == 0 {
		return talk.Picture{}, usage{errors.New("nothing can be drawn of this job yet")}
	}
	return talk.Picture{}, usage{fmt.Errorf("no picture %q of this job as it stands; there are: %s", kind, strings.Join(could, ", "))}
}

// drawn writes a picture in the form that a file's ending asks for.
func drawn(pic talk.Picture, name, lang string) ([]byte, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".png":
		return picture.PNG(pic, lang)
	case ".svg":
		return picture.SVG(pic, lang)
	case ".pdf":
		return picture.PDF(pic, lang)
	}
	return nil, usage{fmt.Errorf("%s: a picture ends in .png, .svg or .pdf", name)}
}
