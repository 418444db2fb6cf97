package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reckoned runs the whole program on `reckon ARGS` with a text on stdin.
func reckoned(stdin string, args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	w := world{
		In: strings.NewReader(stdin), Out: &out, Err: &errs, Env: func(string) string { return "" },
		Signal: func(ctx context.Context) (context.Context, context.CancelFunc) { return context.WithCancel(ctx) },
	}
	code = run(append([]string{"reckon"}, args...), w)
	return code, out.String(), errs.String()
}

// oneObject reads a single JSON object and nothing after it.
func oneObject(t *testing.T, stdout string) map[string]any {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(stdout))
	var v map[string]any
	require.NoError(t, d.Decode(&v), "no JSON: %q", stdout)
	_, err := d.Token()
	require.ErrorIs(t, err, io.EOF, "more than one value: %q", stdout)
	return v
}

// checkReckon holds what is promised of every input whatever: exit 0 with an
// answer that obeys the schema, or exit 2 with the error object alone; nothing
// on stderr. What comes from the calculation names a key of the topic.
func checkReckon(t *testing.T, topic reckonTopic, input string) (ok bool) {
	t.Helper()
	code, stdout, stderr := reckoned(input, topic.name, "--json")
	require.Empty(t, stderr, "%s %s", topic.name, input)
	require.Contains(t, []int{exitOK, exitUsage}, code, "%s %s", topic.name, input)
	answer := oneObject(t, stdout)
	in, out, no := schemas(topic)
	if code == exitOK {
		require.Empty(t, conforms(out, answer, topic.name), "%s %s", input, stdout)
		var given any
		require.NoError(t, json.Unmarshal(bytes.TrimPrefix([]byte(input), []byte("\ufeff")), &given))
		require.Empty(t, conforms(in, given, topic.name), "answered what the schema forbids: %s", input)
		return true
	}
	require.Empty(t, conforms(no, answer, topic.name), "%s %s", input, stdout)
	e := answer["error"].(map[string]any)
	field, wanted := e["field"].(string), e["wanted"].(string)
	require.NotEmpty(t, wanted, "%s %s", input, stdout)
	if field != "" && !strings.HasPrefix(wanted, "a key among ") && wanted != "each key once" {
		require.NotNil(t, find(in, field), "%s: %q is no key: %s %s", topic.name, field, input, stdout)
	}
	return false
}

// hostile is what a topic must refuse whichever it is.
var hostile = []string{
	"", " ", "null", "true", "1", `"x"`, "[]", "[{}]", "{", "}", "{}{}", "{} {}", "{}x", "{} ]", `{"a":}`, `{"a":NaN}`, `{"a":Infinity}`,
	`{"a":01}`, `{"a":1e999}`, `{"a":-1e999}`, "{\"a\":\"\x00\"}", "{\"a\":\"\xff\"}", "\xff\xfe{}", "{\"\xc3\x28\":1}", `{"a":1,"a":1}`,
	`{'a':1}`, `{a:1}`, `{"a":1,}`, "// {}\n{}", `{"a":"\ud800"}`, `{"":1}`, `{"__proto__":{}}`, "\ufeff{}",
	strings.Repeat("[", 5000) + strings.Repeat("]", 5000), strings.Repeat(`{"a":`, 20000), `{"a":"` + strings.Repeat("x", 100<<10) + `"}`,
	strings.Repeat(" ", 100<<10) + "{}", `{"a":` + strings.Repeat("9", 50000) + `}`, `{"` + strings.Repeat("k", 60000) + `":1}`,
}

func TestReckonHostile(t *testing.T) {
	t.Parallel()
	for _, topic := range reckonTopics() {
		for _, input := range hostile {
			// {} is a question to the list: what is known of nothing
			if checkReckon(t, topic, input) {
				assert.Equal(t, "list", topic.name, input)
				assert.Equal(t, "{}", strings.Trim(input, "\ufeff \n"))
			}
		}
		example := string(bytes.TrimSpace(topic.exampleJSON()))
		for _, spoilt := range []string{
			example + example, example + "\n" + "{}", example + ",", example[:len(example)-1], example[1:],
			`{"extra":1,` + example[1:], strings.Replace(example, "{", "{"+firstMember(example)+",", 1),
			example[:len(example)-1] + `,"` + strings.Repeat("y", 100<<10) + `":1}`,
		} {
			assert.False(t, checkReckon(t, topic, spoilt), "%s took %.200s", topic.name, spoilt)
		}
	}
}

