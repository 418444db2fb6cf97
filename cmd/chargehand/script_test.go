package main

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts expect")

// scriptWorld is a world that gives the same words each time: a clock that
// stands until a script names a time, job names that count up, salts that
// follow from what was salted before.
func scriptWorld() world {
	w := realWorld()
	now := time.Date(2026, 5, 11, 8, 0, 0, 0, time.UTC)
	if at := os.Getenv("NOW"); at != "" {
		t, err := time.Parse(time.RFC3339, at)
		if err != nil {
			panic(err)
		}
		now = t
	}
	w.Now = func() time.Time { return now }
	n := 0
	w.NewID = func() string { n++; return fmt.Sprintf("job-%d", n) }
	seed := sha256.Sum256([]byte("salt"))
	w.Salt = func(b []byte) {
		for i := range b {
			if i%len(seed) == 0 {
				seed = sha256.Sum256(seed[:])
			}
			b[i] = seed[i%len(seed)]
		}
	}
	return w
}

func TestMain(m *testing.M) {
	if os.Getenv("CHARGEHAND_CHILD") != "" { // see kill_test.go
		os.Exit(run(os.Args[1:], realWorld()))
	}
	testscript.Main(m, map[string]func(){
		"chargehand": func() { os.Exit(run(os.Args[1:], scriptWorld())) },
	})
}

// TestStories runs whole conversations: what is typed, what is said, and a
// record that verifies at the end.
func TestStories(t *testing.T) {
	dir := filepath.Join("..", "..", "testdata", "script")
	files, err := filepath.Glob(filepath.Join(dir, "*.txtar"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no stories in %s: %v", dir, err)
	}
	testscript.Run(t, testscript.Params{
		Files:         files,
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("XDG_DATA_HOME", filepath.Join(e.WorkDir, "data"))
			e.Setenv("HOME", e.WorkDir)
			e.Setenv("TZ", "Europe/London")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"damage": damage,
		},
	})
}

// damage FILE empty|torn|flip spoils a file.
func damage(ts *testscript.TestScript, _ bool, args []string) {
	name := ts.MkAbs(args[0])
	raw, err := os.ReadFile(name)
	ts.Check(err)
	switch args[1] {
	case "empty":
		raw = nil
	case "torn":
		raw = raw[:10000] // the pages that hold the data are beyond
	case "flip":
		i := bytes.LastIndex(raw, []byte(`"5400`))
		if i < 0 {
			i = len(raw) / 2
		}
		raw[i+1] ^= 1
	}
	ts.Check(os.WriteFile(name, raw, 0o600))
}
