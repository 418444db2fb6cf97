package hear_test

import (
	"fmt"

	"chargehand/flow/hear"
)

func ExampleAnswer() {
	depth := hear.Want{
		Kind:  hear.PlanLength,
		Range: hear.Range{SoftMin: 1500, SoftMax: 5000, HardMin: 500, HardMax: 10000},
		Lang:  "en",
	}
	for _, said := range []string{"2.9", "2m90", "two metres ninety", `9' 6"`, "290", "54 bananas", "1e3"} {
		h := hear.Answer(said, depth)
		switch {
		case h.Values != nil:
			fmt.Printf("%s: %g mm, read in %s\n", said, h.Values[0].Num, h.Values[0].Unit)
		case h.Ask != nil:
			fmt.Printf("%s: %s, %d options, first %g mm\n", said, h.Ask.Why, len(h.Ask.Options), h.Ask.Options[0].Values[0].Num)
		case h.Refused != nil:
			fmt.Printf("%s: %s, %s\n", said, h.Refused.Why, h.Refused.Example)
		}
	}
	// Output:
	// 2.9: 2900 mm, read in m
	// 2m90: 2900 mm, read in m cm
	// two metres ninety: 2900 mm, read in m cm
	// 9' 6": 2895.6 mm, read in ft in
	// 290: hear.ask.unit, 2 options, first 2900 mm
	// 54 bananas: hear.refused.number, hear.example.plan
	// 1e3: hear.refused.exponent, hear.example.plan
}

// A board is asked for in one line; each number is read by its own rule.
func ExampleAnswer_board() {
	board := hear.Want{Parts: []hear.Want{{Kind: hear.BoardLength}, {Kind: hear.BoardWidth}}}
	for _, said := range []string{"8x4", "2440 1220", "2.4 by 1.2"} {
		h := hear.Answer(said, board)
		fmt.Println(h.Values[0].Num, h.Values[1].Num)
	}
	// Output:
	// 2438.4 1219.2
	// 2440 1220
	// 2400 1200
}

func ExamplePickOption() {
	board := hear.Want{Kind: hear.BoardLength}
	h := hear.Answer("240", board)
	fmt.Println(h.Ask.Why, h.Ask.Options[0].Values[0].Num, h.Ask.Options[1].Values[0].Num)
	h = hear.PickOption("cm", *h.Ask, board)
	fmt.Println(h.Values[0].Num)
	// Output:
	// hear.ask.unit 2400 240
	// 2400
}

func ExampleCommand() {
	question := hear.Want{Kind: hear.PlanLength}
	for _, said := range []string{"d spring", "it's raining!", "change depth 3000", "3000"} {
		cmd, rest, ok := hear.Command(said, question)
		fmt.Printf("%q %q %v\n", cmd, rest, ok)
	}
	// Output:
	// "putoff" "spring" true
	// "rain" "" true
	// "change" "depth 3000" true
	// "" "" false
}
