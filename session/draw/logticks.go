package draw

import (
	"math"
	"strconv"
	"strings"
)

// logTicks are the ticks of a logarithmic axis, about so many of them with texts: at
// the powers of ten, at each second or third of them and so on where there are many, at
// 2 and 5 times them where there is room; and between those without texts.
func (s span) logTicks(about int) ticks {
	low, high := int(math.Floor(math.Log10(s.from)+1e-9)), int(math.Floor(math.Log10(s.to)+1e-9))
	decades := high - low + 1
	every := 1 + (decades-1)/about
	named := "1"
	if r := s.to / s.from; every == 1 && r < 1000 {
		if named = "125"; r < 10 {
			named = "123456789"
		}
	}
	t := ticks{}
	for power := low; power <= high; power++ {
		for n := 1; n <= 9; n++ {
			v := decimal(float64(n), power)
			if v < s.from*(1-1e-9) || v > s.to*(1+1e-9) || n > 1 && every > 1 {
				continue
			}
			text := ""
			if strings.Contains(named, strconv.Itoa(n)) && (power-low)%every == 0 {
				text = logText(n, power, low, high)
			}
			t.at, t.texts = append(t.at, v), append(t.texts, text)
		}
	}
	return t
}

// logText writes n times a power of ten: as a plain number where all are short.
//
// From 0.001 to 90000 plain numbers are short, and easier to read than powers.
func logText(n, power, low, high int) string {
	if low >= -3 && high <= 4 {
		return digits(float64(n), power)
	}
	if n > 1 {
		return strconv.Itoa(n) + "·" + powerOfTen(power)
	}
	if power == 0 || power == 1 {
		return digits(1, power)
	}
	return powerOfTen(power)
}
