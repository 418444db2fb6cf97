package event

import (
	"math"
	"time"
)

// Value is a measured or told value with its unit beside it, as the record
// keeps it. Exactly one of Nums, Text and At carries the meaning, by Unit:
//
//	mm, m2, m, celsius, pct, count, min, litre, kn, kn_m2, kg, ratio, number, m_s   Nums
//	money (hundredths)                                           Nums
//	pick, yes, text, key (of a phrase)                            Text
//	pieces                          letters in Text, lengths in mm in Nums
//	time, date                                                   At
//	degree (latitude, longitude)                                 Nums
//	hours (of weather, see flow's forecast.go)                   Text, counted from At
type Value struct {
	Unit string    `json:"unit"`
	Nums []float64 `json:"nums,omitempty"`
	Text string    `json:"text,omitempty"`
	At   time.Time `json:"at,omitzero"`
}

// Num returns the first number, or 0 where there is none.
func (v Value) Num() float64 {
	if len(v.Nums) == 0 {
		return 0
	}
	return v.Nums[0]
}

// Yes says whether the value is a yes.
func (v Value) Yes() bool { return v.Unit == "yes" && v.Text == "yes" }

// Finite reports whether every number in v can stand in a record.
func (v Value) Finite() bool {
	for _, n := range v.Nums {
		if math.IsNaN(n) || math.IsInf(n, 0) {
			return false
		}
	}
	return true
}

// Equal reports whether v and w mean the same.
func (v Value) Equal(w Value) bool {
	if v.Unit != w.Unit || v.Text != w.Text || !v.At.Equal(w.At) || len(v.Nums) != len(w.Nums) {
		return false
	}
	for i := range v.Nums {
		if v.Nums[i] != w.Nums[i] {
			return false
		}
	}
	return true
}

// Of makes a value of numbers.
func Of(unit string, nums ...float64) Value { return Value{Unit: unit, Nums: nums} }

// Word makes a value of text: a pick, a yes or no, free text.
func Word(unit, text string) Value { return Value{Unit: unit, Text: text} }
