package memory_test

import (
	"testing"

	"chargehand/store"
	"chargehand/store/memory"
	"chargehand/store/storetest"
)

func TestPromises(t *testing.T) {
	storetest.Run(t, storetest.Harness{Open: func(testing.TB) store.Journal { return new(memory.Store) }})
}

func TestPhotos(t *testing.T) {
	storetest.RunPhotos(t, func(_ testing.TB, max int64) store.Photos { return &memory.Photos{Max: max} })
}
