package bolt

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
)

// walker reads every page that is reachable in a bbolt file and checks that
// bbolt can follow it: numbers inside the file, no page reached twice, elements
// inside their page, keys in order. It reads the file plainly and never maps it,
// so a torn file is an error here where it would be a fault there.
//
// Source: the page layout of etcd-io/bbolt v1.5.0, internal/common/page.go.
type walker struct {
	f        io.ReaderAt
	pageSize int
	pages    uint64
	reached  []uint64 // a bit for each page
	buf      [][]byte // one for each level of depth
}

const (
	branchFlag  = 0x01
	leafFlag    = 0x02
	elementSize = 16
	bucketFlag  = 0x01
	bucketSize  = 16 // root page u64, sequence u64, at the front of a bucket's value
	maxDepth    = 64
)

// walk checks all that is reachable from the head page in use.
func walk(f io.ReaderAt, of heads) error {
	h := of.use
	if h.pages > uint64(of.size)/uint64(h.pageSize) {
		return fmt.Errorf("the file is cut short: it has %d bytes and should have %d pages of %d", of.size, h.pages, h.pageSize)
	}
	w := &walker{f: f, pageSize: int(h.pageSize), pages: h.pages, reached: make([]uint64, h.pages/64+1)}
	return w.tree(h.root, 0, nil, nil)
}

// load returns the page with all its overflow.
func (w *walker) load(id uint64, depth int) ([]byte, error) {
	if id < 2 || id >= w.pages {
		return nil, fmt.Errorf("page %d does not exist", id)
	}
	if depth >= maxDepth {
		return nil, fmt.Errorf("page %d lies too deep", id)
	}
	for len(w.buf) <= depth {
		w.buf = append(w.buf, make([]byte, w.pageSize))
	}
	at := int64(id) * int64(w.pageSize)
	if _, err := w.f.ReadAt(w.buf[depth][:w.pageSize], at); err != nil {
		return nil, fmt.Errorf("page %d can't be read: %w", id, err)
	}
	head := w.buf[depth]
	if got := binary.NativeEndian.Uint64(head); got != id {
		return nil, fmt.Errorf("page %d says it is page %d", id, got)
	}
	more := uint64(binary.NativeEndian.Uint32(head[12:]))
	if id+more >= w.pages {
		return nil, fmt.Errorf("page %d runs over the end", id)
	}
	for p := id; p <= id+more; p++ {
		if w.reached[p/64]&(1<<(p%64)) != 0 {
			return nil, fmt.Errorf("page %d is used twice", p)
		}
		w.reached[p/64] |= 1 << (p % 64)
	}
	if size := int(more+1) * w.pageSize; len(w.buf[depth]) < size {
		w.buf[depth] = append(make([]byte, 0, size), head[:w.pageSize]...)[:size]
	}
	if more > 0 {
		if _, err := w.f.ReadAt(w.buf[depth][w.pageSize:int(more+1)*w.pageSize], at+int64(w.pageSize)); err != nil {
			return nil, fmt.Errorf("page %d can't be read: %w", id, err)
		}
	}
	return w.buf[depth][:int(more+1)*w.pageSize], nil
}

// tree checks the page id and all below it; its keys lie in [from, to), where
// nil means no limit.
func (w *walker) tree(id uint64, depth int, from, to []byte) error {
	page, err := w.load(id, depth)
	if err != nil {
		return err
	}
	switch flags := binary.NativeEndian.Uint16(page[8:]); flags {
	case branchFlag:
		return w.branch(id, page, depth, from, to)
	case leafFlag:
		return w.leaf(fmt.Sprintf("page %d", id), page, depth, from, to)
	default:
		return fmt.Errorf("page %d is of no known kind (%#x)", id, flags)
	}
}

