package event

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEveryKindIsListed reads the source: a type with a Kind that is missing in
// All would be written and never read again.
func TestEveryKindIsListed(t *testing.T) {
	t.Parallel()
	pkgs, err := parser.ParseDir(token.NewFileSet(), ".", func(f fs.FileInfo) bool { return !strings.HasSuffix(f.Name(), "_test.go") }, 0)
	require.NoError(t, err)
	var declared []string
	for _, file := range pkgs["event"].Files {
		for _, d := range file.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Name.Name == "Kind" && fn.Recv != nil {
				declared = append(declared, fn.Recv.List[0].Type.(*ast.Ident).Name)
			}
		}
	}
	var listed []string
	kinds := map[string]bool{}
	for _, e := range All() {
		listed = append(listed, reflect.TypeOf(e).Name())
		assert.False(t, kinds[e.Kind()], "two kinds are named %q", e.Kind())
		kinds[e.Kind()] = true
	}
	require.NotEmpty(t, listed)
	assert.ElementsMatch(t, declared, listed)
}

// TestRoundTrip seals, writes, reads and opens random events of every kind.
func TestRoundTrip(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 2))
	seen := map[string]bool{}
	for _, kind := range All() {
		for i := range 100 {
			want := randomEntry(kind, rng, i%4 == 0)
			prev := Head{Seq: rng.Uint64() >> 12}
			r, err := Seal(prev, want, salter(rng))
			require.NoError(t, err)
			raw, err := MarshalRecord(r)
			require.NoError(t, err)
			require.NotContains(t, string(raw), "\n", "a record is one line")
			back, err := UnmarshalRecord(raw)
			require.NoError(t, err)
			require.NoError(t, back.Verify(prev))
			got, err := back.Open()
			require.NoError(t, err)
			require.Equal(t, want, got)
			again, err := MarshalRecord(back)
			require.NoError(t, err)
			require.Equal(t, string(raw), string(again))
			seen[back.Kind] = true
		}
	}
	for _, e := range All() {
		assert.True(t, seen[e.Kind()], e.Kind())
	}
}

func TestEmptyListsComeBack(t *testing.T) {
	t.Parallel()
	for _, want := range []Reopened{{}, {Steps: []string{}}, {Steps: []string{""}}} {
		r, err := Seal(Head{}, Entry{Event: want}, func([]byte) {})
		require.NoError(t, err)
		got, err := r.Open()
		require.NoError(t, err)
		assert.Equal(t, want, got.Event)
	}
	for _, want := range []map[string]Value{nil, {"": {}}, {"0a": {}, "1": {}}} {
		r, err := Seal(Head{}, Entry{Event: Heard{Args: want}}, func([]byte) {})
		require.NoError(t, err)
		got, err := r.Open()
		require.NoError(t, err)
		assert.Equal(t, want, got.Event.(Heard).Args)
	}
}

// TestNamesLikeAList: such a map would come back as a list and not open, so it is
// never sealed.
func TestNamesLikeAList(t *testing.T) {
	t.Parallel()
	for _, args := range []map[string]Value{{"0": {}}, {"0": {}, "1": {}}} {
		_, err := Seal(Head{}, Entry{Event: Heard{Args: args}}, func([]byte) {})
		require.ErrorContains(t, err, "/data/args")
	}
}

func TestNotANumberIsNotSealed(t *testing.T) {
	t.Parallel()
	for _, n := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := Seal(Head{}, Entry{Event: Answered{Value: Of("mm", n)}}, func([]byte) {})
		require.Error(t, err)
	}
}

// TestBrokenText: what is no UTF-8, such as a text cut in the middle of a letter,
// is written with replacement characters and verifies.
func TestBrokenText(t *testing.T) {
	t.Parallel()
	r, err := Seal(Head{}, Entry{Event: Noted{Text: "caf\xc3"}}, func([]byte) {})
	require.NoError(t, err)
	raw, err := MarshalRecord(r)
	require.NoError(t, err)
	back, err := UnmarshalRecord(raw)
	require.NoError(t, err)
	require.NoError(t, back.Verify(Head{}))
	got, err := back.Open()
	require.NoError(t, err)
	assert.Equal(t, Noted{Text: "caf\ufffd"}, got.Event)
}

func TestTimesAreUTC(t *testing.T) {
	t.Parallel()
	at := time.Date(2031, 5, 12, 9, 30, 0, 123456789, time.FixedZone("", 7200))
	r, err := Seal(Head{}, Entry{At: at, Event: Continued{}}, func([]byte) {})
	require.NoError(t, err)
	raw, err := MarshalRecord(r)
	require.NoError(t, err)
	assert.Contains(t, string(raw), `"at":"2031-05-12T07:30:00.123456789Z"`)
}

func TestNewerIsNotOpened(t *testing.T) {
	t.Parallel()
	r, err := Seal(Head{}, Entry{Event: Continued{}}, func([]byte) {})
	require.NoError(t, err)
	later := r
	later.Version++
	_, err = later.Open()
	require.ErrorIs(t, err, ErrNewer)
	other := r
	other.Kind = "flown-over"
	_, err = other.Open()
	require.ErrorIs(t, err, ErrNewer)
}

