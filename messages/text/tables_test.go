package text

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// No key has words in two tables: the later table would silently win.
func TestNoKeyIsSaidTwice(t *testing.T) {
	t.Parallel()
	n := 0
	for _, table := range englishTables() {
		n += len(table)
	}
	assert.Len(t, For("en").phrases, n)
}
