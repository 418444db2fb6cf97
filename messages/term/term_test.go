package term_test

import (
	"bytes"
	"io"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/talk"
	"chargehand/messages/term"
)

func TestLinesOfAScript(t *testing.T) {
	at := time.Date(2026, 5, 12, 10, 42, 0, 0, time.UTC)
	for in, want := range map[string]term.Line{
		"5400":                             {Text: "5400"},
		"@2026-05-12T10:42:00Z #k1 5,4 m":  {Sent: at, Key: "k1", Text: "5,4 m"},
		"#k1 @2026-05-12T11:42:00+01:00 .": {Sent: at, Key: "k1", Text: "."},
		"#k1 #2 is the second":             {Key: "k1", Text: "#2 is the second"},
		"# not a key":                      {Text: "# not a key"},
		"":                                 {},
		"#k1":                              {Key: "k1"},
	} {
		got, err := term.ParseLine(in)
		require.NoError(t, err, in)
		assert.True(t, want.Sent.Equal(got.Sent), in)
		assert.Equal(t, want.Key, got.Key, in)
		assert.Equal(t, want.Text, got.Text, in)
	}
	_, err := term.ParseLine("@tomorrow yes")
	assert.ErrorContains(t, err, "@2026-05-12T10:42:00Z", "the error shows what was wanted")
}

func TestALongLineIsCutAndTheScriptGoesOn(t *testing.T) {
	lines := term.NewLines(strings.NewReader("one\r\n" + strings.Repeat("x", 3*term.LongLine) + "\ntwo"))
	first, err := lines.Next()
	require.NoError(t, err)
	assert.Equal(t, "one", first)
	long, err := lines.Next()
	require.NoError(t, err)
	assert.LessOrEqual(t, len(long), term.LongLine+1<<16)
	last, err := lines.Next()
	require.NoError(t, err)
	assert.Equal(t, "two", last)
	_, err = lines.Next()
	assert.ErrorIs(t, err, io.EOF)
}

// What people typed is shown as text: it can't move the cursor, change colours
// or ring the bell.
func TestTypedControlsDoNotReachTheScreen(t *testing.T) {
	var b bytes.Buffer
	replies := []talk.Reply{talk.Say(talk.P("skipped", "step", talk.P("name.length"), "reason", "\x1b[2J\a\u009b1mred\rx"))}
	require.NoError(t, term.Print(&b, "en", replies, true))
	assert.Equal(t, "Length skipped: [2J1mredx.\n", b.String())
}

func TestAlarmsRingTheBellOnAScreenOnly(t *testing.T) {
	alarm := []talk.Reply{talk.Tell{Level: talk.Alarm, Lines: []talk.Phrase{talk.P("stop.now")}}}
	for _, bell := range []bool{true, false} {
		var b bytes.Buffer
		require.NoError(t, term.Print(&b, "en", alarm, bell))
		assert.Equal(t, bell, strings.Contains(b.String(), "\a"))
		assert.Contains(t, b.String(), "!!! ")
	}
}

// A message can arrive while a person types: it is printed above the line, and
// what was typed stays.
func TestWordsArriveWhileTyping(t *testing.T) {
	in, keys := io.Pipe()
	screen := &safe{}
	term := term.New(struct {
		io.Reader
		io.Writer
	}{in, screen})
	got := make(chan string, 1)
	go func() {
		line, err := term.ReadLine()
		if err == nil {
			got <- line
		}
	}()
	_, err := io.WriteString(keys, "54")
	require.NoError(t, err)
	_, err = term.Write([]byte("!!! Batch 1\n"))
	require.NoError(t, err)
	_, err = io.WriteString(keys, "00\r")
	require.NoError(t, err)
	assert.Equal(t, "5400", <-got)
	assert.Contains(t, screen.String(), "Batch 1")
}

// safe is a buffer two goroutines may use.
type safe struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *safe) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *safe) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}