// firstMember is the first member of an object of the examples.
func firstMember(object string) string {
	d := json.NewDecoder(strings.NewReader(object[1:]))
	var key string
	_ = d.Decode(&key)
	rest := object[1+int(d.InputOffset())+1:]
	var value json.RawMessage
	_ = json.NewDecoder(strings.NewReader(rest)).Decode(&value)
	return fmt.Sprintf("%q:%s", key, value)
}

// TestReckonWrongTypes puts each sort of value in each key of each example.
func TestReckonWrongTypes(t *testing.T) {
	t.Parallel()
	for _, topic := range reckonTopics() {
		var example map[string]any
		require.NoError(t, json.Unmarshal(topic.exampleJSON(), &example))
		for _, k := range reckonKeys(topic.in) {
			was, had := example[k.name]
			for _, v := range []any{nil, true, "", "x", -1.0, 0.0, 0.5, 1e300, -1e300, 1e15, []any{}, []any{nil}, []any{1.0, "x"}, map[string]any{}, []any{map[string]any{}}, []any{[]any{}}} {
				example[k.name] = v
				raw, err := json.Marshal(example)
				require.NoError(t, err)
				checkReckon(t, topic, string(raw))
			}
			delete(example, k.name)
			raw, err := json.Marshal(example)
			require.NoError(t, err)
			if checkReckon(t, topic, string(raw)) {
				assert.False(t, k.required, "%s answered without %s", topic.name, k.name)
			}
			if had {
				example[k.name] = was
			}
		}
	}
}

// gambler makes inputs that mostly fit the schema of a topic, so that the
// calculation behind it is reached.
type gambler struct{ *rand.Rand }

func (g gambler) object(t reflect.Type, few bool) map[string]any {
	o := map[string]any{}
	share := [...]float64{0.05, 0.2, 0.5}[g.IntN(3)]
	for _, k := range reckonKeys(t) {
		switch {
		case k.name == "budget":
			o[k.name] = float64(g.IntN(3000)) // the search must end
		case k.required || g.Float64() < share:
			o[k.name] = g.value(k, k.typ, few)
		}
	}
	return o
}

// changed is the example with a few of its keys gambled anew, which gets past
// the first checks more often than what is gambled whole.
func (g gambler) changed(t reckonTopic) map[string]any {
	var o map[string]any
	if err := json.Unmarshal(t.exampleJSON(), &o); err != nil {
		panic(err)
	}
	keys := reckonKeys(t.in)
	for range 1 + g.IntN(4) {
		k := keys[g.IntN(len(keys))]
		o[k.name] = g.value(k, k.typ, false)
		if g.IntN(4) == 0 {
			delete(o, k.name)
		}
	}
	for _, k := range keys {
		if k.name == "budget" {
			o[k.name] = float64(g.IntN(3000))
		}
	}
	return o
}

// usual are numbers that mean something somewhere.
var usual = []float64{0, 1, 2, 3, 4, 0.5, 20, 25, 40, 47, 100, 150, 300, 400, 600, 1200, 2400, 3600, 4800, 5400, -1, -100, 0.1, 5, 7.5, 1e6}

// sensible are words for the keys that take free text.
var sensible = map[string][]string{
	"grade": {"C14", "C16", "C24", "C30", "DF-L #2", "SPF #1"}, "grades": {"C16", "C24"},
	"date": {"2026-06-21", "1999-12-31", "2024-02-29", "2023-02-29"},
	"zone": {"Europe/London", "America/St_Johns", "UTC", "Pacific/Apia"},
	"line": {"plates", "joists", "sheet", "boards"}, "label": {"trimmer", ""},
}

