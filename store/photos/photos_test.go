package photos_test

import (
	"path/filepath"
	"testing"

	"chargehand/store"
	"chargehand/store/photos"
	"chargehand/store/storetest"
)

func TestPromises(t *testing.T) {
	storetest.RunPhotos(t, func(t testing.TB, max int64) store.Photos {
		return photos.In(filepath.Join(t.TempDir(), "jobs.photos"), max)
	})
}
