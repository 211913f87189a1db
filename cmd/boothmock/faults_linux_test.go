package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"boothmock/internal/basis/imprint"
)

const smallScene = `units: in
pitch: {width: 8ft, depth: 6ft, aisle: 10ft, neighbours: none}
walls: [{side: back, hang on: panel, top: 82}]
tables: [{name: desk, size: 30 x 20, against: left, from front: 4}]
works: [{name: a, size: 12 x 18, weight: 6lb, wall: back, image: a.jpg}]
`

// session is how the program is run: where, by whom, with what.
type session struct {
	dir, program, stdin string // program: another one than usual
	env                 []string
	uid                 uint32
	out                 *os.File // instead of a pipe
	clone               uintptr
}

func (s session) command(args ...string) *exec.Cmd {
	if s.program == "" {
		s.program = program
	}
	c := exec.Command(s.program, args...)
	c.Dir = s.dir
	c.Env = append([]string{asProgram + "=1", "HOME=" + s.dir, "LC_ALL=C.UTF-8"}, s.env...)
	c.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Cloneflags: s.clone} // Setsid: no terminal
	if s.uid != 0 {
		c.SysProcAttr.Credential = &syscall.Credential{Uid: s.uid, Gid: s.uid}
	}
	return c
}

// longest is what a run may take, on a busy machine and with the race detector too.
const longest = 5 * time.Minute

// run runs the program.
func (s session) run(t *testing.T, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	c := s.command(args...)
	var out, errs bytes.Buffer
	c.Stdin, c.Stdout, c.Stderr = strings.NewReader(s.stdin), &out, &errs
	if s.out != nil {
		c.Stdout = s.out
	}
	if err := c.Start(); errors.Is(err, syscall.EPERM) {
		needs(t, "the rights of root")
	} else if err != nil {
		t.Fatal(err)
	}
	late := time.AfterFunc(longest, func() { c.Process.Kill() })
	defer late.Stop()
	if err := c.Wait(); err != nil && c.ProcessState.ExitCode() < 0 {
		t.Fatalf("boothmock %s: %v\n%s", strings.Join(args, " "), err, errs.String())
	}
	return c.ProcessState.ExitCode(), out.String(), errs.String()
}

// refuses runs the program and wants exit code 2, words on standard error, and the folder's files as they were.
func (s session) refuses(t *testing.T, words string, args ...string) {
	t.Helper()
	before := tree(t, s.dir)
	code, _, stderr := s.run(t, args...)
	if code != unusable || !strings.Contains(stderr, words) {
		t.Errorf("boothmock %s: exit code %d, %q; want %q", strings.Join(args, " "), code, stderr, words)
	}
	if after := tree(t, s.dir); !slices.Equal(before, after) {
		t.Errorf("boothmock %s: the folder was\n%v and is\n%v", strings.Join(args, " "), before, after)
	}
}