func (w *walker) branch(id uint64, page []byte, depth int, from, to []byte) error {
	n := int(binary.NativeEndian.Uint16(page[10:]))
	if n == 0 {
		return fmt.Errorf("page %d leads nowhere", id)
	}
	keys, kids := make([][]byte, 0, n), make([]uint64, 0, n)
	var last []byte
	for i := range n {
		at := pageHeader + i*elementSize
		if at+elementSize > len(page) {
			return fmt.Errorf("page %d has more entries than room", id)
		}
		pos, ksize := binary.NativeEndian.Uint32(page[at:]), binary.NativeEndian.Uint32(page[at+4:])
		key, err := span(page, at, uint64(pos), uint64(ksize))
		if err != nil {
			return fmt.Errorf("page %d, entry %d: %w", id, i, err)
		}
		if err := inOrder(last, key, from, to); err != nil {
			return fmt.Errorf("page %d, entry %d: %w", id, i, err)
		}
		last = key
		keys = append(keys, key)
		kids = append(kids, binary.NativeEndian.Uint64(page[at+8:]))
	}
	for i, kid := range kids {
		upTo := to
		if i+1 < n {
			upTo = keys[i+1]
		}
		if err := w.tree(kid, depth+1, keys[i], upTo); err != nil {
			return err
		}
	}
	return nil
}

func (w *walker) leaf(name string, page []byte, depth int, from, to []byte) error {
	n := int(binary.NativeEndian.Uint16(page[10:]))
	var last []byte
	for i := range n {
		at := pageHeader + i*elementSize
		if at+elementSize > len(page) {
			return fmt.Errorf("%s has more entries than room", name)
		}
		flags, pos := binary.NativeEndian.Uint32(page[at:]), binary.NativeEndian.Uint32(page[at+4:])
		ksize, vsize := binary.NativeEndian.Uint32(page[at+8:]), binary.NativeEndian.Uint32(page[at+12:])
		key, err := span(page, at, uint64(pos), uint64(ksize))
		if err != nil {
			return fmt.Errorf("%s, entry %d: %w", name, i, err)
		}
		value, err := span(page, at, uint64(pos)+uint64(ksize), uint64(vsize))
		if err != nil {
			return fmt.Errorf("%s, entry %d: %w", name, i, err)
		}
		if err := inOrder(last, key, from, to); err != nil {
			return fmt.Errorf("%s, entry %d: %w", name, i, err)
		}
		last = key
		switch flags {
		case 0:
		case bucketFlag:
			if err := w.bucket(fmt.Sprintf("%s, entry %d", name, i), value, depth); err != nil {
				return err
			}
		default:
			return fmt.Errorf("%s, entry %d is of no known kind (%#x)", name, i, flags)
		}
	}
	return nil
}

// bucket checks a bucket by its value: a root page elsewhere, or a small page
// that lies in the value itself.
func (w *walker) bucket(name string, value []byte, depth int) error {
	if len(value) < bucketSize {
		return fmt.Errorf("%s is too short for a bucket", name)
	}
	if root := binary.NativeEndian.Uint64(value); root != 0 {
		return w.tree(root, depth+1, nil, nil)
	}
	inline := value[bucketSize:]
	if len(inline) < pageHeader || binary.NativeEndian.Uint16(inline[8:]) != leafFlag {
		return fmt.Errorf("%s is no proper bucket", name)
	}
	if depth >= maxDepth {
		return fmt.Errorf("%s lies too deep", name)
	}
	return w.leaf(name, inline, depth+1, nil, nil)
}

// span is the part of a page that an element at at points to.
func span(page []byte, at int, pos, size uint64) ([]byte, error) {
	start := uint64(at) + pos
	if pos < elementSize || start+size > uint64(len(page)) {
		return nil, fmt.Errorf("it lies outside its page")
	}
	return page[start : start+size], nil
}

// inOrder checks a key against the one before it and the limits of its page.
func inOrder(last, key, from, to []byte) error {
	switch {
	case len(key) == 0:
		return fmt.Errorf("it has no key")
	case last != nil && bytes.Compare(last, key) >= 0,
		from != nil && bytes.Compare(key, from) < 0,
		to != nil && bytes.Compare(key, to) >= 0:
		return fmt.Errorf("its key is out of order")
	}
	return nil
}
