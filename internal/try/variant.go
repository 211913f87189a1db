package try

import (
	"bytes"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"boothmock/internal/basis/disk"
	"boothmock/internal/basis/unit"
	"boothmock/internal/job"
	"boothmock/internal/plan/booth"
	"boothmock/internal/plan/finding"
	"boothmock/internal/plan/scene"
)

// Variants of a scene are scenes of their own beside it: booth.yaml, booth-table-at-the-back.yaml, …

// mostVariants are listed: more than anybody compares.
const mostVariants = 20

// family is the file of the scene that a path is a variant of, or the path's own, without what it ends with.
func family(path string) (stem string) {
	stem = strings.TrimSuffix(path, filepath.Ext(path))
	for at := len(stem); at > 0; at = strings.LastIndexByte(stem[:at], '-') {
		if at < len(filepath.Dir(path)) {
			break
		}
		if _, err := os.Lstat(stem[:at] + filepath.Ext(path)); at < len(stem) && err == nil {
			return stem[:at]
		}
	}
	return stem
}

// lookForVariants notes which scenes of the family lie beside each other.
func (s *Session) lookForVariants() {
	s.variants = nil
	if s.shop.Path == "" {
		return
	}
	dir, stem := filepath.Dir(s.shop.Path), filepath.Base(family(s.shop.Path))
	root, err := os.OpenRoot(dir)
	if err != nil {
		return
	}
	defer root.Close()
	entries, _ := fs.ReadDir(root.FS(), ".")
	for _, e := range entries {
		name, ext := strings.TrimSuffix(e.Name(), filepath.Ext(e.Name())), filepath.Ext(e.Name())
		if ext != filepath.Ext(s.shop.Path) || name != stem && !strings.HasPrefix(name, stem+"-") || len(s.variants) == mostVariants {
			continue
		}
		if f, err := scene.Read(disk.Folder{Root: root}, e.Name()); err != nil || len(f.Items("pitch")) == 0 {
			continue // no booth: rules, say
		}
		v := Variant{File: e.Name(), Name: strings.ReplaceAll(strings.TrimPrefix(name, stem+"-"), "-", " "), Here: e.Name() == filepath.Base(s.shop.Path)}
		s.variants = append(s.variants, v)
	}
}

// keepAs keeps the booth as it is now as a variant of a name, a scene beside this one, and goes on with this one.
func (s *Session) keepAs(a Ask) (string, error) {
	switch {
	case s.shop.Path == "":
		return "", refuse("Save the demo as a booth of your own first: variants lie beside it")
	case !plainName(a.Name):
		return "", refuse("Give it a name of letters, digits and blanks")
	}
	file := filepath.Base(family(s.shop.Path)) + "-" + strings.Join(strings.Fields(strings.ToLower(a.Name)), "-") + filepath.Ext(s.shop.Path)
	dir := filepath.Dir(s.shop.Path)
	if _, err := os.Lstat(filepath.Join(dir, file)); err == nil {
		return "", refuse("There is a %s already: take another name", file)
	}
	files, err := disk.In(dir)
	if err != nil {
		return "", err
	}
	defer files.Close()
	text := s.past.text
	if err := files.WriteNew(file, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return "", err
	}
	if err := files.Keep(); err != nil {
		return "", err
	}
	s.lookForVariants()
	s.noted()
	return "Kept in " + file + "; what you change now is still " + filepath.Base(s.shop.Path), nil
}

// goOn shows a variant, to go on with it.
func (s *Session) goOn(a Ask) (string, error) {
	v, err := s.variant(a.Name)
	switch {
	case err != nil:
		return "", err
	case !bytes.Equal(s.past.text, s.saved):
		return "", refuse("Save this one, or keep it as a variant and take its changes back, first")
	}
	was := s.shop.Path
	s.shop.Path = filepath.Join(filepath.Dir(was), v.File)
	f, err := s.shop.Read()
	var m *job.Mockup
	if err == nil {
		m, err = s.build(f)
	}
	if err != nil {
		s.shop.Path = was
		return "", err
	}
	s.begin(f, m)
	return "This is " + v.File, nil
}

