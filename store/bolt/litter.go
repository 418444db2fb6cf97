package bolt

import (
	"os"
	"path/filepath"
	"strings"
	"time"
)

// partMark stands in the names of files that are being written; they get their
// own name when they are whole.
const partMark = ".part-"

// litterAge is how old such a file must be to be nobody's: a process was killed
// over it.
const litterAge = time.Hour

// tempBeside makes an empty file with a name of its own in the folder of path.
func tempBeside(path string) (string, error) {
	f, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+partMark+"*")
	if err != nil {
		return "", err
	}
	return f.Name(), f.Close()
}

// sweepLitter deletes what killed processes left beside the store. It is no
// matter if that fails.
func sweepLitter(path string) {
	entries, _ := os.ReadDir(filepath.Dir(path))
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), filepath.Base(path)+partMark) {
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > litterAge {
			os.Remove(filepath.Join(filepath.Dir(path), e.Name()))
		}
	}
}
