package flow_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/takeoff"
	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// step works an input out without the checks of do, for its outcome.
func (j *job) step(text string) flow.Outcome {
	return flow.Step(j.s, talk.Input{At: j.now, By: builder, Reader: "test:b", Asked: flow.Question(j.s), What: talk.Said{Text: text}})
}

func TestWhatIsHeardOfPricesAndDeliveries(t *testing.T) {
	j := begin(t)
	j.to("deck-cut")
	for _, c := range []struct {
		said        string
		item        string
		size        float64
		price       int64
		count       int
		gone, heard bool
	}{
		{said: "price boards 18.50", item: "boards", size: 1, price: 1850},
		{said: "price deck boards £18,50", item: "boards", size: 1, price: 1850},
		{said: "price joists 4.8 13.90", item: "joists", size: 4.8, price: 1390},
		{said: "price joists 4800 13.9", item: "joists", size: 4.8, price: 1390},
		{said: "price battens 3.6", item: "battens", size: 3.6},
		{said: "price battens 3.6 none", item: "battens", size: 3.6, gone: true},
		{said: "price deck adhesive 5 l 42", item: "deck-adhesive", size: 5, price: 4200},
		{said: "price deck screws 200 9.95", item: "deck-screws", size: 200, price: 995},
		{said: "price rubber sheet 9.80", item: "sheet", size: 1, price: 980},
		{said: "came boards 3", item: "boards", size: 1, count: 3},
		{said: "came 3 boards", item: "boards", size: 1, count: 3},
		{said: "came battens 4 3.6", item: "battens", size: 3.6, count: 4},
		{said: "came 4 battens 3600", item: "battens", size: 3.6, count: 4},
		{said: "came boards 0", item: "boards", size: 1},
		{said: "price marble 4", heard: true},
		{said: "price", heard: true},
		{said: "price joists", heard: true},
		{said: "price boards -4", heard: true},
		{said: "came", heard: true},
		{said: "came battens 4", heard: true},
		{said: "came sheet 4 3", heard: true},
	} {
		es := j.step(c.said).Events
		require.NotEmpty(t, es, c.said)
		switch ev := es[0].Event.(type) {
		case event.Priced:
			assert.Equal(t, event.Priced{Item: c.item, Of: ev.Of, Size: c.size, Price: c.price, Gone: c.gone}, ev, c.said)
			assert.False(t, c.heard, c.said)
		case event.Came:
			assert.Equal(t, event.Came{Item: c.item, Size: c.size, Count: c.count}, ev, c.said)
			assert.False(t, c.heard, c.said)
		case event.Heard:
			assert.True(t, c.heard, "%s: %s", c.said, ev.Key)
		default:
			t.Errorf("%s: %#v", c.said, ev)
		}
	}
}

// A price is written into the book as well, and the next job is told it as it
// begins; the job before keeps what it knew.
func TestPricesOutliveTheJobThroughTheBook(t *testing.T) {
	first := begin(t)
	first.to("deck-cut")
	var book flow.Book
	for _, said := range []string{"price boards 18.50", "price joists 4.8 13.90", "price primer 0.5 6", "price primer 0.5 none"} {
		out := first.step(said)
		require.Len(t, out.Book, 1, said)
		book = flow.ApplyBook(book, out.Book[0])
		first.say(said)
	}
	assert.Empty(t, first.step("list").Book)
	prices := book.Prices()
	require.Len(t, prices, 2, "what is no longer had is not handed on")
	assert.Equal(t, "2400x1200x18", prices[0].Of)

	second := &job{t: t, now: first.now.Add(time.Hour)}
	es := second.do(builder, "", talk.Begun{Name: "Shed", Zone: "UTC", Prices: prices})
	r, ok := find[event.Recalled](es)
	require.True(t, ok)
	assert.Len(t, r.Prices, 2)
	second.to("deck-cut")
	o, ok := flow.View{S: second.s}.Plan().Order(takeoff.Boards)
	require.True(t, ok)
	require.NotNil(t, o.Cost)
	assert.EqualValues(t, 1850*o.Needed, int(*o.Cost))

	second.say("change board 2440 1220")
	second.say("yes")
	o, _ = flow.View{S: second.s}.Plan().Order(takeoff.Boards)
	assert.Nil(t, o.Cost, "the price was of another board")
}

