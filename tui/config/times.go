package config

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// units are what a time is written in.
var units = []struct {
	name string
	of   time.Duration
}{{"h", time.Hour}, {"min", time.Minute}, {"s", time.Second}}

// parseTime reads a time such as "45 min", "0.5 s" or "2h".
func parseTime(words string) (time.Duration, bool) {
	for _, u := range units {
		number, ok := strings.CutSuffix(words, u.name)
		if !ok {
			continue
		}
		n, err := strconv.ParseFloat(strings.TrimRight(number, " "), 64)
		d := math.Round(n * u.of.Seconds() * 1000)
		if err != nil || !(d >= 0 && d <= 24*60*60*1000) || strings.ContainsAny(number, "xXpPeE_+-iInN") {
			return 0, false
		}
		return time.Duration(d) * time.Millisecond, true
	}
	return 0, false
}

// sayTime writes a time as parseTime reads it, in the largest unit that makes it whole.
func sayTime(d time.Duration) string {
	for _, u := range units {
		if d%u.of == 0 && d >= u.of {
			return strconv.FormatInt(int64(d/u.of), 10) + " " + u.name
		}
	}
	return strconv.FormatFloat(d.Seconds(), 'f', -1, 64) + " s"
}
