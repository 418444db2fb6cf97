package flow

import (
	"strconv"
	"strings"

	"chargehand/flow/event"
)

// readPlace reads latitude and longitude as maps and phones give them: "51.5 -0.1",
// "51.5074,-0.1278", "51.5 N 0.1 W".
func readPlace(text string) (event.Value, bool) {
	replace := strings.NewReplacer("°", " ", ";", " ", "−", "-", "n", " n ", "s", " s ", "e", " e ", "w", " w ")
	cells := strings.Fields(replace.Replace(strings.ToLower(strings.ReplaceAll(text, ", ", " "))))
	if len(cells) == 1 { // one comma between two numbers with points
		cells = strings.Split(cells[0], ",")
	}
	var nums []float64
	for _, c := range cells {
		if i := strings.Index("nsew", c); i >= 0 && len(c) == 1 {
			if len(nums) != 1+i/2 || nums[len(nums)-1] < 0 {
				return event.Value{}, false
			}
			if c == "s" || c == "w" {
				nums[len(nums)-1] *= -1
			}
			continue
		}
		c = strings.Trim(strings.Replace(strings.TrimSuffix(c, ","), ",", ".", 1), "+")
		if strings.ContainsAny(c, "x_") {
			return event.Value{}, false
		}
		n, err := strconv.ParseFloat(c, 64)
		if err != nil {
			return event.Value{}, false
		}
		nums = append(nums, n)
	}
	if len(nums) != 2 || nums[0] < -90 || nums[0] > 90 || nums[1] < -180 || nums[1] > 180 {
		return event.Value{}, false
	}
	return event.Of("degree", nums...), true
}
