package bolt_test

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"chargehand/flow/event"
	"chargehand/store/bolt"
)

// One accepted message becomes one commit: its key, the record it makes and the
// clock that it starts. Sent again, it is known.
func Example() {
	dir, err := os.MkdirTemp("", "")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	db, err := bolt.Open(filepath.Join(dir, "jobs.store"), bolt.Options{})
	if err != nil {
		panic(err)
	}
	defer db.Close()
	ctx := context.Background()

	said := event.Entry{
		At:    time.Date(2031, 5, 12, 7, 30, 0, 0, time.UTC),
		By:    event.Actor{ID: "p1", Role: "builder"},
		Event: event.Tapped{Work: "relax", Mark: "begun"},
	}
	head, _ := db.Head(ctx, "job/oak")
	record, err := event.Seal(head, said, func(b []byte) { rand.Read(b) })
	if err != nil {
		panic(err)
	}
	commit := event.Commit{
		Seen: []event.SeenKey{"bot/1/7001"},
		Parts: []event.Part{{
			Stream: "job/oak", Expect: head, Records: []event.Record{record},
			Clocks: []event.Clock{{Name: "relax", Due: said.At.Add(30 * time.Minute)}},
		}},
	}
	fmt.Println(db.Commit(ctx, commit))
	fmt.Println(errors.Is(db.Commit(ctx, commit), event.ErrSeen))

	clock, _, _ := db.NextDue(ctx)
	fmt.Println(clock.Stream, clock.Name, clock.Due.Format(time.TimeOnly))
	report, _ := db.Check(ctx)
	fmt.Println(report.Events, "event, sound:", report.Sound())
	// Output:
	// <nil>
	// true
	// job/oak relax 08:00:00
	// 1 event, sound: true
}
