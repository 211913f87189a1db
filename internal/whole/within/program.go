// Package within is the program within the page: a session of package try, and everything that a build writes, for a page that
// has them in a worker instead of a server or a command line. Its files are wherever package os says; in the page that is its memory.
package within

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"boothmock/internal/basis/fault"
	"boothmock/internal/job"
	"boothmock/internal/plan/start"
	"boothmock/internal/try"
)

// Ask is what the page asks for.
type Ask struct {
	Do    string   `json:"do"`    // one of deeds
	Try   try.Ask  `json:"try"`   // for "say"
	Path  string   `json:"path"`  // of a scene, a folder or an image
	At    int      `json:"at"`    // the state that a booth is of, or the pair that a picture is of
	Which int      `json:"which"` // of the pair
	Full  bool     `json:"full"`  // in the whole daylight
	Sure  bool     `json:"sure"`  // a booth of many works is opened too
	Names []string `json:"names"` // of files to make
	File  []byte   `json:"-"`     // a photograph or a ZIP, which is carried beside the message
}

// Reply is what came of it.
type Reply struct {
	Wrong  string      `json:"wrong,omitempty"` // why it was not done, in lines
	Path   string      `json:"path,omitempty"`  // of the scene that is open, or that waits to be
	Many   int         `json:"many,omitempty"`  // works of the scene that waits to be opened, as everything will take its time
	Lines  []string    `json:"lines,omitempty"` // what was made of a folder
	Answer *try.Answer `json:"answer,omitempty"`
	State  *try.State  `json:"state,omitempty"`
	Facts  any         `json:"facts,omitempty"`
	MIME   string      `json:"mime,omitempty"`
	Files  []File      `json:"files,omitempty"`
}

// File is a file that can be made.
type File struct {
	Name string `json:"name"`
	Doc  string `json:"doc"`
}

// Program answers a page. Its methods may be called from any number of goroutines, but for Do "open", "demo", "begin" and "unzip".
type Program struct {
	Home string       // the folder in which booths are kept
	News func(at int) // hears of every new state
	Turn func()       // is called now and then while much is made, so that the page can be answered
	now  *try.Session // nil before one is open
	stop func()       // ends its news
}

var deeds = map[string]func(*Program, Ask) (Reply, []byte, error){
	"open":  func(p *Program, a Ask) (Reply, []byte, error) { return p.open(a.Path) },
	"demo":  (*Program).demo,
	"begin": (*Program).begin,
	"say": func(p *Program, a Ask) (Reply, []byte, error) {
		if a.File != nil {
			a.Try.File = a.File
		}
		said := p.now.Say(a.Try)
		if a.Try.Do == "save" && said.Refused == "" { // no path on this disk means anything to whoever looks at the page
			said.Said = "Saved in this browser. To have it as a file, use Save to your computer"
		}
		return Reply{Answer: &said}, nil, nil
	},
	"state":  func(p *Program, _ Ask) (Reply, []byte, error) { return Reply{State: p.now.State()}, nil, nil },
	"booth":  (*Program).booth,
	"image":  (*Program).image,
	"files":  (*Program).files,
	"make":   (*Program).make,
	"scene":  (*Program).scene,
	"side":   (*Program).side,
	"unzip":  (*Program).unzip,
	"booths": (*Program).booths,
}

// Answer does what is asked for. file is what belongs to the reply besides.
func (p *Program) Answer(a Ask) (r Reply, file []byte) {
	do, known := deeds[a.Do]
	begins := a.Do == "booths" || a.Do == "open" || a.Do == "demo" || a.Do == "begin" || a.Do == "unzip"
	var err error
	switch {
	case !known:
		err = fmt.Errorf("there is no %q to do", a.Do)
	case p.now == nil && !begins:
		err = errors.New("no booth is open")
	default:
		r, file, err = do(p, a)
	}
	if err != nil {
		r.Wrong = lines(err)
	}
	return r, file
}

// lines are faults as people read them, one a line, each with its place.
func lines(err error) string {
	var list fault.List
	if !errors.As(err, &list) {
		return err.Error()
	}
	var out []string
	for _, f := range list {
		out = append(out, f.Error())
	}
	return strings.Join(out, "\n")
}

