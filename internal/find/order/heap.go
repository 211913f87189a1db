package order

// heap has on top what has the least key, and of those with the same key the one with the least number.
type heap []keyed

type keyed struct {
	key    float64
	number int
}

func (k keyed) before(o keyed) bool { return k.key < o.key || k.key == o.key && k.number < o.number }

func (h *heap) push(key float64, number int) {
	*h = append(*h, keyed{key, number})
	s := *h
	for i := len(s) - 1; i > 0 && s[i].before(s[(i-1)/2]); i = (i - 1) / 2 {
		s[i], s[(i-1)/2] = s[(i-1)/2], s[i]
	}
}

func (h *heap) pop() int {
	s := *h
	top := s[0].number
	s[0] = s[len(s)-1]
	s = s[:len(s)-1]
	for i := 0; ; {
		k := 2*i + 1
		if k+1 < len(s) && s[k+1].before(s[k]) {
			k++
		}
		if k >= len(s) || !s[k].before(s[i]) {
			break
		}
		s[i], s[k] = s[k], s[i]
		i = k
	}
	*h = s
	return top
}
