package try

import (
	"context"
	"errors"
)

// Server is nothing in a browser, which has no ports to listen at: there a Session is spoken to without one.
type Server struct{ Address string }

// Serve fails.
func Serve(*Session) (*Server, error) {
	return nil, errors.New("a program in a browser serves no pages")
}

func (*Server) Run(context.Context) error { return nil }

func (*Server) Show() error { return nil }
