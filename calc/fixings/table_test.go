package fixings_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// rows reads a table of testdata: a line with its source, a line of names, rows.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	r.FieldsPerRecord = -1
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1, "no rows in %s", name)
	var list []map[string]string
	for _, rec := range all[1:] {
		row := map[string]string{}
		for i, field := range rec {
			row[all[0][i]] = field
		}
		list = append(list, row)
	}
	return list
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}