// TestPointers: fields are named as RFC 6901 says.
func TestPointers(t *testing.T) {
	t.Parallel()
	leaves, err := flatten([]byte(`{"a/b":1,"m~n":[2,{"x":[]}],"":{"":3},"e":{}}`))
	require.NoError(t, err)
	got := map[string]string{}
	for _, l := range leaves {
		got[l.Pointer] = string(l.Value)
	}
	assert.Equal(t, map[string]string{"/a~1b": "1", "/m~0n/0": "2", "/m~0n/1/x": "[]", "//": "3", "/e": "{}"}, got)
	assert.True(t, slices.IsSortedFunc(leaves, func(a, b Leaf) int { return strings.Compare(a.Pointer, b.Pointer) }))
}

func TestRecordOfNoForm(t *testing.T) {
	t.Parallel()
	for _, raw := range []string{"", "{", "[]", `{"seq":-1}`, `{"seq":1.5}`, `{"prev":"00"}`, `{"hash":"zz"}`, `{"at":"noon"}`, `{"v":1}x`, `{"leaves":[{"s":"*"}]}`} {
		_, err := UnmarshalRecord([]byte(raw))
		require.Error(t, err, raw)
	}
	var r Record
	require.NoError(t, json.Unmarshal([]byte(`{"prev":null}`), &r))
	_, err := Record{Version: 1, Kind: "answered", Leaves: []Leaf{{Pointer: "/data/value", Value: []byte(`"text"`)}}}.Open()
	require.Error(t, err, "a leaf of the wrong type")
	require.False(t, errors.Is(err, ErrNewer))
}

// FuzzRecord: whatever is read never panics, and what was read once is written
// and read again unchanged.
func FuzzRecord(f *testing.F) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, kind := range All() {
		r, err := Seal(Head{}, randomEntry(kind, rng, true), salter(rng))
		require.NoError(f, err)
		raw, err := MarshalRecord(r)
		require.NoError(f, err)
		f.Add(raw)
		r.Erase(func(pointer string, _ json.RawMessage) bool { return strings.HasPrefix(pointer, "/by") })
		raw, err = MarshalRecord(r)
		require.NoError(f, err)
		f.Add(raw)
	}
	zero := Hash{}.String()
	odd := []byte(`{"v":1,"seq":1,"at":"2031-05-12T07:30:00+02:00","kind":"noted","leaves":[{"p":"x","v":null},{"p":"/a","v":{"b":1}},{"p":"/a/b","c":""}],"prev":"` + zero + `","hash":"` + zero + `"}`)
	_, err := UnmarshalRecord(odd)
	require.NoError(f, err)
	f.Add(odd)
	f.Fuzz(func(t *testing.T, raw []byte) {
		r, err := UnmarshalRecord(raw)
		if err != nil {
			return
		}
		once, err := MarshalRecord(r)
		require.NoError(t, err)
		again, err := UnmarshalRecord(once)
		require.NoError(t, err, "%s", once)
		require.Equal(t, r, again)
		twice, err := MarshalRecord(again)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
		require.Equal(t, r.Verify(Head{}) == nil, again.Verify(Head{}) == nil)

		_ = r.Verify(Head{Seq: r.Seq - 1, Hash: r.Prev})
		_, _ = r.Open()
		doc := r.Document()
		require.True(t, json.Valid(doc), "%s", doc)
		r.Erase(func(string, json.RawMessage) bool { return true })
		_, _ = r.Open()
	})
}

// FuzzDocument: a document that was taken apart is put together again.
func FuzzDocument(f *testing.F) {
	for _, doc := range []string{`{"a":1}`, `[]`, `{}`, `"x"`, `null`, `[[],{},[{}],null]`, `{"":{"":[""]}}`, `{"1":0,"0a":2}`, `[1e999]`, `{"a/b":{"~":-0.0}}`} {
		f.Add([]byte(doc))
	}
	f.Fuzz(func(t *testing.T, doc []byte) {
		leaves, err := flatten(doc)
		if err != nil {
			return
		}
		whole := Record{Leaves: leaves}.Document()
		again, err := flatten(whole)
		require.NoError(t, err, "%s", whole)
		require.Equal(t, leaves, again)
	})
}

func BenchmarkCodec(b *testing.B) {
	rng := rand.New(rand.NewPCG(5, 6))
	entry := Entry{
		At: time.Date(2031, 5, 12, 7, 30, 0, 0, time.UTC), By: Actor{ID: "p1", Name: "Ada", Role: "builder"}, From: "bot:12345", Cause: "bot/1/887766",
		Event: Answered{Step: "survey/depth", Said: "5.4", Value: Of("mm", 5400)},
	}
	salt := salter(rng)
	r, err := Seal(Head{}, entry, salt)
	require.NoError(b, err)
	raw, err := MarshalRecord(r)
	require.NoError(b, err)
	for name, fn := range map[string]func() error{
		"seal":   func() error { _, err := Seal(Head{}, entry, salt); return err },
		"write":  func() error { _, err := MarshalRecord(r); return err },
		"read":   func() error { _, err := UnmarshalRecord(raw); return err },
		"verify": func() error { return r.Verify(Head{}) },
		"open":   func() error { _, err := r.Open(); return err },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := fn(); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(raw)), "B/record")
		})
	}
}
