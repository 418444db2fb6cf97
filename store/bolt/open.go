package bolt

import (
	"errors"
	"io/fs"
	"os"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"go.etcd.io/bbolt"

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
