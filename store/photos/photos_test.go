package photos_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/photos"
	"chargehand/store/storetest"
)

func TestPromises(t *testing.T) {
	storetest.RunPhotos(t, func(t testing.TB, max int64) store.Photos {
		return photos.In(filepath.Join(t.TempDir(), "jobs.photos"), max)
	})
}

// put keeps a photo and returns its name and its file.
func put(t *testing.T, d *photos.Dir, dir, content string) (name, file string) {
	t.Helper()
	name, err := d.Put(t.Context(), []byte(content))
	require.NoError(t, err)
	return name, filepath.Join(dir, name[:2], name)
}

func TestPlaceAndRights(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "jobs.photos")
	d := photos.In(dir, 0)
	_, err := os.Stat(dir)
	require.ErrorIs(t, err, fs.ErrNotExist, "no folder before the first photo")
	// Source of the hash: FIPS 180-4 example, SHA-256 of "abc".
	name, file := put(t, d, dir, "abc")
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", name)
	content, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "abc", string(content))
	if runtime.GOOS != "windows" {
		for path, want := range map[string]fs.FileMode{dir: 0o700, filepath.Dir(file): 0o700, file: 0o600} {
			info, err := os.Stat(path)
			require.NoError(t, err)
			assert.Equal(t, want, info.Mode().Perm(), path)
		}
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing is left over")
}

// TestDamaged: a photo that is not the one that was put is never handed out, and
// putting the right one again mends it.
func TestDamaged(t *testing.T) {
	t.Parallel()
	for how, damage := range map[string]func(file string) error{
		"changed":   func(file string) error { return os.WriteFile(file, []byte("the phota"), 0o600) },
		"cut short": func(file string) error { return os.Truncate(file, 3) },
		"empty":     func(file string) error { return os.Truncate(file, 0) },
	} {
		dir := filepath.Join(t.TempDir(), "jobs.photos")
		d := photos.In(dir, 0)
		name, file := put(t, d, dir, "the photo")
		require.NoError(t, damage(file))
		_, err := d.Get(t.Context(), name)
		var damaged *store.Damaged
		require.ErrorAs(t, err, &damaged, how)
		assert.Equal(t, file, damaged.Path)
		assert.Equal(t, store.AdvicePhoto, damaged.Do)
		var r store.Report
		require.NoError(t, d.Check(t.Context(), &r))
		require.Len(t, r.Findings, 1)
		assert.Equal(t, name, r.Findings[0].Photo)
		put(t, d, dir, "the photo")
		got, err := d.Get(t.Context(), name)
		require.NoError(t, err)
		assert.Equal(t, "the photo", string(got))
	}
}

func TestRemove(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "jobs.photos")
	d := photos.In(dir, 0)
	name, file := put(t, d, dir, "wrong photo")
	require.NoError(t, d.Remove(t.Context(), name))
	_, err := os.Stat(file)
	require.ErrorIs(t, err, fs.ErrNotExist)
	for _, other := range []string{name, "", "..", "../x"} {
		require.ErrorIs(t, d.Remove(t.Context(), other), event.ErrUnknown)
	}
}

func TestCheckNamesStrangers(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "jobs.photos")
	d := photos.In(dir, 0)
	var r store.Report
	require.NoError(t, d.Check(t.Context(), &r), "no folder is no finding")
	name, file := put(t, d, dir, "a photo")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "notes.txt"), nil, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, ".part-7"), nil, 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "zz"), 0o700))
	require.NoError(t, os.Link(file, filepath.Join(dir, "zz", name)))
	require.NoError(t, d.Check(t.Context(), &r))
	assert.Equal(t, 1, r.Photos)
	var found []string
	for _, f := range r.Findings {
		assert.Equal(t, store.InPhotos, f.In)
		found = append(found, f.Photo)
	}
	assert.ElementsMatch(t, []string{"notes.txt", ".part-7", name}, found)
}

func TestCopyTo(t *testing.T) {
	t.Parallel()
	from, to := filepath.Join(t.TempDir(), "a.photos"), filepath.Join(t.TempDir(), "b.photos")
	a, b := photos.In(from, 0), photos.In(to, 0)
	require.NoError(t, a.CopyTo(t.Context(), b))
	_, err := os.Stat(to)
	require.ErrorIs(t, err, fs.ErrNotExist)
	one, file := put(t, a, from, "one")
	two, _ := put(t, a, from, "two")
	put(t, b, to, "two")
	require.NoError(t, a.CopyTo(t.Context(), b))
	for _, name := range []string{one, two} {
		_, err := b.Get(t.Context(), name)
		require.NoError(t, err)
	}
	require.NoError(t, os.WriteFile(file, []byte("spoilt"), 0o600))
	require.ErrorAs(t, a.CopyTo(t.Context(), b), new(*store.Damaged))
	ended, end := context.WithCancel(t.Context())
	end()
	require.ErrorIs(t, a.CopyTo(ended, b), context.Canceled)
}
