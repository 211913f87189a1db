package try

import (
	"strings"

	"boothmock/internal/plan/scene"
)

// called puts down what the fair is called (Name), and whose booth it is (Title). An empty text takes out what was there.
func (s *Session) called(a Ask) (string, error) {
	return s.edit("The fair and whose booth it is", func(f *scene.File) (*scene.File, error) {
		var err error
		for _, k := range []struct{ key, text string }{{"event", a.Name}, {"artist", a.Title}} {
			at, text := scene.Path{{Key: k.key}}, strings.TrimSpace(k.text)
			switch _, there := f.Text(k.key); {
			case text != "":
				f, err = f.Set(at, text)
			case there:
				f, err = f.Delete(at)
			}
			if err != nil {
				return nil, err
			}
		}
		return f, nil
	})
}
