//go:build !js

package try

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strconv"
	"time"

	"boothmock/internal/job"
	"boothmock/internal/props/art"
)

// What the server takes: more than its own page ever sends.
const (
	mostAsk    = 64 << 10 // bytes of an Ask
	mostAtOnce = 32       // requests
	mostWatch  = 16       // windows that watch
)

// Server shows a session to the person's own browser, on this machine alone.
type Server struct {
	Address string // of the page, with its key

	session  *Session
	listen   net.Listener
	http     http.Server
	room     chan struct{} // one for each request that is being answered
	watched  chan struct{} // one for each window that watches
	bringing chan struct{} // holds one while a photograph is being received
}

// Serve begins to listen at a free port of 127.0.0.1; Run answers.
func Serve(s *Session) (*Server, error) {
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	v := &Server{session: s, listen: l, room: make(chan struct{}, mostAtOnce), watched: make(chan struct{}, mostWatch), bringing: make(chan struct{}, 1)}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", v.page)
	mux.HandleFunc("POST /say", among(v.room, v.say))
	mux.HandleFunc("POST /photograph", among(v.bringing, v.photograph))
	mux.HandleFunc("GET /state", v.state)
	mux.HandleFunc("GET /news", among(v.watched, v.news))
	mux.HandleFunc("GET /facts", among(v.room, v.facts))
	mux.HandleFunc("GET /model", among(v.room, v.model))
	mux.HandleFunc("GET /image/{name}", among(v.room, v.image))
	mux.HandleFunc("GET /side", among(v.room, v.side))
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	g := newGuard(l.Addr().String(), mux)
	v.Address = g.address()
	v.http = http.Server{Handler: g, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: time.Minute, MaxHeaderBytes: 16 << 10}
	return v, nil
}

// Run answers until the context ends or the page asks for an end.
func (v *Server) Run(ctx context.Context) error {
	following, stop := context.WithCancel(ctx)
	followed := make(chan struct{})
	go func() { v.session.Follow(following); close(followed) }()
	defer func() { stop(); <-followed }()
	failed := make(chan error, 1)
	go func() { failed <- v.http.Serve(v.listen) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	case <-v.session.Ended():
		time.Sleep(100 * time.Millisecond) // the page still hears of it
	}
	v.http.Close()
	if err := <-failed; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return ctx.Err()
}

// among handles a request if it finds a place among so many.
func among(places chan struct{}, handle http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		select {
		case places <- struct{}{}:
			defer func() { <-places }()
			handle(w, r)
		default:
			http.Error(w, "Too much at once.", http.StatusTooManyRequests)
		}
	}
}

func (v *Server) page(w http.ResponseWriter, _ *http.Request) {
	html, policy := document()
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Security-Policy", policy)
	w.Write(html)
}

func (v *Server) say(w http.ResponseWriter, r *http.Request) {
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostAsk))
	v.answer(w, body, nil, err)
}

// photograph is say with a photograph: the message is in the address.
func (v *Server) photograph(w http.ResponseWriter, r *http.Request) {
	file, err := io.ReadAll(http.MaxBytesReader(w, r.Body, art.MaxBytes))
	v.answer(w, []byte(r.URL.Query().Get("ask")), file, err)
}

// answer answers a message that could be received.
func (v *Server) answer(w http.ResponseWriter, message, file []byte, err error) {
	var a Ask
	if err == nil {
		d := json.NewDecoder(bytes.NewReader(message))
		d.DisallowUnknownFields()
		err = d.Decode(&a)
	}
	if file != nil {
		a.File = file
	}
	if err != nil {
		http.Error(w, "That cannot be read.", http.StatusBadRequest)
		return
	}
	writeJSON(w, v.session.Say(a))
}

func (v *Server) state(w http.ResponseWriter, _ *http.Request) { writeJSON(w, v.session.State()) }

func writeJSON(w http.ResponseWriter, value any) {
	w.Header().Set("Content-Type", "application/json")
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.Encode(value) // a browser that went away is no fault
}

// news tells a window of every new state, as server-sent events (HTML standard, 9.2).
func (v *Server) news(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	out := http.NewResponseController(w)
	news, stop := v.session.Watch()
	defer stop()
	for {
		fmt.Fprintf(w, "data: %d\n\n", v.session.State().At)
		if out.Flush() != nil {
			return
		}
		select {
		case <-news:
		case <-r.Context().Done():
			return
		}
	}
}

// asked is the booth that a request is about. One of an earlier state is gone.
func (v *Server) asked(w http.ResponseWriter, r *http.Request) *Booth {
	at, err := strconv.Atoi(r.URL.Query().Get("at"))
	if err == nil {
		if b := v.session.Booth(at, r.URL.Query().Get("light") == "full"); b != nil {
			return b
		}
	}
	gone(w)
	return nil
}

func gone(w http.ResponseWriter) {
	http.Error(w, "The booth is another one by now.", http.StatusGone)
}

func (v *Server) facts(w http.ResponseWriter, r *http.Request) {
	b := v.asked(w, r)
	if b == nil {
		return
	}
	if facts := b.Facts(); facts != nil {
		writeJSON(w, facts)
		return
	}
	gone(w)
}

func (v *Server) model(w http.ResponseWriter, r *http.Request) {
	b := v.asked(w, r)
	if b == nil {
		return
	}
	model, err := b.Model()
	switch {
	case err != nil:
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	case model == nil:
		gone(w)
		return
	}
	w.Header().Set("Content-Type", "model/gltf-binary")
	w.Write(model)
}

func (v *Server) image(w http.ResponseWriter, r *http.Request) {
	i := v.session.Image("image/" + r.PathValue("name"))
	if i == nil {
		http.Error(w, "There is no such picture.", http.StatusNotFound)
		return
	}
	mime, file, err := job.ImageFile(i)
	if err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", mime)
	w.Header().Set("Cache-Control", "private, max-age=86400, immutable") // its address changes with it
	w.Write(file)
}

// side is one of two booths that are side by side.
func (v *Server) side(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	number, err := strconv.Atoi(q.Get("number"))
	which, err2 := strconv.Atoi(q.Get("which"))
	if err != nil || err2 != nil {
		gone(w)
		return
	}
	picture := v.session.Side(number, which, q.Get("view"))
	if picture == nil {
		gone(w)
		return
	}
	w.Header().Set("Content-Type", "image/jpeg")
	w.Write(picture)
}
