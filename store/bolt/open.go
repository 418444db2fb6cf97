package bolt

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/photos"
)

// Options of Open. The zero value is right for a person's store.
type Options struct {
	Timeout  time.Duration    // wait for the lock; 0 means one second
	Existing bool             // a missing file is *store.Missing instead of a new store
	KeepSeen time.Duration    // how long seen keys are remembered; 0 means 90 days
	Now      func() time.Time // for the age of seen keys; nil means time.Now
	MaxBytes int              // limit of the file's size; 0 means none
	MaxPhoto int64            // limit of a photo's size; 0 means store.MaxPhoto
	NoSync   bool             // for tests and demos: a power cut loses or breaks the store
}

const (
	defaultTimeout  = time.Second
	defaultKeepSeen = 90 * 24 * time.Hour
	fileMode        = 0o600

	// growStep is how much the file grows at once; bbolt's own 16 MiB is much
	// for one roof.
	growStep = 1 << 20

	// retries bounds how often a file that was replaced while it was being
	// opened is opened again.
	retries = 5
)

// DB is an open store.
type DB struct {
	path     string
	b        *bbolt.DB
	now      func() time.Time
	keepSeen time.Duration
	photos   *photos.Dir
	warnings []store.Finding

	closing sync.RWMutex // read-held while a request goes into the queue
	closed  bool
	queue   chan *request
	done    chan struct{} // closed when the writer has ended
	failed  atomic.Pointer[store.DiskFailed]
	sweepAt []byte // where the writer goes on looking for old seen keys
}

var (
	_ store.Journal = (*DB)(nil)
	_ store.Eraser  = (*DB)(nil)
	_ store.Checker = (*DB)(nil)
)

// Open opens the store at path and makes a new one when there is no file. A
// file that is not a whole store is an error and is not changed: *store.Locked,
// *store.Damaged, *store.NotOurs, *store.Newer, *store.Missing.
func Open(path string, o Options) (*DB, error) {
	if o.Timeout == 0 {
		o.Timeout = defaultTimeout
	}
	if o.KeepSeen == 0 {
		o.KeepSeen = defaultKeepSeen
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		if err := makeNew(path, o); err != nil {
			return nil, err
		}
	}
	for range retries {
		db, err := open(path, o)
		if !errors.Is(err, errReplaced) {
			return db, err
		}
	}
	return nil, &store.Locked{Path: path}
}

// errReplaced means that another process put a new file in the old one's place
// (compacting does) while we waited for the old one's lock.
var errReplaced = errors.New("the file was replaced")

func open(path string, o Options) (*DB, error) {
	warnings, err := inspect(path, o.Timeout)
	if err != nil {
		return nil, err
	}
	b, err := openBolt(path, &bbolt.Options{
		Timeout:         o.Timeout,
		NoFreelistSync:  true,
		FreelistType:    bbolt.FreelistMapType,
		InitialMmapSize: mapSize(),
		MaxSize:         o.MaxBytes,
		NoSync:          o.NoSync,
	})
	if err != nil {
		return nil, err
	}
	b.AllocSize = growStep
	db := &DB{
		path:     path,
		b:        b,
		now:      o.Now,
		keepSeen: o.KeepSeen,
		photos:   photos.In(photosOf(path), o.MaxPhoto),
		warnings: warnings,
		queue:    make(chan *request, maxBatch),
		done:     make(chan struct{}),
	}
	if err := db.checkFormat(); err != nil {
		b.Close()
		return nil, err
	}
	sweepLitter(path)
	db.photos.SweepLitter()
	go db.run()
	return db, nil
}

// openToRead opens a store that nobody may write, for checking it. There is no
// writer: only reading works.
func openToRead(path string, timeout time.Duration) (*DB, error) {
	b, err := openBolt(path, &bbolt.Options{Timeout: timeout, ReadOnly: true, FreelistType: bbolt.FreelistMapType})
	if err != nil {
		return nil, err
	}
	db := &DB{path: path, b: b, closed: true}
	if err := db.checkFormat(); err != nil {
		b.Close()
		return nil, err
	}
	return db, nil
}