func (s *Session) variant(file string) (Variant, error) {
	if k := slices.IndexFunc(s.variants, func(v Variant) bool { return v.File == file && !v.Here }); k >= 0 {
		return s.variants[k], nil
	}
	return Variant{}, refuse("There is no such variant here any more")
}

// beside compares the booth as it is with a variant or, without a name, with proposal number Place.
func (s *Session) beside(a Ask) (string, error) {
	name, text, err := s.second(a)
	if err != nil {
		return "", err
	}
	_, m, err := s.read(text)
	if err != nil {
		return "", err
	}
	s.compare(name, m)
	return "This one and " + name + ", side by side", nil
}

// second is what is put beside the booth as it is.
func (s *Session) second(a Ask) (name string, text []byte, err error) {
	if a.Name == "" {
		w, err := s.way(a.Place)
		if err != nil {
			return "", nil, err
		}
		return w.Name, w.Text, nil
	}
	v, err := s.variant(a.Name)
	if err != nil {
		return "", nil, err
	}
	if text, err = textOf(filepath.Join(filepath.Dir(s.shop.Path), v.File)); err != nil {
		return "", nil, refuse("%s cannot be read: %s", v.File, disk.Why(err))
	}
	return v.Name, text, nil
}

// pair is two booths that are looked at side by side.
type pair struct {
	number int
	of     [2]*job.Mockup
}

// compare puts a booth beside the one that is shown, for the answer.
func (s *Session) compare(name string, m *job.Mockup) {
	s.pair = pair{s.pair.number + 1, [2]*job.Mockup{s.booth, m}}
	r := job.Compare(s.booth, m)
	b := &Beside{Number: s.pair.number, Names: [2]string{"This one", unit.Capital(name)}, Lines: r.Verdicts, Things: []string{}, Totals: []Total{}, Gone: told(r.Gone), New: told(r.New), Views: []Place{}}
	for _, t := range r.Things {
		b.Things = append(b.Things, unit.Capital(t.Name)+" "+t.Words+".")
	}
	b.Totals = append(b.Totals, Total{"Seen by passers-by, on average", [2]string{unit.Share(r.Average[0]).Whole(), unit.Share(r.Average[1]).Whole()}})
	for _, t := range r.Totals {
		b.Totals = append(b.Totals, Total{unit.Capital(t.Name), t.Words})
	}
	for _, v := range s.booth.Plan.Views {
		b.Views = append(b.Views, Place{v.Name, unit.Capital(v.Name)})
	}
	s.sideBySide = b
}

// told are findings in sentences, but for those that are only good to know.
func told(list []finding.Finding) []Found {
	out := []Found{}
	for _, f := range list {
		if f.Level != finding.Note {
			out = append(out, foundOf(f))
		}
	}
	return out
}

func foundOf(f finding.Finding) Found {
	return Found{Level: f.Level, Text: f.Sentence(), Item: f.Item, View: f.View}
}

// Side draws one of two booths that are side by side, both from where the first one's view is, as a JPEG; nil if they are not any more.
func (s *Session) Side(number, side int, view string) []byte {
	s.mu.Lock()
	p := s.pair
	s.mu.Unlock()
	if number != p.number || p.of[0] == nil || side < 0 || side > 1 {
		return nil
	}
	k := slices.IndexFunc(p.of[0].Plan.Views, func(v booth.View) bool { return v.Name == view })
	if k < 0 {
		return nil
	}
	var out bytes.Buffer
	if job.WriteGlance(p.of[side], &out, p.of[0].Plan.Views[k], p.of[0].Plan.Eyes[0]) != nil {
		return nil
	}
	return out.Bytes()
}
