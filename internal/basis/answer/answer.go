// Package answer keeps answers by what they were made from, so that one version of a booth takes over from the last all whose
// inputs are the same (memoization; incremental compilers do it so, see Erdweg, Lichter and Weiel, A Sound and Optimal
// Incremental Build System, OOPSLA 2015).
package answer

import (
	"cmp"
	"reflect"
	"slices"
	"sync"
)

// Kept are answers. The zero value keeps up to UsualBytes; a nil one keeps nothing. It may be used from many goroutines.
type Kept struct {
	Most int // bytes, beyond which what the present version did not ask for is forgotten, longest unused first; 0: UsualBytes

	mu      sync.Mutex
	answers map[any]*answer
	counts  map[reflect.Type]Count
	last    map[reflect.Type]any // by type, for Next
	version int
	bytes   int
}

// UsualBytes is what is kept at most, beside what the present version needs itself.
const UsualBytes = 512 << 20

type answer struct {
	once  sync.Once
	value any
	bytes int
	used  int // the version that asked last
}

// Count is how often a question was asked, and how often that took work.
type Count struct{ Asked, Worked int }

// Of is the answer for a key: what was kept, or else what work gives, with about how many bytes it takes. The key's type is
// the question, and its value everything that the answer is made from: it must be comparable. Whoever asks at the same
// time waits for the one that works. What is handed out must not be changed.
func Of[V any](k *Kept, key any, work func() (value V, bytes int)) V {
	if k == nil {
		v, _ := work()
		return v
	}
	a := k.find(key)
	worked := false
	a.once.Do(func() {
		v, bytes := work()
		a.value, a.bytes, worked = v, bytes, true
	})
	if worked {
		k.took(key, a)
	}
	return a.value.(V)
}

// Next is the answer that work makes of the one of the same type that the last version left, or of the zero value: what is found the
// quicker the less differs, but not by what it is made from.
func Next[V any](k *Kept, work func(before V) V) V {
	var before V
	if k == nil {
		return work(before)
	}
	key := reflect.TypeFor[V]()
	k.mu.Lock()
	before, _ = k.last[key].(V)
	k.mu.Unlock()
	v := work(before)
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.last == nil {
		k.last = map[reflect.Type]any{}
	}
	k.last[key] = v
	return v
}

func (k *Kept) find(key any) *answer {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.answers == nil {
		k.answers, k.counts = map[any]*answer{}, map[reflect.Type]Count{}
	}
	a, ok := k.answers[key]
	if !ok {
		a = &answer{}
		k.answers[key] = a
	}
	a.used = k.version
	c := k.counts[reflect.TypeOf(key)]
	c.Asked++
	k.counts[reflect.TypeOf(key)] = c
	return a
}

// took counts a new answer, and forgets old ones where there are too many.
func (k *Kept) took(key any, a *answer) {
	k.mu.Lock()
	defer k.mu.Unlock()
	c := k.counts[reflect.TypeOf(key)]
	c.Worked++
	k.counts[reflect.TypeOf(key)] = c
	if k.answers[key] == a { // it was not forgotten meanwhile
		k.bytes += a.bytes
	}
	k.trim()
}

// trim drops, where more is kept than may be, what the present version did not ask for, until a quarter of that is free.
func (k *Kept) trim() {
	most := cmp.Or(k.Most, UsualBytes)
	if k.bytes <= most {
		return
	}
	to := most * 3 / 4
	type old struct {
		key any
		*answer
	}
	var list []old
	for key, a := range k.answers {
		if a.used < k.version {
			list = append(list, old{key, a})
		}
	}
	slices.SortFunc(list, func(a, b old) int { return cmp.Compare(a.used, b.used) })
	for _, o := range list {
		if k.bytes <= to {
			return
		}
		k.bytes -= o.bytes
		delete(k.answers, o.key)
	}
}

// Version says that another version begins to ask. What none of the last versions asked for is forgotten.
func (k *Kept) Version() {
	const last = 10 // versions: as many as somebody goes back and forth between
	k.mu.Lock()
	defer k.mu.Unlock()
	k.version++
	clear(k.counts)
	for key, a := range k.answers {
		if a.used < k.version-last {
			k.bytes -= a.bytes
			delete(k.answers, key)
		}
	}
	k.trim()
}

// Counts are the questions asked since the last Version, by the type of their key.
func (k *Kept) Counts() map[string]Count {
	k.mu.Lock()
	defer k.mu.Unlock()
	out := map[string]Count{}
	for question, c := range k.counts {
		out[question.String()] = c
	}
	return out
}

// Bytes is about how much is kept.
func (k *Kept) Bytes() int {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.bytes
}
