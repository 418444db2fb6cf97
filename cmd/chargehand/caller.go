package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"
)

// caller talks to the process that has a store open.
type caller struct {
	client *http.Client
	hello  hello
}

// helloTimeout is for a process that has the store and does not answer: it
// hangs, or was stopped.
const helloTimeout = 2 * time.Second

// call finds the process that has the store; an error means that nobody
// answers at its socket.
func call(ctx context.Context, db string) (*caller, error) {
	c := &caller{client: &http.Client{Transport: &http.Transport{
		DialContext: func(ctx context.Context, _, _ string) (net.Conn, error) {
			var d net.Dialer
			return d.DialContext(ctx, "unix", socketOf(db))
		},
	}}}
	ctx, cancel := context.WithTimeout(ctx, helloTimeout)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://chargehand/hello", nil)
	if err != nil {
		return nil, err
	}
	if err := c.do(req, &c.hello); err != nil {
		c.Close()
		return nil, err
	}
	if c.hello.Protocol != protocol {
		c.Close()
		return nil, &otherProtocol{c.hello}
	}
	return c, nil
}

// otherProtocol means that somebody answers whom this program can't talk to.
type otherProtocol struct{ hello }

func (e *otherProtocol) Error() string {
	return fmt.Sprintf("the store is in use by %s, of another version (%s) that speaks protocol %d, this one %d: use the same version for both, or stop that one",
		e.hello, e.Program, e.Protocol, protocol)
}

func (c *caller) Close() { c.client.CloseIdleConnections() }

func (c *caller) do(req *http.Request, out any) error {
	resp, err := c.client.Do(req)
	if err != nil {
		return fmt.Errorf("asking the running chargehand: %w", err)
	}
	defer resp.Body.Close()
	raw, err := io.ReadAll(resp.Body)
	if err != nil {
		return fmt.Errorf("asking the running chargehand: %w", err)
	}
	if resp.StatusCode != http.StatusOK {
		var f failure
		if json.Unmarshal(raw, &f) != nil || f.Text == "" {
			f.Text = "the running chargehand answers " + resp.Status
		}
		return f.err()
	}
	return json.Unmarshal(raw, out)
}
