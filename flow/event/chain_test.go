package event

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// clone is a copy that shares nothing.
func clone(r Record) Record {
	leaves := make([]Leaf, len(r.Leaves))
	for i, l := range r.Leaves {
		leaves[i] = Leaf{Pointer: l.Pointer, Salt: bytes.Clone(l.Salt), Value: bytes.Clone(l.Value), Commit: bytes.Clone(l.Commit)}
	}
	r.Leaves = leaves
	return r
}

// broken expects the chain to break at the event with that number.
func broken(t *testing.T, records []Record, at uint64, what string) {
	t.Helper()
	_, err := VerifyChain(records)
	var b *BrokenError
	require.ErrorAs(t, err, &b, what)
	require.Equal(t, at, b.Seq, what)
	require.NotEmpty(t, b.Why)
}

// TestTampered changes each part of each record of a chain by itself.
func TestTampered(t *testing.T) {
	t.Parallel()
	chain := randomChain(rand.New(rand.NewPCG(11, 1)), 12)
	_, err := VerifyChain(chain)
	require.NoError(t, err)
	for i := range chain {
		changed := func(what string, change func(*Record)) {
			t.Helper()
			mine := slices.Clone(chain)
			mine[i] = clone(chain[i])
			change(&mine[i])
			broken(t, mine, uint64(i+1), what)
		}
		changed("version", func(r *Record) { r.Version = 2 })
		changed("version, a byte on", func(r *Record) { r.Version += 256 })
		changed("seq", func(r *Record) { r.Seq++ })
		changed("at", func(r *Record) { r.At = r.At.Add(time.Nanosecond) })
		changed("kind", func(r *Record) { r.Kind += "x" })
		changed("prev", func(r *Record) { r.Prev[31] ^= 1 })
		changed("hash", func(r *Record) { r.Hash[0] ^= 0x80 })
		for k := range chain[i].Leaves {
			changed("pointer", func(r *Record) { r.Leaves[k].Pointer += "x" })
			changed("salt", func(r *Record) { r.Leaves[k].Salt[SaltSize-1] ^= 1 })
			changed("no salt", func(r *Record) { r.Leaves[k].Salt = nil })
			changed("value", func(r *Record) { r.Leaves[k].Value = []byte(`"something else"`) })
			changed("no value", func(r *Record) { r.Leaves[k].Value = nil })
			changed("both", func(r *Record) { r.Leaves[k].Commit = r.Leaves[k].commitment() })
			changed("erased with another seal", func(r *Record) {
				r.Leaves[k] = Leaf{Pointer: r.Leaves[k].Pointer, Commit: bytes.Repeat([]byte{7}, 32)}
			})
			changed("erased with no seal", func(r *Record) { r.Leaves[k] = Leaf{Pointer: r.Leaves[k].Pointer, Commit: []byte{}} })
			changed("leaf removed", func(r *Record) { r.Leaves = slices.Delete(r.Leaves, k, k+1) })
			changed("leaf doubled", func(r *Record) { r.Leaves = slices.Insert(r.Leaves, k, r.Leaves[k]) })
			changed("leaf added", func(r *Record) {
				r.Leaves = slices.Insert(r.Leaves, k+1, Leaf{Pointer: r.Leaves[k].Pointer + "\x00", Value: []byte("1")})
			})
			if k > 0 {
				changed("leaves swapped", func(r *Record) { r.Leaves[k], r.Leaves[k-1] = r.Leaves[k-1], r.Leaves[k] })
				changed("values swapped", func(r *Record) {
					a, b := &r.Leaves[k], &r.Leaves[k-1]
					if bytes.Equal(a.Value, b.Value) {
						a.Salt, b.Salt = b.Salt, a.Salt
					} else {
						a.Value, b.Value = b.Value, a.Value
					}
				})
			}
		}
	}
}

// TestFlippedBits turns every bit of a written record: it is not read, or does
// not verify, or means the same (a hash in capitals, a field name in another
// case).
func TestFlippedBits(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(12, 1))
	r, err := Seal(Head{}, Entry{At: time.Unix(1e9, 5), By: Actor{ID: "p1", Role: "builder"}, Event: Answered{Step: "depth", Said: "a<b 5.4", Value: Of("mm", 5400)}}, salter(rng))
	require.NoError(t, err)
	raw, err := MarshalRecord(r)
	require.NoError(t, err)
	same := 0
	for i := range 8 * len(raw) {
		flipped := bytes.Clone(raw)
		flipped[i/8] ^= 1 << (i % 8)
		got, err := UnmarshalRecord(flipped)
		if err != nil || got.Verify(Head{}) != nil {
			continue
		}
		again, err := MarshalRecord(got)
		require.NoError(t, err)
		require.Equal(t, string(raw), string(again), "%s", flipped)
		same++
	}
	t.Logf("%d of %d flips mean the same", same, 8*len(raw))
}