// photosOf is the folder of a store's photos.
func photosOf(path string) string { return path + ".photos" }

// mapSize is the address space taken at once: while it lasts, the writer need
// not wait for readers when the file grows. Where it would become the size of
// the file, or address space is short, it is left to bbolt.
func mapSize() int {
	if runtime.GOOS == "windows" || strconv.IntSize == 32 {
		return 0
	}
	return 1 << 30
}

// inspect reads the file under a shared lock without mapping more than its head
// pages.
func inspect(path string, timeout time.Duration) ([]store.Finding, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("store: %w", err)
	}
	defer f.Close()
	if _, err := headsOf(f, path); err != nil { // before bbolt sees an empty or foreign file
		return nil, err
	}
	b, err := openBolt(path, &bbolt.Options{Timeout: timeout, ReadOnly: true})
	if err != nil {
		return nil, err
	}
	defer b.Close()
	h, err := headsOf(f, path) // again, now that nobody writes
	if err != nil {
		return nil, err
	}
	if err := walk(f, h); err != nil {
		return nil, torn(path, err)
	}
	if !h.both {
		return []store.Finding{oneHead}, nil
	}
	return nil, nil
}

var oneHead = store.Finding{In: store.InFile, Why: "one of its two head pages is damaged: a crash in the middle of writing does that, and so does a failing disk; in the second case the newest commit may be missing"}

func torn(path string, err error) error {
	return &store.Damaged{Path: path, Why: err.Error(), Do: store.AdviceRestore, Err: err}
}

// headsOf reads the head pages of a file that should be a store.
func headsOf(f *os.File, path string) (heads, error) {
	info, err := f.Stat()
	if err != nil {
		return heads{}, fmt.Errorf("store: %w", err)
	}
	if !info.Mode().IsRegular() {
		return heads{}, &store.NotOurs{Path: path, Why: "it is no ordinary file"}
	}
	if info.Size() == 0 {
		return heads{}, &store.Damaged{Path: path, Why: "the file is empty, and this program never leaves it so", Do: store.AdviceRestore}
	}
	h := readHeads(f, info.Size())
	switch {
	case !h.ours:
		return heads{}, &store.NotOurs{Path: path, Why: "it begins like no store does"}
	case !h.whole:
		return heads{}, &store.Damaged{Path: path, Why: "both its head pages are damaged", Do: store.AdviceRestore}
	case info.Size() < 2*int64(h.use.pageSize):
		return heads{}, &store.Damaged{Path: path, Why: "the file is cut short: it ends in its head pages", Do: store.AdviceRestore}
	}
	return h, nil
}

// openBolt opens the file with bbolt and turns its errors and panics into ours.
// It makes no file: bbolt would.
func openBolt(path string, o *bbolt.Options) (b *bbolt.DB, err error) {
	var file *os.File
	o.OpenFile = func(name string, flag int, mode os.FileMode) (*os.File, error) {
		f, err := os.OpenFile(name, flag&^os.O_CREATE, mode)
		file = f
		return f, err
	}
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			// The mapping, and the lock with it, stay until the process ends:
			// bbolt gives us nothing to undo them with.
			b, err = nil, torn(path, fmt.Errorf("%v", p))
		}
	}()
	b, err = bbolt.Open(path, fileMode, o)
	switch {
	case err == nil:
	case errors.Is(err, berrors.ErrTimeout):
		return nil, &store.Locked{Path: path}
	case errors.Is(err, berrors.ErrInvalid), errors.Is(err, berrors.ErrVersionMismatch), errors.Is(err, berrors.ErrChecksum):
		return nil, torn(path, err)
	default:
		return nil, fmt.Errorf("store: %w", err)
	}
	opened, err1 := file.Stat()
	named, err2 := os.Stat(path)
	if err1 != nil || err2 != nil || !os.SameFile(opened, named) {
		b.Close()
		return nil, errReplaced
	}
	return b, nil
}

