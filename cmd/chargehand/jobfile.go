package main

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"chargehand/flow/event"
	"chargehand/store"
)

// A job goes from one machine to another as a file of JSON Lines: a header, then
// its records as the store keeps them, chain and all. Its clocks follow from the
// records. Photos are named, not carried.
const jobFormat = "chargehand job 1"

// jobHeader is the first line.
type jobHeader struct {
	Format string     `json:"format"`
	Scheme string     `json:"scheme"` // the way of hashing
	Job    string     `json:"job"`
	Head   event.Head `json:"head"` // the last record, so that a file cut short is known
	Photos []string   `json:"photos,omitempty"`
	Seal   event.Hash `json:"seal"` // of this line with the seal left empty, against flipped bits
}

func (h jobHeader) sealed() (event.Hash, error) {
	h.Seal = event.Hash{}
	raw, err := encode(h)
	return sha256.Sum256(raw), err
}

// jobFile is a job as a file brings it.
type jobFile struct {
	jobHeader
	Records []event.Record
}

// writeJob writes the file.
func writeJob(w io.Writer, job string, records []event.Record) error {
	h := jobHeader{Format: jobFormat, Scheme: event.Scheme, Job: job}
	for _, r := range records {
		h.Head = r.Head()
		if name := photoIn(r); name != "" {
			h.Photos = append(h.Photos, name)
		}
	}
	var err error
	if h.Seal, err = h.sealed(); err != nil {
		return err
	}
	line, err := encode(h)
	if err != nil {
		return err
	}
	b := bufio.NewWriter(w)
	b.Write(line) // a bufio.Writer keeps its first error for Flush
	for _, r := range records {
		raw, err := event.MarshalRecord(r)
		if err != nil {
			return err
		}
		b.Write(raw)
		b.WriteByte('\n')
	}
	return b.Flush()
}

// errNoJobFile means that a file is something else.
var errNoJobFile = errors.New("it is not an exported job")

// badFile is an exported job that is not as it was written, from an event on.
type badFile struct {
	Path, Job string
	Seq       uint64
	Why       string
}

func (e *badFile) Error() string {
	return fmt.Sprintf("%s: job %s is damaged from event %d on: %s", e.Path, e.Job, e.Seq, e.Why)
}

// readJob reads the file and verifies it. A record that does not hold is a
// *badFile that names the first bad event; what comes before it is returned.
func readJob(r io.Reader, path string) (jobFile, error) {
	lines := bufio.NewReader(r)
	h, err := readHeader(lines, path)
	f := jobFile{jobHeader: h}
	if err != nil {
		return f, err
	}
	bad := func(seq uint64, why string) (jobFile, error) { return f, &badFile{path, h.Job, seq, why} }
	var head event.Head
	for {
		line, err := lines.ReadBytes('\n')
		if errors.Is(err, io.EOF) && len(line) == 0 {
			break
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return f, err
		}
		r, err := readRecord(path, h.Job, head, line)
		var damaged *store.Damaged
		if errors.As(err, &damaged) {
			return bad(damaged.Seq, damaged.Why)
		}
		if err != nil {
			return f, err
		}
		f.Records, head = append(f.Records, r), r.Head()
	}
	switch {
	case head.Seq < h.Head.Seq:
		return bad(head.Seq+1, fmt.Sprintf("it is missing: the file is cut short and should end at %d", h.Head.Seq))
	case head.Seq > h.Head.Seq:
		return bad(h.Head.Seq+1, "it stands behind the end that the first line names")
	case head != h.Head:
		return bad(head.Seq, "it is not the end that the first line names")
	}
	return f, nil
}

// readRecord reads a line that follows prev. Its bytes must be those the record
// is written with: JSON can be flipped in a bit and mean the same.
func readRecord(path, job string, prev event.Head, line []byte) (event.Record, error) {
	records, err := store.Decode(path, job, prev, [][]byte{line})
	if err != nil {
		return event.Record{}, err
	}
	raw, err := event.MarshalRecord(records[0])
	if err == nil && !bytes.Equal(append(raw, '\n'), line) {
		err = errors.New("its line is not as it was written")
	}
	if err != nil {
		return event.Record{}, store.BadEvent(path, job, records[0].Seq, err)
	}
	return records[0], nil
}

// readHeader reads the first line, of which every byte counts.
func readHeader(lines *bufio.Reader, path string) (jobHeader, error) {
	const most = 64 << 20 // a file of another kind may have no line at all
	line, err := readLine(lines, most)
	if err != nil {
		return jobHeader{}, err
	}
	var h jobHeader
	if json.Unmarshal(line, &h) != nil {
		return h, errNoJobFile
	}
	if h.Format != jobFormat {
		return h, fmt.Errorf("%w, or one of a newer program: it says %q", errNoJobFile, h.Format)
	}
	seal, err := h.sealed()
	if err != nil {
		return h, err
	}
	again, err := encode(h)
	if err != nil {
		return h, err
	}
	switch {
	case seal != h.Seal || !bytes.Equal(again, line):
		return h, &store.Damaged{Path: path, Why: "its first line is not as it was written", Do: store.AdviceRestore}
	case h.Scheme != event.Scheme:
		return h, &store.Newer{Path: path, Found: h.Scheme, Knows: event.Scheme}
	case h.Job == event.Book || h.Job == "":
		return h, fmt.Errorf("%w: %q is no job", errNoJobFile, h.Job)
	}
	return h, nil
}

// readLine reads a line with its end, up to a length.
func readLine(r *bufio.Reader, most int) ([]byte, error) {
	var out []byte
	for len(out) < most {
		part, err := r.ReadSlice('\n')
		out = append(out, part...)
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, err
		}
		return out, nil
	}
	return nil, errNoJobFile
}