// TestChainOrder removes, swaps, doubles, inserts and cuts: the first event that
// is not where it belongs is named.
func TestChainOrder(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(13, 1))
	chain, other := randomChain(rng, 20), randomChain(rng, 20)
	head := chain[19].Head()
	for i := range chain {
		at := uint64(i + 1)
		if i < 19 {
			broken(t, slices.Delete(slices.Clone(chain), i, i+1), at, "removed")
			mine := slices.Clone(chain)
			mine[i], mine[i+1] = mine[i+1], mine[i]
			broken(t, mine, at, "swapped")
		}
		broken(t, slices.Insert(slices.Clone(chain), i, chain[i])[:i+2], at+1, "doubled")
		if i > 0 {
			mine := slices.Clone(chain)
			mine[i] = other[i]
			broken(t, mine, at, "of another stream")

			// Sealed anew in its place, without changing what follows.
			entry, err := chain[i].Open()
			require.NoError(t, err)
			entry.By.Name = "Somebody"
			if mine[i], err = Seal(chain[i-1].Head(), entry, salter(rng)); err != nil {
				t.Fatal(err)
			}
			if i < 19 {
				broken(t, mine, at+1, "sealed anew")
			}
			got, err := VerifyChain(chain[:i])
			require.NoError(t, err, "a chain that ends early holds together")
			assert.NotEqual(t, head, got, "and is told by its head")
		}
	}
	got, err := VerifyChain(chain)
	require.NoError(t, err)
	assert.Equal(t, head, got)
	got, err = VerifyChain(nil)
	require.NoError(t, err)
	assert.Zero(t, got)
}

// TestErase drops random leaves: the chain verifies as before, and neither value
// nor salt is written any more.
func TestErase(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(14, 1))
	chain := randomChain(rng, 30)
	before, err := VerifyChain(chain)
	require.NoError(t, err)
	for i := range chain {
		kept := clone(chain[i])
		gone := map[string]bool{}
		n := chain[i].Erase(func(pointer string, _ json.RawMessage) bool {
			if rng.IntN(3) == 0 {
				gone[pointer] = true
			}
			return gone[pointer]
		})
		require.Equal(t, len(gone), n)
		raw, err := MarshalRecord(chain[i])
		require.NoError(t, err)
		chain[i], err = UnmarshalRecord(raw)
		require.NoError(t, err)
		for k, l := range chain[i].Leaves {
			require.Equal(t, gone[l.Pointer], l.Erased())
			if l.Erased() {
				require.Nil(t, l.Value)
				require.Nil(t, l.Salt)
			} else {
				require.Equal(t, kept.Leaves[k], l)
			}
		}
		_, err = chain[i].Open()
		require.NoError(t, err, "what is left opens")
		require.Zero(t, chain[i].Erase(func(pointer string, _ json.RawMessage) bool { return gone[pointer] }), "once is enough")
	}
	after, err := VerifyChain(chain)
	require.NoError(t, err)
	assert.Equal(t, before, after)
}

// TestSealedWrong: fields that no program of ours writes are refused even when
// the seal fits them.
func TestSealedWrong(t *testing.T) {
	t.Parallel()
	one := Leaf{Pointer: "/a", Value: []byte("1")}
	for _, leaves := range [][]Leaf{{one, one}, {{Pointer: "/b", Value: []byte("1")}, one}, {{Pointer: "/a", Commit: []byte("short")}}} {
		r := Record{Version: 1, Seq: 1, Kind: "continued", Leaves: leaves}
		r.Hash = r.sum()
		broken(t, []Record{r}, 1, "sealed wrong")
	}
}

func TestEraseLeavesCopiesAlone(t *testing.T) {
	t.Parallel()
	r, err := Seal(Head{}, Entry{By: Actor{Name: "Ada"}, Event: Continued{}}, func([]byte) {})
	require.NoError(t, err)
	other := r
	require.Positive(t, r.Erase(func(string, json.RawMessage) bool { return true }))
	got, err := other.Open()
	require.NoError(t, err)
	assert.Equal(t, "Ada", got.By.Name)
	raw, err := MarshalRecord(r)
	require.NoError(t, err)
	assert.False(t, strings.Contains(string(raw), "Ada"))
}

// TestSaltsHide: the same words twice have different commitments, so an erased
// value can't be guessed by trying words.
func TestSaltsHide(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(15, 1))
	seen := map[string]bool{}
	for range 50 {
		r, err := Seal(Head{}, Entry{By: Actor{Name: "Ada"}, Event: Continued{}}, salter(rng))
		require.NoError(t, err)
		for _, l := range r.Leaves {
			require.Len(t, l.Salt, SaltSize)
			require.False(t, seen[string(l.commitment())])
			seen[string(l.commitment())] = true
		}
	}
}

// TestFieldsDoNotRunTogether: moving a byte from one field to the next changes
// the hash.
func TestFieldsDoNotRunTogether(t *testing.T) {
	t.Parallel()
	a := Leaf{Salt: []byte("ab"), Pointer: "c", Value: []byte("1")}
	b := Leaf{Salt: []byte("a"), Pointer: "bc", Value: []byte("1")}
	assert.NotEqual(t, a.commitment(), b.commitment())
	x := Record{Kind: "ab", Leaves: []Leaf{{Pointer: "c", Value: []byte("1")}}}
	y := Record{Kind: "a", Leaves: []Leaf{{Pointer: "bc", Value: []byte("1")}}}
	assert.NotEqual(t, x.sum(), y.sum())
}
