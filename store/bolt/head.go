package bolt

import (
	"encoding/binary"
	"hash/fnv"
	"io"
)

// The two head pages of a bbolt file, as etcd-io/bbolt internal/common writes
// them: in the byte order of the machine.
const (
	pageHeader = 16 // id u64, flags u16, count u16, overflow u32
	headBytes  = 64 // magic u32 .. checksum u64, after the page header
	boltMagic  = 0xED0CDAED
	boltLayout = 2
)

// headPage is one of the two.
type headPage struct {
	ours     bool // the magic number is there
	whole    bool // and the checksum fits
	pageSize uint32
	root     uint64
	pages    uint64 // the pages in use: beyond that number nothing is reachable
	txid     uint64
}

func readHead(f io.ReaderAt, at int64) headPage {
	var raw [pageHeader + headBytes]byte
	if n, _ := f.ReadAt(raw[:], at); n < len(raw) {
		return headPage{}
	}
	b := raw[pageHeader:]
	u32, u64 := binary.NativeEndian.Uint32, binary.NativeEndian.Uint64
	sum := fnv.New64a()
	sum.Write(b[:56])
	h := headPage{
		ours:     u32(b) == boltMagic,
		pageSize: u32(b[8:]),
		root:     u64(b[16:]),
		pages:    u64(b[40:]),
		txid:     u64(b[48:]),
	}
	h.whole = h.ours && u32(b[4:]) == boltLayout && u64(b[56:]) == sum.Sum64() && h.pageSize >= 512
	return h
}

// heads is what the two head pages say together.
type heads struct {
	use   headPage
	ours  bool  // at least one carries the magic number
	whole bool  // at least one can be used
	both  bool  // both can
	size  int64 // of the file
}

// readHeads reads both. The second lies one page on, and the size of a page is
// known from the first; if that is damaged, every size is tried.
func readHeads(f io.ReaderAt, size int64) heads {
	first := readHead(f, 0)
	var second headPage
	if first.whole {
		second = readHead(f, int64(first.pageSize))
	} else {
		for at := int64(1024); at <= 16<<20 && at < size; at *= 2 {
			if h := readHead(f, at); h.ours && int64(h.pageSize) == at {
				second = h
				break
			}
		}
	}
	out := heads{
		ours:  first.ours || second.ours,
		whole: first.whole || second.whole,
		both:  first.whole && second.whole,
		use:   first,
		size:  size,
	}
	if !first.whole || second.whole && second.txid > first.txid {
		out.use = second
	}
	return out
}