// open begins to try a scene, in the place of the one before. What was not saved the last time is carried on with.
func (p *Program) open(path string) (Reply, []byte, error) {
	s, err := try.Open(path, job.Settings{})
	if err != nil {
		return Reply{}, nil, err
	}
	s.Folder = p.Home
	if s.State().Asks == "rescued" {
		s.Say(try.Ask{Version: try.Version, Do: "answer", Text: "carry on"})
	}
	p.take(s)
	return Reply{Path: path, State: s.State()}, nil, nil
}

// take makes a session the one that answers.
func (p *Program) take(s *try.Session) {
	p.Close()
	news, stop := s.Watch()
	ended := make(chan struct{})
	go func() {
		for {
			select {
			case <-news:
				p.News(s.State().At)
			case <-ended:
				return
			}
		}
	}()
	p.now, p.stop = s, func() { stop(); close(ended) }
}

// Close ends what is open, when everything is on the disk.
func (p *Program) Close() {
	if p.now != nil {
		p.stop()
		p.now.Close()
		p.now = nil
	}
}

// demo puts the demo into a folder of its own and opens it, so that what is changed is kept.
func (p *Program) demo(Ask) (Reply, []byte, error) {
	name := "demo"
	for n := 2; exists(filepath.Join(p.Home, name)); n++ {
		name = fmt.Sprint("demo ", n)
	}
	path, err := try.NewDemo(filepath.Join(p.Home, name))
	if err != nil {
		return Reply{}, nil, err
	}
	return p.open(path)
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// many works make a page slow: a move is answered at once with as many, tried with booths of scenes/crowd.
const many = 60

// begin opens the scene of a folder. Where there is none it drafts one of the folder's photographs and list, or without a list one in
// which nothing hangs yet. One of many works waits until that is wished for sure.
func (p *Program) begin(a Ask) (Reply, []byte, error) {
	path := sceneIn(a.Path)
	var said []string
	if path == "" {
		d, _, err := job.Start(a.Path, start.Options{Bare: true})
		if err != nil {
			return Reply{}, nil, err
		}
		path = filepath.Join(a.Path, start.SceneFile)
		for _, f := range d.Findings() {
			said = append(said, f.Sentence())
		}
	}
	if f, err := (&job.Workshop{Path: path}).Read(); err == nil && !a.Sure {
		if n := len(f.Items("works")); n > many {
			return Reply{Path: path, Many: n}, nil, nil
		}
	}
	r, file, err := p.open(path)
	r.Lines = said
	return r, file, err
}

// sceneIn is the path of the scene in a folder: booth.yaml, or the first of another name; "" where there is none.
func sceneIn(dir string) string {
	if usual := filepath.Join(dir, start.SceneFile); exists(usual) {
		return usual
	}
	there, _ := os.ReadDir(dir) // in the order of their names
	for _, f := range there {
		switch strings.ToLower(filepath.Ext(f.Name())) {
		case ".yaml", ".yml":
			if !strings.HasPrefix(f.Name(), ".") {
				return filepath.Join(dir, f.Name())
			}
		}
	}
	return ""
}

// booth is the booth of a state in a light: facts, and as file the model. Both are missing if the state is another by now.
func (p *Program) booth(a Ask) (Reply, []byte, error) {
	b := p.now.Booth(a.At, a.Full)
	if b == nil {
		return Reply{}, nil, nil
	}
	facts := b.Facts()
	if facts == nil {
		return Reply{}, nil, nil
	}
	model, err := b.Model()
	if err != nil || model == nil {
		return Reply{}, nil, err
	}
	return Reply{Facts: facts}, model, nil
}

// image is the image at an address of the session.
func (p *Program) image(a Ask) (Reply, []byte, error) {
	i := p.now.Image(a.Path)
	if i == nil {
		return Reply{}, nil, errors.New("there is no such picture")
	}
	mime, file, err := job.ImageFile(i)
	return Reply{MIME: mime}, file, err
}

// side is the picture of one of two booths that are side by side, from a view.
func (p *Program) side(a Ask) (Reply, []byte, error) {
	file := p.now.Side(a.At, a.Which, a.Path)
	if file == nil {
		return Reply{}, nil, errors.New("the booths are others by now")
	}
	return Reply{MIME: "image/jpeg"}, file, nil
}

// booths are the names of the folders that are kept.
func (p *Program) booths(Ask) (Reply, []byte, error) {
	var r Reply
	there, err := os.ReadDir(p.Home)
	for _, d := range there {
		r.Lines = append(r.Lines, d.Name())
	}
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	return r, nil, err
}

// files are what can be made of the booth.
func (p *Program) files(Ask) (Reply, []byte, error) {
	var r Reply
	for _, o := range job.Outputs(p.now.Mockup()) {
		r.Files = append(r.Files, File{o.Name, o.Doc})
	}
	return r, nil, nil
}

// make makes files of the booth as it is: one as it is, several as a ZIP.
func (p *Program) make(a Ask) (Reply, []byte, error) {
	m := p.now.Mockup()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, o := range job.Outputs(m) {
		if !slices.Contains(a.Names, o.Name) {
			continue
		}
		p.Turn()
		if len(a.Names) == 1 {
			err := o.Write(m, &b)
			return Reply{Lines: m.Notes()}, b.Bytes(), err
		}
		w, err := z.Create(o.Name)
		if err == nil {
			err = o.Write(m, w)
		}
		if err != nil {
			return Reply{}, nil, err
		}
	}
	err := z.Close()
	return Reply{Lines: m.Notes()}, b.Bytes(), err
}

// scene is a folder with a scene, its photographs and lists, as a ZIP: that of the path, or of the scene that is open. What is not saved
// yet of that one is in it too; of another it stands beside the scene.
func (p *Program) scene(a Ask) (Reply, []byte, error) {
	folder, open := a.Path, filepath.Dir(p.now.State().File)
	if folder == "" || folder == open {
		folder = open
		if said := p.now.Say(try.Ask{Version: try.Version, Do: "save"}); said.Refused != "" {
			return Reply{}, nil, errors.New(said.Refused)
		}
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	dir := os.DirFS(folder)
	err := fs.WalkDir(dir, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && strings.HasPrefix(d.Name(), ".boothmock"):
			return fs.SkipDir
		case d.IsDir() || strings.HasPrefix(d.Name(), ".boothmock") || // a file that is being written
			folder == open && strings.HasSuffix(name, try.UnsavedEnd): // all is saved by now
			return nil
		}
		from, err := dir.Open(name)
		if err != nil {
			return err
		}
		defer from.Close()
		w, err := z.Create(name)
		if err == nil {
			_, err = io.Copy(w, from)
		}
		return err
	})
	if err != nil {
		return Reply{}, nil, err
	}
	err = z.Close()
	return Reply{}, b.Bytes(), err
}