// tree is every file below a folder, with its text if it is short.
func tree(t *testing.T, dir string) (out []string) {
	t.Helper()
	err := filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
		if err != nil {
			return err
		}
		line := strings.TrimPrefix(path, dir)
		if info.Mode().IsRegular() && info.Size() < 100 {
			b, _ := os.ReadFile(path)
			line += "=" + string(b)
		}
		out = append(out, line)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// lay puts files into a folder.
func lay(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	for name, text := range files {
		file := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// photograph is a JPEG with so many pixels that what is made of it goes onto the shelf.
func photograph(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 1300, 870)), nil); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// needs skips the test, or fails it where the tools are asked for.
func needs(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("REQUIRE_TOOLS") != "" {
		t.Fatal("this needs " + what)
	}
	t.Skip("this needs " + what)
}

// disk1M is a disk of one megabyte.
func disk1M(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("none", dir, "tmpfs", 0, "size=1m"); err != nil {
		needs(t, "root, to mount a disk: "+err.Error())
	}
	t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

func TestDiskFull(t *testing.T) {
	dir := disk1M(t)
	photo := photograph(t)
	lay(t, dir, map[string]string{
		"booth.yaml": smallScene, "a.jpg": photo, "print-pack.pdf": "%PDF-1.4\n/Producer (" + imprint.Name + ")\n%%EOF\n", "share.html": "<!doctype html>\n" + imprint.HTML,
		"booth.times.csv": "practice,step,minutes\n1,frame,7\n", "start/a.jpg": photo, "start/works.csv": "Title,Height,Width\na,12in,18in\n",
	})
	s := session{dir: dir}
	filler, err := os.Create(filepath.Join(dir, "filler"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(filler, zeros{}); !errors.Is(err, syscall.ENOSPC) {
		t.Fatal(err)
	}
	filler.Close()
	full := "not written: the disk is full"
	s.refuses(t, "booth.schema.json was "+full, "start", "start")
	s.stdin = "5\nq\n"
	s.refuses(t, "booth.times.csv was "+full, "rehearse", "booth.yaml", "--time")
	if code, _, stderr := s.run(t, "check", "booth.yaml"); code == unusable || stderr != "" {
		t.Errorf("a check needs no room: %d %s", code, stderr)
	}
	// With a little room, files are begun.
	if err := os.Truncate(filepath.Join(dir, "filler"), 0); err != nil {
		t.Fatal(err)
	}
	filler, _ = os.OpenFile(filepath.Join(dir, "filler"), os.O_WRONLY, 0)
	var stat syscall.Statfs_t
	if err := syscall.Statfs(dir, &stat); err != nil {
		t.Fatal(err)
	}
	filler.Write(make([]byte, int64(stat.Bavail)*stat.Bsize-40_000))
	filler.Close()
	s.run(t, "check", "booth.yaml") // the shelf is there now, or not
	s.refuses(t, "print-pack.pdf was "+full, "hang", "booth.yaml")
	s.refuses(t, full, "share", "booth.yaml")
	if _, err := os.Stat(filepath.Join(dir, "start", "booth.yaml")); err == nil {
		t.Error("start has left half a scene")
	}
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

func TestReadOnlyDisk(t *testing.T) {
	dir := disk1M(t)
	lay(t, dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t), "start/works.csv": "Title,Height,Width\na,12in,18in\n"})
	if err := syscall.Mount("none", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	s := session{dir: dir}
	s.refuses(t, "the disk can only be read", "hang", "booth.yaml")
	s.refuses(t, "the disk can only be read", "build", "booth.yaml")
	s.refuses(t, "the disk can only be read", "start", "start")
	if code, _, stderr := s.run(t, "check", "booth.yaml"); code == unusable || stderr != "" {
		t.Errorf("a check writes nothing: %d %s", code, stderr)
	}
}

// An ordinary user meets what may not be read or written; root would be let through.
func TestNoPermission(t *testing.T) {
	if os.Getuid() != 0 {
		needs(t, "root, to become an ordinary user")
	}
	dir, err := os.MkdirTemp("", "boothmock")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	binary, err := os.ReadFile(program)
	if err != nil {
		t.Fatal(err)
	}
	s := session{dir: filepath.Join(dir, "in"), program: filepath.Join(dir, "boothmock"), uid: 65534}
	if err := os.WriteFile(s.program, binary, 0o755); err != nil {
		t.Fatal(err)
	}
	files := map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t), "works.csv": "Title,Height,Width\na,12in,18in\n"}
	for _, sub := range []string{"good", "shut", "shutscene", "shutimage", "shutsheet", "bare"} {
		lay(t, filepath.Join(s.dir, sub), files)
	}
	lay(t, s.dir, map[string]string{"shutsheet/booth.yaml": smallScene + "sheet: works.csv\n", "home/.config/boothmock/rules.yaml": "hanging centre: 50in\n"})
	os.Remove(filepath.Join(s.dir, "bare", "booth.yaml"))
	for name, mode := range map[string]os.FileMode{
		"..": 0o755, ".": 0o555, "shut": 0, "shutscene/booth.yaml": 0, "shutimage/a.jpg": 0, "shutsheet/works.csv": 0, "good": 0o555, "bare": 0o555, "home/.config": 0,
	} {
		if err := os.Chmod(filepath.Join(s.dir, name), mode); err != nil {
			t.Fatal(err)
		}
	}
	s.refuses(t, "shut/booth.yaml: the folder cannot be opened: permission denied", "check", "shut/booth.yaml")
	s.refuses(t, "permission denied", "start", "shut")
	s.refuses(t, "shutscene/booth.yaml: cannot be opened: permission denied", "check", "shutscene/booth.yaml")
	s.refuses(t, "the file a.jpg may not be read", "check", "shutimage/booth.yaml")
	s.refuses(t, "works.csv: the sheet cannot be opened: permission denied", "check", "shutsheet/booth.yaml")
	s.refuses(t, "good/x.pdf was not written: permission denied", "hang", "good/booth.yaml", "--out", "good/x.pdf")
	s.refuses(t, "new/x: permission denied", "hang", "good/booth.yaml", "--out", "new/x/y.pdf")
	s.refuses(t, "good/new: permission denied", "build", "good/booth.yaml", "--out", "good/new")
	s.refuses(t, "permission denied", "build", "good/booth.yaml", "--out", "shut/x")
	s.refuses(t, "permission denied", "start", "bare")
	if code, _, stderr := s.run(t, "check", "good/booth.yaml"); code == unusable || stderr != "" {
		t.Errorf("a folder that can only be read is enough for a check: %d %s", code, stderr)
	}
	s.env = []string{"HOME=" + filepath.Join(s.dir, "home")}
	s.refuses(t, "rules.yaml: cannot be opened: permission denied", "check", "good/booth.yaml")
}

func TestPlacesThatAreTaken(t *testing.T) {
	s := session{dir: t.TempDir()}
	lay(t, s.dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t), "file": "a file", "folder/x": "x", "out/set-up": "a file"})
	s.run(t, "check", "booth.yaml") // the shelf is there
	s.refuses(t, "a file stands where a folder should be", "build", "booth.yaml", "--out", "file")
	s.refuses(t, "a file stands where a folder should be", "hang", "booth.yaml", "--out", "file/x.pdf")
	s.refuses(t, "folder was not written: a folder of that name is there", "hang", "booth.yaml", "--out", "folder")
	s.refuses(t, "a file stands where a folder should be", "see", "booth.yaml", "--size", "16x16", "--out", "out/set-up/x.png")
	s.refuses(t, "it is no ordinary file", "see", "booth.yaml", "--size", "16x16", "--out", "/dev/null")
	if info, err := os.Lstat("/dev/null"); err != nil || info.Mode()&os.ModeDevice == 0 {
		t.Fatal("/dev/null is no device any more")
	}
}

