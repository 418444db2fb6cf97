package event

import (
	"encoding/json"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Source: RFC 8785, appendix B, number serialization samples (finite ones).
var rfc8785Numbers = map[uint64]string{
	0x0000000000000000: "0",
	0x8000000000000000: "0",
	0x0000000000000001: "5e-324",
	0x8000000000000001: "-5e-324",
	0x7fefffffffffffff: "1.7976931348623157e+308",
	0xffefffffffffffff: "-1.7976931348623157e+308",
	0x4340000000000000: "9007199254740992",
	0xc340000000000000: "-9007199254740992",
	0x4430000000000000: "295147905179352830000",
	0x44b52d02c7e14af5: "9.999999999999997e+22",
	0x44b52d02c7e14af6: "1e+23",
	0x44b52d02c7e14af7: "1.0000000000000001e+23",
	0x444b1ae4d6e2ef4e: "999999999999999700000",
	0x444b1ae4d6e2ef4f: "999999999999999900000",
	0x444b1ae4d6e2ef50: "1e+21",
	0x3eb0c6f7a0b5ed8c: "9.999999999999997e-7",
	0x3eb0c6f7a0b5ed8d: "0.000001",
	0x41b3de4355555553: "333333333.3333332",
	0x41b3de4355555554: "333333333.33333325",
	0x41b3de4355555555: "333333333.3333333",
	0x41b3de4355555556: "333333333.3333334",
	0x41b3de4355555557: "333333333.33333343",
	0xbecbf647612f3696: "-0.0000033333333333333333",
	0x43143ff3c1cb0959: "1424953923781206.2",
}

func TestCanonicalNumbers(t *testing.T) {
	t.Parallel()
	for bits, want := range rfc8785Numbers {
		f := math.Float64frombits(bits)
		// As encoding/json writes it, and in two other spellings of the same value.
		plain, err := json.Marshal(f)
		require.NoError(t, err)
		for _, spelt := range []string{string(plain), strconv.FormatFloat(f, 'e', -1, 64), new(big.Float).SetFloat64(f).Text('e', 800)} {
			got, err := canonical(json.Number(spelt))
			require.NoError(t, err)
			assert.Equal(t, want, string(got), "%x from %s", bits, spelt)
		}
	}
}

// TestWholeNumbersKeepTheirDigits: counts of 64 bits, which RFC 8785 has no
// numbers for.
func TestWholeNumbersKeepTheirDigits(t *testing.T) {
	t.Parallel()
	for _, n := range []string{"0", "-1", "9007199254740993", "9223372036854775807", "-9223372036854775808", "18446744073709551615"} {
		got, err := canonical(json.Number(n))
		require.NoError(t, err)
		assert.Equal(t, n, string(got))
	}
	_, err := canonical(json.Number("1e999"))
	require.Error(t, err)
}

// TestCanonicalOnce: canonical bytes read as JSON are canonical.
func TestCanonicalOnce(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(7, 8))
	for range 20000 {
		f := number(rng)
		raw, err := json.Marshal(f)
		require.NoError(t, err)
		once, err := canonical(json.Number(raw))
		require.NoError(t, err)
		twice, err := canonical(json.Number(once))
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
		back, err := strconv.ParseFloat(string(once), 64)
		require.NoError(t, err)
		require.Equal(t, f, back)
	}
}

func TestCanonicalStrings(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]string{
		// Source: RFC 8785, 3.2.2, the sample object's "string" member.
		"€$\u000F\nA'B\"\\\\\"/": `"€$\u000f\nA'B\"\\\\\"/"`,
		// Source: RFC 8785, 3.2.2.2: the short forms, other controls in lower-case
		// hex, everything else as it is.
		"\b\t\n\f\r":            `"\b\t\n\f\r"`,
		"\x00\x1b\x7f":          "\"\\u0000\\u001b\x7f\"",
		"<script>&\u2028\u2029": "\"<script>&\u2028\u2029\"",
		"😀":                     `"😀"`,
	} {
		got, err := canonical(in)
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
		var back string
		require.NoError(t, json.Unmarshal(got, &back))
		assert.Equal(t, in, back)
	}
	for in, want := range map[any]string{true: "true", false: "false", nil: "null"} {
		got, err := canonical(in)
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
	}
}
