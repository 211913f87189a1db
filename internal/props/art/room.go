package art

import "sync"

// room is memory that several share: who needs some waits until it is free. Whoever needs more than all of it has it alone.
type room struct {
	mu    sync.Mutex
	freed *sync.Cond
	all   int64 // bytes
	left  int64
}

func newRoom(bytes int64) *room {
	r := &room{all: bytes, left: bytes}
	r.freed = sync.NewCond(&r.mu)
	return r
}

// take waits for so many bytes; what it returns gives them back.
func (r *room) take(bytes int64) (free func()) {
	bytes = max(0, min(bytes, r.all))
	r.mu.Lock()
	for r.left < bytes {
		r.freed.Wait()
	}
	r.left -= bytes
	r.mu.Unlock()
	return func() {
		r.mu.Lock()
		r.left += bytes
		r.mu.Unlock()
		r.freed.Broadcast()
	}
}