// Deliveries add up; a count of nought takes them back.
func TestDeliveriesAddUp(t *testing.T) {
	j := begin(t)
	j.to("deck-cut")
	left := func() int {
		n := 0
		o, ok := flow.View{S: j.s}.Plan().Order(takeoff.Boards)
		require.True(t, ok)
		for _, p := range o.ToGet {
			n += p.Count
		}
		return n
	}
	all := left()
	require.Greater(t, all, 3)
	j.say("came boards 2")
	assert.Equal(t, all-2, left())
	j.say("yes") // boards cut? not while some are missing, unless it is meant
	require.NotNil(t, j.s.Pending)
	j.say("no")
	j.say("came boards 1")
	assert.Equal(t, all-3, left())
	j.say("came boards 0")
	assert.Equal(t, all, left())
}

// open3 is a roof between three walls whose deck the short search leaves open.
func open3(t testing.TB) *job {
	j := begin(t)
	for flow.StepNow(j.s) != "deck-cut" {
		switch flow.StepNow(j.s) {
		case "length":
			j.say("3000 3600")
		case "edges":
			j.say("1 3 3 3")
		case "board":
			j.say("2440 1220")
		case "bed-joint":
			j.say("38")
		case "clear-span":
			j.say("3300")
		default:
			j.plain()
		}
	}
	return j
}

func TestALongSearchComesBackAsAnInputOnce(t *testing.T) {
	j := open3(t)
	before := flow.View{S: j.s}.Plan().Deck
	want, ok := flow.Wanted(j.s)
	require.True(t, ok)
	found := want.Run()
	require.Equal(t, found, want.Run(), "a search must find the same each time")

	stale := found
	stale.Of = "0000"
	assert.Empty(t, j.do(talk.Person{ID: "system", Role: "system"}, "", stale), "what another deck was searched for is nothing to this one")

	es := j.do(talk.Person{ID: "system", Role: "system"}, "", found)
	_, ok = find[event.Solved](es)
	require.True(t, ok)
	after := flow.View{S: j.s}.Plan().Deck
	assert.LessOrEqual(t, after.Boards, before.Boards)
	assert.True(t, after.Searched)
	_, ok = flow.Wanted(j.s)
	assert.False(t, ok, "it is not searched for twice")
	assert.Empty(t, j.do(talk.Person{ID: "system", Role: "system"}, "", found))

	folded := flow.Fold(flow.State{}, j.entries...)
	assert.Equal(t, after.Boards, flow.View{S: folded}.Plan().Deck.Boards)
}

// Once the boards are cut no search can unsaw them.
func TestASearchThatComesTooLateChangesNothing(t *testing.T) {
	j := open3(t)
	want, ok := flow.Wanted(j.s)
	require.True(t, ok)
	j.say("yes")
	require.NotEqual(t, "deck-cut", flow.StepNow(j.s))
	assert.Empty(t, j.do(talk.Person{ID: "system", Role: "system"}, "", want.Run()))
}

// What the search asks for is in the record: a shattered result does no harm.
func TestASpoiledSearchDoesNoHarm(t *testing.T) {
	j := open3(t)
	before := flow.View{S: j.s}.Plan().Deck.Boards
	want, ok := flow.Wanted(j.s)
	require.True(t, ok)
	j.do(talk.Person{ID: "system", Role: "system"}, "", talk.Solved{What: want.What, Of: want.Of, Rows: "1 2 3", Boards: "Q", Bound: 1})
	assert.Equal(t, before, flow.View{S: j.s}.Plan().Deck.Boards)
	_, ok = flow.Wanted(j.s)
	assert.False(t, ok)
}