func (g gambler) value(k reckonKey, t reflect.Type, few bool) any {
	switch t.Kind() {
	case reflect.Float64, reflect.Int:
		v := usual[g.IntN(len(usual))]
		if k.min != nil && k.max != nil && g.IntN(4) > 0 {
			v = *k.min + g.Float64()*(*k.max-*k.min)
			if g.IntN(3) == 0 { // most measures are small beside their limits
				v = *k.min + (v-*k.min)/20
			}
		}
		for _, edge := range []*float64{k.min, k.max} {
			if edge != nil && g.IntN(12) == 0 {
				v = *edge
			}
		}
		if few {
			v = min(v, 200)
		}
		if t.Kind() == reflect.Int || g.IntN(2) == 0 {
			v = float64(int(v))
		}
		return v
	case reflect.String:
		if k.enum != nil {
			return k.enum[g.IntN(len(k.enum))]
		}
		words, ok := sensible[k.name]
		if !ok || g.IntN(20) == 0 {
			words = []string{"", "é", "Local", "\x00", "0"}
		}
		return words[g.IntN(len(words))]
	case reflect.Bool:
		return g.IntN(2) == 0
	case reflect.Slice:
		n := g.IntN(6)
		switch k.name { // lists that must fit each other
		case "edges", "sides_mm", "outline":
			n = 4
		case "tops_mm", "centres_mm", "stations_mm":
			n = 3
		}
		list := make([]any, n)
		for i := range list {
			list[i] = g.value(k, t.Elem(), few)
		}
		return list
	case reflect.Struct:
		return g.object(t, few)
	}
	panic(t.String())
}

// TestReckonGambled: thousands of inputs of the right shape, most of them
// nonsense. RECKON_TRIES sets how many for each topic.
func TestReckonGambled(t *testing.T) {
	t.Parallel()
	tries := 120
	if n, err := strconv.Atoi(os.Getenv("RECKON_TRIES")); err == nil {
		tries = n
	}
	for _, topic := range reckonTopics() {
		t.Run(topic.name, func(t *testing.T) {
			t.Parallel()
			g := gambler{rand.New(rand.NewPCG(1, 2))}
			answered := 0
			tries := tries
			if topic.name == "choose" {
				tries = (tries + 3) / 4 // it judges dozens of joists each time
			}
			for i := range tries {
				o := g.changed(topic)
				if i%2 == 0 {
					o = g.object(topic.in, topic.name == "cut")
				}
				raw, err := json.Marshal(o)
				require.NoError(t, err)
				if checkReckon(t, topic, string(raw)) {
					answered++
				}
				if i%8 == 0 { // and the same again
					_, first, _ := reckoned(string(raw), topic.name, "--json")
					_, second, _ := reckoned(string(raw), topic.name, "--json")
					require.Equal(t, first, second)
				}
			}
			t.Logf("%s: %d of %d answered", topic.name, answered, tries)
			assert.Greater(t, answered, tries/50, "the dice hardly ever reach the calculation")
		})
	}
}

// FuzzReckon: whatever stands on stdin, there is one JSON object on stdout and
// the exit code is 0 or 2.
func FuzzReckon(f *testing.F) {
	topics := reckonTopics()
	for i, t := range topics {
		f.Add(uint8(i), string(t.exampleJSON()))
	}
	for i, input := range hostile {
		f.Add(uint8(i), input)
	}
	f.Fuzz(func(t *testing.T, which uint8, input string) {
		topic := topics[int(which)%len(topics)]
		if o, err := readJSON(strings.NewReader(input)); err == nil && dear(o) {
			t.Skip("a search as long as this is the caller's wish")
		}
		checkReckon(t, topic, input)
	})
}

// FuzzReckonWords: whatever is typed as key=value words, one to a line, it is
// answered on stdout or refused on stderr.
func FuzzReckonWords(f *testing.F) {
	topics := reckonTopics()
	for i, t := range topics {
		f.Add(uint8(i), strings.Join(t.example, "\n"))
	}
	f.Add(uint8(3), "h_mm=1,200\nb_mm=two inches\nmethod=EC5")
	f.Add(uint8(8), "stock=[[[\npieces=\xff\nkerf_mm=½")
	f.Fuzz(func(t *testing.T, which uint8, words string) {
		topic := topics[int(which)%len(topics)]
		args := strings.Split(words, "\n")
		for _, a := range args {
			if strings.HasPrefix(a, "-") || strings.Contains(a, "budget") {
				t.Skip("a flag, or a wish for a long search")
			}
		}
		code, stdout, stderr := reckoned("", append([]string{topic.name}, args...)...)
		switch code {
		case exitOK:
			require.Empty(t, stderr)
			require.NotEmpty(t, strings.TrimSpace(stdout))
		case exitUsage:
			require.Empty(t, stdout)
			require.Contains(t, stderr, "  wanted   ")
		default:
			t.Fatalf("%s %q: exit %d: %s", topic.name, words, code, stderr)
		}
	})
}

// dear says whether an input asks for a long search.
func dear(o object) bool {
	for _, m := range o {
		if n, ok := m.value.(json.Number); ok && m.key == "budget" {
			v, err := n.Float64()
			return err != nil || v > 1e5
		}
	}
	return false
}