// Pipes, devices and endless files are refused at once, wherever a scene names them.
func TestNothingIsWaitedFor(t *testing.T) {
	s := session{dir: t.TempDir()}
	lay(t, s.dir, map[string]string{"image.yaml": strings.Replace(smallScene, "a.jpg", "pipe", 1), "sheet.yaml": strings.Replace(smallScene, ", image: a.jpg", "", 1) + "sheet: pipe\n",
		"rules.yaml": strings.Replace(smallScene, ", image: a.jpg", "", 1) + "rule sheet: pipe\n", "log.yaml": strings.Replace(smallScene, ", image: a.jpg", "", 1), "huge.yaml": "", "f/x.jpg": ""})
	for _, name := range []string{"pipe", "pipe.yaml", "log.times.csv", "f/list.csv"} {
		if err := syscall.Mkfifo(filepath.Join(s.dir, name), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Truncate(filepath.Join(s.dir, "huge.yaml"), 1<<40); err != nil {
		t.Skip(err)
	}
	for _, scene := range []string{"pipe.yaml", "image.yaml", "sheet.yaml", "rules.yaml"} {
		s.refuses(t, "it is no ordinary file", "check", scene)
	}
	s.refuses(t, "it is no ordinary file", "rehearse", "log.yaml")
	s.refuses(t, "is larger than", "check", "huge.yaml")
	s.refuses(t, "/dev/zero: cannot be opened: it is no ordinary file", "check", "/dev/zero")
	if _, out, _ := s.run(t, "start", "f"); !strings.Contains(out, "list.csv leads out of the folder, or is no file") {
		t.Errorf("start says %q", out)
	}
}

// One interrupt: a clean stop. Two: at once. Nothing is left, and the exit code is 130.
func TestInterrupts(t *testing.T) {
	dir := t.TempDir()
	lay(t, dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t), "mockup/entrance.png": "earlier"})
	s := session{dir: dir, program: os.Args[0]}
	s.run(t, "check", "booth.yaml") // the shelf is there
	for _, signals := range [][]os.Signal{{os.Interrupt}, {os.Interrupt, os.Interrupt}, {syscall.SIGTERM}} {
		before := tree(t, dir)
		c := s.command("build", "booth.yaml")
		var errs bytes.Buffer
		c.Stderr = &errs
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		for begun := time.Now(); ; time.Sleep(2 * time.Millisecond) {
			if parts, _ := filepath.Glob(filepath.Join(dir, "mockup", ".boothmock-*.build", "new", "mockup", "*")); len(parts) > 0 {
				break
			}
			if time.Since(begun) > longest {
				c.Process.Kill()
				t.Fatal("nothing was begun")
			}
		}
		for _, sig := range signals {
			c.Process.Signal(sig)
		}
		c.Wait()
		if code := c.ProcessState.ExitCode(); code != interrupted || !strings.Contains(errs.String(), stopped) {
			t.Errorf("%v: exit code %d, %q", signals, code, errs.String())
		}
		if after := tree(t, dir); !slices.Equal(before, after) {
			t.Errorf("%v: the folder was\n%v and is\n%v", signals, before, after)
		}
	}
}

