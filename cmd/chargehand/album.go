package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"chargehand/flow/talk"
	"chargehand/messages/picture"
	"chargehand/messages/term"
)

// album keeps pictures as files beside the store, so that they can be opened: a
// folder for each job. A picture once shown is never written over: the same one
// is found again, another gets a number.
type album struct {
	dir  string
	lang string
	from string // names are told from here where they lie below it; "" = in full
}

// albumOf is the album beside a store.
func albumOf(o options, lang string) album {
	return album{dir: filepath.Join(filepath.Dir(o.db), "pictures"), lang: lang}
}

// most is how many pictures of a kind a job may have: more are a fault.
const most = 10000

func (a album) keep(job string) term.Keep {
	return func(p talk.Picture) (string, error) {
		raw, err := picture.PNG(p, a.lang)
		if err != nil {
			return "", err
		}
		dir := filepath.Join(a.dir, job)
		if err := os.MkdirAll(dir, 0o700); err != nil {
			return "", err
		}
		for n := 1; n <= most; n++ {
			name := filepath.Join(dir, p.Kind+".png")
			if n > 1 {
				name = filepath.Join(dir, fmt.Sprintf("%s-%d.png", p.Kind, n))
			}
			there, err := os.ReadFile(name)
			switch {
			case errors.Is(err, fs.ErrNotExist):
				if err := os.WriteFile(name, raw, 0o600); err != nil {
					return "", err
				}
			case err != nil:
				return "", err
			case !bytes.Equal(there, raw):
				continue
			}
			return a.told(name), nil
		}
		return "", fmt.Errorf("%s holds %d pictures of the %s", dir, most, p.Kind)
	}
}

func (a album) told(name string) string {
	if a.from == "" {
		return name
	}
	if rel, err := filepath.Rel(a.from, name); err == nil && !strings.HasPrefix(rel, "..") {
		return filepath.ToSlash(rel)
	}
	return name
}
