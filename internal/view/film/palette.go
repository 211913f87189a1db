package film

import (
	"image"
	"image/color"
	"math"
	"slices"

	"boothmock/internal/basis/colour"
)

// cells is into how many steps each channel is divided when colours are counted.
const (
	bits  = 5
	cells = 1 << (3 * bits)
)

func cell(r, g, b uint8) int {
	const drop = 8 - bits
	return int(r>>drop)<<(2*bits) | int(g>>drop)<<bits | int(b>>drop)
}

// bin is the pixels of one cell: how many, and their mean colour, in CIE L*a*b*.
type bin struct {
	cell  int
	count float64
	mean  [3]float64 // sRGB, 0 to 255
	lab   colour.Lab
}

// count counts the colours of the frames.
func count(frames []*image.NRGBA) []bin {
	var n [cells]int
	var sum [cells][3]int
	for _, m := range frames {
		for i := 0; i+3 < len(m.Pix); i += 4 {
			r, g, b := m.Pix[i], m.Pix[i+1], m.Pix[i+2]
			k := cell(r, g, b)
			n[k]++
			sum[k][0] += int(r)
			sum[k][1] += int(g)
			sum[k][2] += int(b)
		}
	}
	var out []bin
	for k := range n {
		if n[k] == 0 {
			continue
		}
		c := bin{cell: k, count: float64(n[k])}
		for i := range 3 {
			c.mean[i] = float64(sum[k][i]) / float64(n[k])
		}
		c.lab = colour.LabOf(round(c.mean[0]), round(c.mean[1]), round(c.mean[2]))
		out = append(out, c)
	}
	return out
}

func round(v float64) uint8 { return uint8(v + 0.5) }

// table is a palette and, for each cell, the number of its nearest colour.
type table struct {
	colours color.Palette
	of      [cells]uint8
}

// newTable picks n colours for the bins: the box of colours with the greatest error is halved until there are enough,
// then each colour moves to the mean of those that it is nearest to, a few times (Lloyd's method).
func newTable(bins []bin, n int) *table {
	boxes := [][]bin{slices.Clone(bins)}
	errors := []float64{spreadOf(bins)}
	for len(boxes) < n {
		worst := 0
		for i, e := range errors {
			if e > errors[worst] {
				worst = i
			}
		}
		if len(boxes[worst]) < 2 {
			break
		}
		a, b := halved(boxes[worst])
		boxes[worst], errors[worst] = a, spreadOf(a)
		boxes, errors = append(boxes, b), append(errors, spreadOf(b))
	}
	means := make([]colour.Lab, len(boxes))
	for i, b := range boxes {
		means[i] = meanOf(b)
	}
	nearest := make([]int, len(bins))
	for range 6 {
		sums := make([]colour.Lab, len(means))
		weights := make([]float64, len(means))
		for i, c := range bins {
			k := closest(means, c.lab, nearest[i])
			nearest[i] = k
			w := weight(c)
			sums[k].L, sums[k].A, sums[k].B = sums[k].L+w*c.lab.L, sums[k].A+w*c.lab.A, sums[k].B+w*c.lab.B
			weights[k] += w
		}
		for k, w := range weights {
			if w > 0 {
				means[k] = colour.Lab{L: sums[k].L / w, A: sums[k].A / w, B: sums[k].B / w}
			}
		}
	}
	t := new(table)
	// A palette's colour is the mean of the pixels that it stands for, in light as it is stored.
	rgb, weights := make([][3]float64, len(means)), make([]float64, len(means))
	for i, c := range bins {
		k := closest(means, c.lab, nearest[i])
		t.of[c.cell] = uint8(k)
		for j := range 3 {
			rgb[k][j] += c.count * c.mean[j]
		}
		weights[k] += c.count
	}
	full := make([]bool, cells)
	for _, c := range bins {
		full[c.cell] = true
	}
	for k := range t.of { // cells that only dither can lead to
		if !full[k] {
			const half, mask, drop = 1 << (7 - bits), 1<<bits - 1, 8 - bits
			r, g, b := k>>(2*bits), k>>bits&mask, k&mask
			t.of[k] = uint8(closest(means, colour.LabOf(uint8(r<<drop+half), uint8(g<<drop+half), uint8(b<<drop+half)), 0))
		}
	}
	for k, w := range weights {
		w = max(w, 1)
		t.colours = append(t.colours, color.RGBA{round(rgb[k][0] / w), round(rgb[k][1] / w), round(rgb[k][2] / w), 255})
	}
	return t
}

// weight is how much a bin counts when colours are picked: its root, so that the small bright places of paintings are
// not lost beside the large plain ones of drapes and grass.
func weight(c bin) float64 { return math.Sqrt(c.count) }

func square(v float64) float64 { return float64(v * v) }

func apart(a, b colour.Lab) float64 { return square(a.L-b.L) + square(a.A-b.A) + square(a.B-b.B) }

// closest is the number of the nearest colour; guess is a number to begin with.
func closest(means []colour.Lab, c colour.Lab, guess int) int {
	best, least := guess, apart(means[guess], c)
	for k, m := range means {
		if d := m.L - c.L; d*d >= least {
			continue
		}
		if d := apart(m, c); d < least {
			best, least = k, d
		}
	}
	return best
}

func meanOf(bins []bin) (m colour.Lab) {
	total := 0.0
	for _, c := range bins {
		w := weight(c)
		m.L, m.A, m.B, total = m.L+w*c.lab.L, m.A+w*c.lab.A, m.B+w*c.lab.B, total+w
	}
	return colour.Lab{L: m.L / total, A: m.A / total, B: m.B / total}
}

// spreadOf is the summed squared distance of the bins from their mean.
func spreadOf(bins []bin) (sum float64) {
	m := meanOf(bins)
	for _, c := range bins {
		sum += weight(c) * apart(c.lab, m)
	}
	return sum
}

// halved divides bins at their mean along the axis on which they are spread most.
func halved(bins []bin) (a, b []bin) {
	m := meanOf(bins)
	var s [3]float64
	for _, c := range bins {
		w := weight(c)
		s[0], s[1], s[2] = s[0]+w*square(c.lab.L-m.L), s[1]+w*square(c.lab.A-m.A), s[2]+w*square(c.lab.B-m.B)
	}
	along := func(l colour.Lab) float64 { return l.L }
	switch {
	case s[1] > s[0] && s[1] >= s[2]:
		along = func(l colour.Lab) float64 { return l.A }
	case s[2] > s[0]:
		along = func(l colour.Lab) float64 { return l.B }
	}
	for _, c := range bins {
		if along(c.lab) < along(m) {
			a = append(a, c)
		} else {
			b = append(b, c)
		}
	}
	return a, b
}
