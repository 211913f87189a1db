package try

import (
	"bytes"

	"boothmock/internal/job"
	"boothmock/internal/plan/scene"
)

// proposals are ways to hang the works of one text of the scene.
type proposals struct {
	seeking bool
	of      []byte
	ways    []*job.Way
	none    string // why there is none, in a sentence
}

// propose begins to seek better ways to hang the works in their rows. It takes seconds: the state tells when they are there.
func (s *Session) propose(Ask) (string, error) {
	if s.proposed.seeking {
		return "", refuse("That is being sought already")
	}
	text, path, set := s.past.text, s.shop.Path, s.shop.Settings
	s.proposed = proposals{seeking: true, of: text}
	s.noted()
	go func() {
		a, err := job.ArrangeText(path, set, text, true)
		s.mu.Lock()
		defer s.mu.Unlock()
		p := proposals{of: text, none: "No better way to hang them was found."}
		switch {
		case err != nil:
			p.none = sentence(why(err))
		default:
			for _, w := range a.All() {
				if w.As == "" {
					p.ways = append(p.ways, w)
				}
			}
		}
		s.proposed = p
		s.noted()
	}()
	return "Better ways to hang the works are being sought", nil
}

// way is a proposal for the booth as it is.
func (s *Session) way(n int) (*job.Way, error) {
	switch {
	case !bytes.Equal(s.proposed.of, s.past.text):
		return nil, refuse("The booth is another one by now: let it be sought again")
	case n < 0 || n >= len(s.proposed.ways):
		return nil, refuse("There is no such proposal")
	}
	return s.proposed.ways[n], nil
}

// hangAs takes proposal number Place.
func (s *Session) hangAs(a Ask) (string, error) {
	w, err := s.way(a.Place)
	if err != nil {
		return "", err
	}
	return s.edit("works hung as proposed: "+w.Name, func(*scene.File) (*scene.File, error) { return s.shop.Parse(w.Text) })
}

// proposalsNow are the proposals as the page shows them: none once the booth is another.
func (s *Session) proposalsNow() Proposals {
	p := Proposals{Seeking: s.proposed.seeking, Ways: []Way{}}
	if s.proposed.seeking || !bytes.Equal(s.proposed.of, s.past.text) {
		return p
	}
	if len(s.proposed.ways) == 0 {
		p.None = s.proposed.none
	}
	for _, w := range s.proposed.ways {
		p.Ways = append(p.Ways, Way{Name: w.Name, Doc: w.Doc})
	}
	return p
}
