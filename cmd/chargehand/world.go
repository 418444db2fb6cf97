package main

import (
	"context"
	"crypto/rand"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"syscall"
	"time"
	_ "time/tzdata" // sites keep their time zone on a machine that has no zones
)

// world is everything that comes from outside: streams, clock, chance, folders.
// Tests run the program in a world of their own.
type world struct {
	In     io.Reader
	Out    io.Writer
	Err    io.Writer
	Env    func(string) string
	Now    func() time.Time
	Sleep  func(context.Context, time.Duration) error // ends early with its context
	NewID  func() string
	Salt   func([]byte)
	Signal func(context.Context) (context.Context, context.CancelFunc)
}

func realWorld() world {
	return world{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Env: os.Getenv,
		Now: time.Now, Sleep: sleep, NewID: word, Salt: func(b []byte) { _, _ = rand.Read(b) }, // never fails since Go 1.24
		Signal: func(ctx context.Context) (context.Context, context.CancelFunc) {
			return signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM)
		},
	}
}

func sleep(ctx context.Context, d time.Duration) error {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// word makes a short name for a job that can be read over a phone: two
// syllables, a dash, one more.
func word() string {
	const consonants, vowels = "bdfgklmnprstvz", "aeiou"
	var r [6]byte
	_, _ = rand.Read(r[:])
	syllable := func(a, b byte) string {
		return string([]byte{consonants[int(a)%len(consonants)], vowels[int(b)%len(vowels)]})
	}
	return syllable(r[0], r[1]) + syllable(r[2], r[3]) + "-" + syllable(r[4], r[5]) + "n"
}

// dataFile is where jobs are kept unless --db says otherwise.
func (w world) dataFile() string {
	dir := w.Env("XDG_DATA_HOME")
	if dir == "" {
		home := w.Env("HOME")
		switch runtime.GOOS {
		case "windows":
			dir = w.Env("LOCALAPPDATA")
		case "darwin":
			dir = filepath.Join(home, "Library", "Application Support")
		default:
			dir = filepath.Join(home, ".local", "share")
		}
	}
	return filepath.Join(dir, "chargehand", "jobs.db")
}

// zone is the machine's own time zone, by its IANA name where it can be told.
func (w world) zone() string {
	if tz := w.Env("TZ"); tz != "" {
		if _, err := time.LoadLocation(tz); err == nil {
			return tz
		}
	}
	if name := time.Local.String(); name != "Local" {
		return name
	}
	if link, err := os.Readlink("/etc/localtime"); err == nil {
		for dir, name := filepath.Split(filepath.Clean(link)); dir != ""; {
			if _, err := time.LoadLocation(name); err == nil && filepath.Base(dir) == "zoneinfo" {
				return name
			}
			parent, base := filepath.Split(filepath.Clean(dir))
			if parent == dir || base == "" {
				break
			}
			dir, name = parent, filepath.Join(base, name)
		}
	}
	return "UTC"
}