// unzip puts the files of a ZIP into a new folder, as scene makes it.
func (p *Program) unzip(a Ask) (Reply, []byte, error) {
	const most, each = 2000, 200 << 20 // files, and bytes of one: what a photograph may have
	z, err := zip.NewReader(bytes.NewReader(a.File), int64(len(a.File)))
	switch {
	case err != nil:
		return Reply{}, nil, errors.New("this ZIP cannot be read: " + err.Error())
	case len(z.File) > most:
		return Reply{}, nil, fmt.Errorf("this ZIP holds more than %d files", most)
	}
	if err := os.MkdirAll(a.Path, 0o755); err != nil {
		return Reply{}, nil, err
	}
	root, err := os.OpenRoot(a.Path)
	if err != nil {
		return Reply{}, nil, err
	}
	defer root.Close()
	var r Reply
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, "/") {
			continue
		}
		if !fs.ValidPath(f.Name) || f.UncompressedSize64 > each {
			return Reply{}, nil, fmt.Errorf("%q in this ZIP cannot be put into a folder", f.Name)
		}
		if err := unpack(f, root); err != nil {
			return Reply{}, nil, err
		}
		r.Lines = append(r.Lines, f.Name)
	}
	return r, nil, nil
}

// unpack writes a file of a ZIP into a folder.
func unpack(f *zip.File, root *os.Root) error {
	from, err := f.Open()
	if err != nil {
		return err
	}
	defer from.Close()
	if err := root.MkdirAll(filepath.Dir(filepath.FromSlash(f.Name)), 0o755); err != nil {
		return err
	}
	to, err := root.Create(filepath.FromSlash(f.Name))
	if err != nil {
		return err
	}
	_, err = io.Copy(to, io.LimitReader(from, int64(f.UncompressedSize64)))
	return errors.Join(err, to.Close())
}
