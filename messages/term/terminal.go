package term

import (
	"io"
	"os"

	xterm "golang.org/x/term"
)

// Terminal is a screen with a line to type on. Words that arrive while a person
// types are printed above the line.
type Terminal struct {
	t       *xterm.Terminal
	restore func()
}

// IsTerminal says whether both ends are a terminal.
func IsTerminal(in, out any) bool {
	i, ok1 := in.(*os.File)
	o, ok2 := out.(*os.File)
	return ok1 && ok2 && xterm.IsTerminal(int(i.Fd())) && xterm.IsTerminal(int(o.Fd()))
}

// Open puts the terminal into line editing. Close must be called, on every way
// out, or the person's shell is left without echo.
func Open(in, out *os.File) (*Terminal, error) {
	old, err := xterm.MakeRaw(int(in.Fd()))
	if err != nil {
		return nil, err
	}
	t := xterm.NewTerminal(struct {
		io.Reader
		io.Writer
	}{in, out}, "> ")
	if w, h, err := xterm.GetSize(int(out.Fd())); err == nil && w > 0 {
		_ = t.SetSize(w, h) // a wrong width wraps badly, no more
	}
	return &Terminal{t: t, restore: func() { _ = xterm.Restore(int(in.Fd()), old) }}, nil
}

// New is a terminal over any reader and writer, for tests.
func New(rw io.ReadWriter) *Terminal {
	return &Terminal{t: xterm.NewTerminal(rw, "> "), restore: func() {}}
}

// ReadLine returns what was typed; io.EOF at the end of input or Ctrl-D.
func (t *Terminal) ReadLine() (string, error) { return t.t.ReadLine() }

// Write prints above the line being typed.
func (t *Terminal) Write(p []byte) (int, error) { return t.t.Write(p) }

// Close gives the terminal back as it was.
func (t *Terminal) Close() { t.restore() }
