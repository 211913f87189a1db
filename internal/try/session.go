package try

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"boothmock/internal/basis/fault"
	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/scene"
	"boothmock/internal/props/art"
	"boothmock/internal/view/light"
)

// Session is a scene that is being tried. Its methods may be called from any number of goroutines.
type Session struct {
	Folder string // in which the demo is saved

	shop job.Workshop

	mu         sync.Mutex
	at         int
	scene      *scene.File
	booth      *job.Mockup
	index      index
	state      *State
	past       past
	saved      []byte                  // the text in the file, as it was read or written last
	theirs     []byte                  // the text that somebody else put there meanwhile; nil: none
	rescued    []byte                  // changes of an earlier sitting that were never saved; nil: none
	trouble    string                  // why the file, as it is now, cannot be shown
	images     map[*art.Content]string // addresses of images by what they show
	files      map[string]*art.Image   // by their addresses
	earlier    map[string]*art.Image   // of the state before, whose model may still be on its way to the page
	heard      map[chan struct{}]bool
	added      booth.ID // by what is being done
	sideBySide *Beside  // what is being asked for
	pair       pair     // that is looked at
	variants   []Variant
	loose      []Loose // as they were when the scene was opened
	proposed   proposals
	shown      context.Context // of the state: it ends with it
	hide       context.CancelFunc
	ended      chan struct{}
	end        sync.Once

	toKeep  chan kept
	keptAll chan struct{}
	closed  bool
}

// Open begins to try a scene, of its file or, with an empty path, the demo. The error is a fault.List.
// Close must be called.
func Open(path string, set job.Settings) (*Session, error) {
	s := &Session{
		shop: job.Workshop{Path: path, Settings: set}, toKeep: make(chan kept, 1), keptAll: make(chan struct{}),
		images: map[*art.Content]string{}, files: map[string]*art.Image{}, heard: map[chan struct{}]bool{}, ended: make(chan struct{}),
	}
	f, err := s.shop.Read()
	if err != nil {
		return nil, err
	}
	m, err := s.build(f)
	if err != nil {
		return nil, err
	}
	s.begin(f, m)
	go s.keeper()
	return s, nil
}

// begin shows a scene as it stands in its file.
func (s *Session) begin(f *scene.File, m *job.Mockup) {
	s.saved, s.theirs, s.trouble = f.Source(), nil, ""
	s.past = newPast(f.Source())
	if s.rescued = rescue(s.shop.Path); bytes.Equal(s.rescued, s.saved) {
		s.rescued = nil
	}
	s.lookForVariants()
	s.lookForLoose(m.Plan.Inputs)
	s.take(f, m)
}

// build is the booth of a text of the scene.
func (s *Session) build(f *scene.File) (*job.Mockup, error) {
	p, err := s.shop.Build(f)
	if err != nil {
		return nil, err
	}
	if s.booth != nil {
		return s.booth.Next(p)
	}
	return job.New(p)
}

// take makes a booth the one that is shown.
func (s *Session) take(f *scene.File, m *job.Mockup) {
	s.at++
	if s.hide != nil {
		s.hide()
	}
	s.shown, s.hide = context.WithCancel(context.Background())
	before := s.state
	s.scene, s.booth, s.index = f, m, newIndex(f, m.Plan)
	s.files, s.earlier = map[string]*art.Image{}, s.files
	s.state = s.newState(before)
	s.tell()
}

// tell lets everybody who watches know that there is something new.
func (s *Session) tell() {
	for c := range s.heard {
		select {
		case c <- struct{}{}:
		default: // it has not yet looked at what was new before
		}
	}
}

// Watch gives a channel that something can be read from whenever the state has changed; stop ends that.
func (s *Session) Watch() (news <-chan struct{}, stop func()) {
	c := make(chan struct{}, 1)
	s.mu.Lock()
	s.heard[c] = true
	s.mu.Unlock()
	return c, func() {
		s.mu.Lock()
		delete(s.heard, c)
		s.mu.Unlock()
	}
}

// State is the booth as it is now.
func (s *Session) State() *State {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state
}

// Ended is closed when the page has asked for an end.
func (s *Session) Ended() <-chan struct{} { return s.ended }

// refusal is why nothing is changed, in a sentence.
type refusal string

func (r refusal) Error() string { return string(r) }

func refuse(format string, args ...any) error { return refusal(fmt.Sprintf(format, args...)) }

// deeds are what can be asked for. Each gives what was done, in words.
var deeds = map[string]func(*Session, Ask) (string, error){
	"look":    func(*Session, Ask) (string, error) { return "", nil },
	"hang":    (*Session).hang,
	"swap":    (*Session).swap,
	"stand":   (*Session).stand,
	"nudge":   (*Session).nudge,
	"add":     (*Session).add,
	"remove":  (*Session).remove,
	"bring":   (*Session).photograph,
	"propose": (*Session).propose,
	"tidy":    (*Session).tidy,
	"take":    (*Session).hangAs,
	"keep":    (*Session).keepAs,
	"call":    (*Session).called,
	"open":    (*Session).goOn,
	"beside":  (*Session).beside,
	"type":    (*Session).typed,
	"undo":    func(s *Session, _ Ask) (string, error) { return s.back(s.past.here - 1) },
	"redo":    func(s *Session, _ Ask) (string, error) { return s.back(s.past.here + 1) },
	"go":      func(s *Session, a Ask) (string, error) { return s.back(a.Place) },
	"save":    (*Session).keep,
	"answer":  (*Session).answer,
	"end": func(s *Session, _ Ask) (string, error) {
		s.end.Do(func() { close(s.ended) })
		return "This has come to an end; you can shut the page", nil
	},
}