// checkFormat reads the marks in meta before anything is written.
func (db *DB) checkFormat() error {
	var format, hash string
	err := db.view(func(tx *bbolt.Tx) error {
		meta := tx.Bucket(metaBucket)
		if meta == nil {
			return nil
		}
		format, hash = string(meta.Get(formatKey)), string(meta.Get(hashKey))
		if format != formatName+strconv.Itoa(formatVersion) {
			return nil
		}
		for _, name := range buckets() {
			if tx.Bucket(name) == nil {
				return torn(db.path, fmt.Errorf("the part %q is missing", name))
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	version, ok := strings.CutPrefix(format, formatName)
	n, bad := strconv.Atoi(version)
	switch {
	case !ok || bad != nil || n < 1:
		return &store.NotOurs{Path: db.path, Why: "it is a database of another kind"}
	case n > formatVersion:
		return &store.Newer{Path: db.path, Found: format, Knows: formatName + strconv.Itoa(formatVersion)}
	case hash != event.Scheme:
		return &store.Newer{Path: db.path, Found: hash, Knows: event.Scheme}
	}
	return nil
}

// makeNew makes an empty store and gives it its name only when it is whole, so
// that a crash leaves no half-made file under that name.
func makeNew(path string, o Options) error {
	if o.Existing {
		return &store.Missing{Path: path, Why: "the file does not exist", Err: fs.ErrNotExist}
	}
	if names, _ := os.ReadDir(photosOf(path)); len(names) > 0 {
		return &store.Missing{Path: path, Why: "its photos are there but the file is not; no new one is made beside them", Err: fs.ErrNotExist}
	}
	tmp, err := tempBeside(path)
	if errors.Is(err, fs.ErrNotExist) {
		return &store.Missing{Path: path, Why: "its folder does not exist", Err: err}
	}
	if err != nil {
		return fmt.Errorf("store: %w", err)
	}
	defer os.Remove(tmp)
	b, err := bbolt.Open(tmp, fileMode, &bbolt.Options{NoFreelistSync: true, FreelistType: bbolt.FreelistMapType})
	if err != nil {
		return fmt.Errorf("store: %w", err)
	}
	err = b.Update(func(tx *bbolt.Tx) error {
		for _, name := range buckets() {
			if _, err := tx.CreateBucket(name); err != nil {
				return err
			}
		}
		meta := tx.Bucket(metaBucket)
		if err := meta.Put(formatKey, []byte(formatName+strconv.Itoa(formatVersion))); err != nil {
			return err
		}
		return meta.Put(hashKey, []byte(event.Scheme))
	})
	if err := errors.Join(err, b.Close()); err != nil {
		return fmt.Errorf("store: %w", err)
	}
	if err := publish(tmp, path); err != nil {
		var exists *store.Exists
		if errors.As(err, &exists) {
			return nil // another process was quicker; its store is as good
		}
		return err
	}
	return nil
}

// Path is the file of the store.
func (db *DB) Path() string { return db.path }

// Photos keeps the photos that belong to the store, in the folder beside it.
func (db *DB) Photos() store.Photos { return db.photos }

// Warnings tells what Open found that did not keep it from opening.
func (db *DB) Warnings() []store.Finding { return db.warnings }

// Close lets what is queued be written, then closes the file. Whatever comes
// later gets store.ErrClosed.
func (db *DB) Close() error {
	db.closing.Lock()
	if db.closed {
		db.closing.Unlock()
		if db.done != nil {
			<-db.done
		}
		return db.b.Close()
	}
	db.closed = true
	close(db.queue)
	db.closing.Unlock()
	<-db.done
	return db.b.Close()
}
