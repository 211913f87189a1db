package light

import (
	"context"
	"time"
)

// patient is a context for long work in a page, where everything runs on one thread: whenever it is asked and some time has
// gone by, whoever else waits has a turn, such as an ask of the page.
func patient(c context.Context) context.Context { return &taking{c, time.Now()} }

type taking struct {
	context.Context
	turn time.Time // of the others
}

// Err is that of the context, after the others' turn.
func (t *taking) Err() error {
	const between = 30 * time.Millisecond // two pictures at 60 a second
	if time.Since(t.turn) > between {
		time.Sleep(time.Millisecond)
		t.turn = time.Now()
	}
	return t.Context.Err()
}