// Say does what is asked for, or says why not.
func (s *Session) Say(a Ask) Answer {
	s.mu.Lock()
	defer s.mu.Unlock()
	out := Answer{Version: Version}
	s.added, s.sideBySide = "", nil
	do, known := deeds[a.Do]
	if a.Do == "hold" && a.Version == Version && !s.closed { // many a second: without the state, which stays
		floor, err := s.held(a)
		if err != nil {
			out.Refused = sentence(why(err))
		}
		out.Floor = floor
		return out
	}
	var err error
	switch {
	case a.Version != Version:
		err = refuse("This page is of another version of the program: load it anew")
	case s.closed:
		err = refuse("The program has ended")
	case !known:
		err = refuse("There is no such thing to do")
	case s.state.Asks != "" && a.Do != "answer" && a.Do != "look" && a.Do != "end":
		err = refuse("First there is a question to answer")
	default:
		out.Said, err = do(s, a)
	}
	if err != nil {
		out.Refused = sentence(why(err))
	}
	out.Said, out.Added, out.Beside, out.State = sentence(out.Said), s.added, s.sideBySide, s.state
	return out
}

// why is an error in words for the page: without the place in a file, which somebody who only sees the page does not have.
func why(err error) string {
	var list fault.List
	if !errors.As(err, &list) || len(list) == 0 {
		return err.Error()
	}
	out := list[0].Text
	if list[0].Hint != "" {
		out += " (" + list[0].Hint + ")"
	}
	return out
}

func sentence(s string) string {
	return finding.Finding{Message: s}.Sentence()
}

// edit takes a change of the scene's text if a booth can be built of it.
func (s *Session) edit(words string, change func(*scene.File) (*scene.File, error)) (string, error) {
	g, err := change(s.scene)
	if err != nil {
		return "", err
	}
	if bytes.Equal(g.Source(), s.scene.Source()) {
		return "", nil
	}
	f, m, err := s.read(g.Source()) // anew, as a change may have built it to measure
	if err != nil {
		return "", err
	}
	s.past.add(f.Source(), words)
	s.take(f, m)
	s.autosave()
	return words, nil
}

// back shows another version of the past.
func (s *Session) back(to int) (string, error) {
	if to < 0 || to >= s.past.len() || to == s.past.here {
		return "", refuse("There is nothing more to take back or to do again")
	}
	f, m, err := s.read(s.past.at(to))
	if err != nil {
		return "", err
	}
	words := "Back to: " + s.past.words(to)
	switch to {
	case s.past.here - 1:
		words = "Taken back: " + s.past.words(s.past.here)
	case s.past.here + 1:
		words = "Done again: " + s.past.words(to)
	}
	s.past.show(to)
	s.take(f, m)
	s.autosave()
	return words, nil
}

// read is the booth of a text.
func (s *Session) read(text []byte) (*scene.File, *job.Mockup, error) {
	f, err := s.shop.Parse(text)
	if err != nil {
		return nil, nil, err
	}
	m, err := s.build(f)
	return f, m, err
}

// length is a length in the scene's units.
func (s *Session) length(m float64) string { return unit.Length(m).Format(s.booth.Plan.Units) }

// Booth is the state with that number, to be drawn in a light: the whole daylight if it is full, which takes a while. It is nil if
// the state is another by now.
func (s *Session) Booth(at int, full bool) *Booth {
	s.mu.Lock()
	defer s.mu.Unlock()
	if at != s.at {
		return nil
	}
	return &Booth{s, s.booth, s.shown, full}
}

// Mockup is the booth as it is now.
func (s *Session) Mockup() *job.Mockup {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.booth
}

// Booth is a state of a session in a light.
type Booth struct {
	session *Session
	of      *job.Mockup
	shown   context.Context // ends when another state is shown
	full    bool
}

// lit is nil if another state came to be shown before the light was worked out.
func (b *Booth) lit() *light.Lit {
	if b.full {
		return b.of.LitUntil(b.shown)
	}
	return b.of.SoonUntil(b.shown)
}

// Facts are what the walk reads besides the model, ready for JSON; nil if the state is another by now.
func (b *Booth) Facts() any {
	lit := b.lit()
	if lit == nil {
		return nil
	}
	return job.WalkFacts(b.of, lit)
}

// Model is the booth as a .glb whose images are at addresses of the session; nil if the state is another by now.
func (b *Booth) Model() ([]byte, error) {
	lit := b.lit()
	if lit == nil {
		return nil, nil
	}
	var out bytes.Buffer
	err := job.WriteWalk(b.of, &out, lit, b.session.address)
	return out.Bytes(), err
}

// address is where an image is found.
func (s *Session) address(i *art.Image) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.link(i)
}

// Image is the image at an address, or nil.
func (s *Session) Image(address string) *art.Image {
	s.mu.Lock()
	i, path := s.files[address], s.shop.Path
	if i == nil {
		i = s.earlier[address]
	}
	k := slices.IndexFunc(s.loose, func(l Loose) bool { return l.Image == address })
	var l Loose
	if k >= 0 {
		l = s.loose[k]
	}
	s.mu.Unlock()
	if i == nil && k >= 0 {
		return l.image(filepath.Dir(path))
	}
	return i
}

// part is the part with an ID, or an error for the page.
func (s *Session) part(id booth.ID) (*booth.Part, error) {
	if p := s.booth.Plan.Part(id); p != nil {
		return p, nil
	}
	return nil, refuse("There is no %s here any more", strings.ReplaceAll(string(id), "/", " "))
}
