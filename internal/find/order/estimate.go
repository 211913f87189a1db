package order

import "math"

// Mean is the expected minutes of a task that takes least minutes when all goes well, most when it goes badly, and usual
// most often; Variance is its variance (PERT: Malcolm, Roseboom, Clark and Fazar, Operations Research 7(5), 1959).
func Mean(least, usual, most float64) float64 { return (least + 4*usual + most) / 6 }

// Variance of the same.
func Variance(least, most float64) float64 { return (most - least) * (most - least) / 36 }

// Chance is how likely tasks one after the other, of the given expected minutes and variance together, are done within
// limit minutes: their sum is taken as normally distributed.
func Chance(limit, mean, variance float64) float64 {
	if variance == 0 {
		if limit >= mean {
			return 1
		}
		return 0
	}
	return math.Erfc((mean-limit)/math.Sqrt(2*variance)) / 2
}

// unsure is the standard deviation of a task of which only the usual minutes are known, as a share of them: common
// practice, no source.
const unsure = 0.25