// The clock was set back: everything that is there is from the future.
func TestClockSetBack(t *testing.T) {
	s := session{dir: t.TempDir()}
	lay(t, s.dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t)})
	for round := range 2 {
		code, _, stderr := s.run(t, "hang", "booth.yaml")
		if code == unusable || stderr != "" {
			t.Fatalf("round %d: %d %s", round, code, stderr)
		}
		kept, _ := filepath.Glob(filepath.Join(s.dir, ".boothmock", "*"))
		if len(kept) != 1 {
			t.Errorf("round %d: on the shelf: %v", round, kept)
		}
		later := time.Now().AddDate(10, 0, 0)
		for _, name := range append(kept, filepath.Join(s.dir, "booth.yaml"), filepath.Join(s.dir, "a.jpg"), filepath.Join(s.dir, "print-pack.pdf")) {
			if err := os.Chtimes(name, later, later); err != nil {
				t.Fatal(err)
			}
		}
	}
	if info, err := os.Stat(filepath.Join(s.dir, "print-pack.pdf")); err != nil || info.ModTime().Year() < time.Now().Year()+9 {
		t.Errorf("the second round did not come to its end: %v", err)
	}
}

func TestNoHomeNoTerminal(t *testing.T) {
	dir := t.TempDir()
	lay(t, dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t)})
	c := session{dir: dir}.command("hang", "booth.yaml")
	c.Env = []string{asProgram + "=1"} // nothing else: no HOME, no TERM, no locale, no PATH
	if out, err := c.CombinedOutput(); err != nil || !strings.Contains(string(out), "The print pack is print-pack.pdf") {
		t.Errorf("%v: %s", err, out)
	}
}

// What cannot be said is a fault, not silence.
func TestOutputThatIsLost(t *testing.T) {
	s := session{dir: t.TempDir()}
	lay(t, s.dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t)})
	s.run(t, "check", "booth.yaml")
	var err error
	if s.out, err = os.OpenFile("/dev/full", os.O_WRONLY, 0); err != nil {
		t.Skip(err)
	}
	defer s.out.Close()
	s.refuses(t, "what there is to say cannot be written: the disk is full", "check", "booth.yaml")
	s.refuses(t, "what there is to say cannot be written: the disk is full", "check", "booth.yaml", "--json")
}

