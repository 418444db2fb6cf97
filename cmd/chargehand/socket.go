package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"time"
)

// A process that has a store open for long (a chat, a server) listens beside
// the file, since the file's lock keeps out everybody else. Spoken is HTTP:
//
//	GET  /hello   who has the store, and which protocol
//	POST /1/NAME  an operation: JSON in, JSON out; errors as {"error", "usage"}
//
// The number in the path is the protocol's; /hello is the same in all of them.
const protocol = 1

// socketOf is where the process that has a store listens.
func socketOf(db string) string { return db + ".sock" }

// hello is who has a store.
type hello struct {
	Protocol int       `json:"protocol"`
	Program  string    `json:"program"`
	PID      int       `json:"pid"`
	Doing    string    `json:"doing"`
	Since    time.Time `json:"since"`
}

func (h hello) String() string {
	return fmt.Sprintf("%s (process %d, since %s)", h.Doing, h.PID, h.Since.Local().Format(time.DateTime))
}

// listener answers other processes.
type listener struct {
	path   string
	server *http.Server
	cancel context.CancelFunc
	done   chan error
}

// listen begins to answer others for the desk. The desk's store is open, so
// whatever socket lies there belongs to nobody any more.
func (d *desk) listen(doing string) (*listener, error) {
	path := socketOf(d.db.Path())
	l, err := bind(path)
	if err != nil {
		return nil, fmt.Errorf("other commands can't reach this one while it runs: %w", err)
	}
	h := hello{Protocol: protocol, Program: version(), PID: os.Getpid(), Doing: doing, Since: d.w.Now()}
	ctx, cancel := context.WithCancel(context.Background())
	out := &listener{path: path, cancel: cancel, done: make(chan error, 1), server: &http.Server{
		Handler:           d.handler(h),
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: 10 * time.Second,
		ErrorLog:          slog.NewLogLogger(slog.NewTextHandler(d.w.Err, nil), slog.LevelWarn),
	}}
	go func() { out.done <- out.server.Serve(l) }()
	return out, nil
}

// bind makes a socket that only this user can open, under a name that others
// can't take first: it is made in a folder of its own and moved in place.
func bind(path string) (net.Listener, error) {
	if info, err := os.Lstat(path); err == nil && (info.Mode().IsRegular() || info.IsDir()) { // not every system says what is a socket
		return nil, fmt.Errorf("%s is no socket and is left alone", path)
	}
	dir, err := os.MkdirTemp(filepath.Dir(path), ".s")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	first := filepath.Join(dir, "s")
	l, err := net.ListenUnix("unix", &net.UnixAddr{Name: first, Net: "unix"})
	if err != nil {
		return nil, err
	}
	l.SetUnlinkOnClose(false)
	if err := errors.Join(os.Chmod(first, 0o600), os.Rename(first, path)); err != nil {
		return nil, errors.Join(err, l.Close())
	}
	return l, nil
}

// Close stops answering. It must come before the store is closed: from then on
// the socket's place may be another process's.
func (l *listener) Close() error {
	_ = os.Remove(l.path) // a socket that stays is known as nobody's
	l.cancel()
	err := l.server.Shutdown(context.Background()) // whoever waits for news has been let go
	if served := <-l.done; !errors.Is(served, http.ErrServerClosed) {
		err = errors.Join(err, served)
	}
	return err
}

func (d *desk) handler(h hello) http.Handler {
	mux := http.NewServeMux()
	answer := func(rw http.ResponseWriter, status int, v any) {
		raw, err := encode(v)
		if err != nil {
			status, raw = http.StatusInternalServerError, []byte(`{"error":"the answer does not encode"}`)
		}
		rw.Header().Set("Content-Type", "application/json")
		rw.WriteHeader(status)
		_, _ = rw.Write(raw) // whoever asked is gone
	}
	mux.HandleFunc("GET /hello", func(rw http.ResponseWriter, _ *http.Request) { answer(rw, http.StatusOK, h) })
	for _, op := range operations() {
		mux.HandleFunc(fmt.Sprintf("POST /%d/%s", protocol, op.title()), func(rw http.ResponseWriter, req *http.Request) {
			out, err := op.serve(req.Context(), d, req.Body)
			if err != nil {
				answer(rw, http.StatusUnprocessableEntity, asFailure(err))
				return
			}
			answer(rw, http.StatusOK, out)
		})
	}
	mux.HandleFunc("/", func(rw http.ResponseWriter, req *http.Request) {
		answer(rw, http.StatusNotFound, failure{Text: fmt.Sprintf("the running chargehand (%s) does not know %s: use the same version for both", h.Program, req.URL.Path)})
	})
	return mux
}
