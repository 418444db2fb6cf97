package cut_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// instance is a published problem and the cost proven for it.
type instance struct {
	name    string
	set     string
	problem cut.Problem
	optimum int64
}

func rows(t testing.TB, path string) []map[string]string {
	t.Helper()
	file, err := os.Open(path)
	require.NoError(t, err)
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1, "%s is empty", path)
	var out []map[string]string
	for _, rec := range all[1:] {
		row := map[string]string{}
		for i, key := range all[0] {
			row[key] = rec[i]
		}
		out = append(out, row)
	}
	return out
}

func whole(t testing.TB, s string) int {
	t.Helper()
	n, err := strconv.Atoi(s)
	require.NoError(t, err)
	return n
}

func pieces(t testing.TB, s string) []cut.Piece {
	t.Helper()
	var out []cut.Piece
	for _, part := range strings.Split(s, ";") {
		length, count, ok := strings.Cut(part, ":")
		require.True(t, ok, part)
		out = append(out, cut.Piece{Length: unit.Length(whole(t, length)), Count: whole(t, count)})
	}
	return out
}

// multistock reads the format described in testdata/worked/cutting/SOURCES.md.
func multistock(t testing.TB, path string) []instance {
	t.Helper()
	var out []instance
	for _, row := range rows(t, path) {
		p := cut.Problem{
			Kerf:   unit.Length(whole(t, row["kerf"])),
			Trim:   unit.Length(whole(t, row["trim"])),
			Pieces: pieces(t, row["pieces"]),
		}
		for _, part := range strings.Split(row["stock"], ";") {
			f := strings.Split(part, ":")
			require.Len(t, f, 3, part)
			p.Stocks = append(p.Stocks, cut.Stock{
				Length: unit.Length(whole(t, f[0])), Cost: int64(whole(t, f[1])), Available: whole(t, f[2]),
			})
		}
		out = append(out, instance{row["id"], row["kind"], p, int64(whole(t, row["optimum_cost"]))})
	}
	return out
}

// bins reads rows of one stock length without kerf, fewest bars.
func bins(t testing.TB, path string) []instance {
	t.Helper()
	var out []instance
	for _, row := range rows(t, path) {
		p := cut.Problem{
			Stocks: []cut.Stock{{Length: unit.Length(whole(t, row["capacity"])), Cost: 1, Available: cut.Unlimited}},
			Pieces: pieces(t, row["items"]),
		}
		out = append(out, instance{row["name"], row["set"], p, int64(whole(t, row["optimum"]))})
	}
	return out
}

const worked = "../../testdata/worked/cutting/"