// Any name that a file can have will do.
func TestPaths(t *testing.T) {
	long := strings.Repeat("n", 245)
	for _, name := range []string{"two words  and 'quotes'", "Bögen für Ötzi", "🎨 emoji 🖼️👩‍🎨", "-dash", long} {
		s := session{dir: t.TempDir()}
		lay(t, s.dir, map[string]string{name + "/" + name + ".yaml": strings.Replace(smallScene, "a.jpg", fmt.Sprintf("%q", name+".jpg"), 1), name + "/" + name + ".jpg": photograph(t)})
		out := "./" + name + "/" + name + ".png"
		code, stdout, stderr := s.run(t, "see", "./"+name+"/"+name+".yaml", "--size", "16x16", "--out", out)
		if code != fine || stderr != "" || !strings.HasPrefix(stdout, out+": ") {
			t.Errorf("%s: %d %s%s", name, code, stdout, stderr)
		}
		if b, err := os.ReadFile(filepath.Join(s.dir, out)); err != nil || !bytes.HasPrefix(b, []byte("\x89PNG")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Several runs write the same file at once.
func TestRunsAtOnce(t *testing.T) {
	s := session{dir: t.TempDir(), program: os.Args[0]}
	lay(t, s.dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t)})
	var running []*exec.Cmd
	for range 3 {
		c := s.command("hang", "booth.yaml")
		c.Stderr = os.Stderr
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		running = append(running, c)
	}
	for _, c := range running {
		if err := c.Wait(); err != nil {
			t.Error(err)
		}
	}
	if b, err := os.ReadFile(filepath.Join(s.dir, "print-pack.pdf")); err != nil || !bytes.HasSuffix(b, []byte("%%EOF\n")) {
		t.Errorf("the pack is not whole: %v", err)
	}
	if got := tree(t, s.dir); len(got) != 6 { // the folder, scene, photograph, pack, shelf and what is on it
		t.Errorf("there is %v", got)
	}
}

// What the other commands write is whole too when they are killed, and the next run takes away what was begun.
func TestCommandsThatAreKilled(t *testing.T) {
	s := session{dir: t.TempDir()}
	photo := photograph(t)
	lay(t, s.dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photo, "new/a.jpg": photo, "new/works.csv": "Title,Height,Width\na,12in,18in\n"})
	r := rand.New(rand.NewPCG(3, 4))
	commands := [][]string{{"check", "booth.yaml"}, {"hang", "booth.yaml"}, {"rehearse", "booth.yaml", "--time"}, {"start", "new", "--rule", "x=1"}} // start builds nothing with a wrong rule
	s.stdin = "5\n4\nq\n"
	var takes [4]time.Duration
	for i, args := range commands {
		begun := time.Now()
		s.run(t, args...)
		takes[i] = min(time.Since(begun), 400*time.Millisecond)
	}
	litter := 0
	for n := range 16 {
		args := commands[n%len(commands)]
		for _, again := range []string{".boothmock", "new/.boothmock", "new/booth.yaml", "new/booth.schema.json"} {
			os.RemoveAll(filepath.Join(s.dir, again))
		}
		c := s.command(args...)
		c.Stdin = strings.NewReader(s.stdin)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration((0.5 + 0.6*r.Float64()) * float64(takes[n%len(commands)])))
		c.Process.Kill()
		c.Wait()
		litter += wholeBut(t, s.dir)
	}
	t.Logf("%d files were begun", litter)
	for _, args := range commands {
		s.run(t, args...)
	}
	if n := wholeBut(t, s.dir); n > 0 {
		t.Errorf("%d files that were begun are still there", n)
	}
	for _, name := range []string{"print-pack.pdf", "booth.times.csv", "new/booth.yaml", "new/booth.schema.json"} {
		if _, err := os.Stat(filepath.Join(s.dir, name)); err != nil {
			t.Error(err)
		}
	}
}

// wholeBut holds that every file of the commands is whole, and counts those with passing names.
func wholeBut(t *testing.T, dir string) (passing int) {
	t.Helper()
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		good := true
		switch name := d.Name(); {
		case strings.HasSuffix(name, ".part"):
			passing++
		case filepath.Base(filepath.Dir(path)) == ".boothmock":
			sum := sha256.Sum256(b[min(len(b), sha256.Size):])
			good = bytes.HasPrefix(b, sum[:])
		case name == "print-pack.pdf":
			good = bytes.HasSuffix(b, []byte("%%EOF\n"))
		case name == "booth.times.csv":
			good = regexp.MustCompile(`^practice,step,minutes\n([0-9]+,[^,\n]+,[45]\n)*$`).Match(b)
		case name == "booth.schema.json":
			good = json.Valid(b)
		case path == filepath.Join(dir, "new", "booth.yaml"):
			good = bytes.HasSuffix(b, []byte("works: [a]}\n"))
		}
		if !good {
			t.Errorf("%s is not whole", path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return passing
}
