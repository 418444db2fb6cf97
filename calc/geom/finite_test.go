package geom_test

import (
	"encoding/json"
	"testing"

	"chargehand/calc/geom"
)

// assertFinite leans on encoding/json, which refuses NaN and Inf anywhere.
func assertFinite(t *testing.T, out geom.RoofOut) {
	t.Helper()
	if _, err := json.Marshal(out); err != nil {
		t.Fatal(err)
	}
}
