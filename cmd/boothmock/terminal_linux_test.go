package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"
	"unsafe"

	"github.com/jedib0t/go-pretty/v6/text"
)

// terminal is a pair of a terminal's two ends, so many characters wide.
func terminal(t *testing.T, columns uint16) (near, far *os.File) {
	t.Helper()
	near, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		needs(t, "/dev/ptmx")
	}
	t.Cleanup(func() { near.Close() })
	control := func(f *os.File, request uintptr, argument unsafe.Pointer) {
		if _, _, errno := syscall.Syscall(syscall.SYS_IOCTL, f.Fd(), request, uintptr(argument)); errno != 0 {
			t.Fatal(errno)
		}
	}
	var unlocked, number int32
	control(near, syscall.TIOCSPTLCK, unsafe.Pointer(&unlocked))
	control(near, syscall.TIOCGPTN, unsafe.Pointer(&number))
	if far, err = os.OpenFile(fmt.Sprint("/dev/pts/", number), os.O_RDWR|syscall.O_NOCTTY, 0); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { far.Close() })
	control(far, syscall.TIOCSWINSZ, unsafe.Pointer(&[4]uint16{24, columns}))
	return near, far
}

// begin starts the program on a terminal and returns the near end of it. It is killed if it takes too long.
func (s session) begin(t *testing.T, columns uint16, args ...string) (near *os.File, c *exec.Cmd) {
	t.Helper()
	near, far := terminal(t, columns)
	c = s.command(args...)
	c.Stdin, c.Stdout, c.Stderr = far, far, far
	c.SysProcAttr.Setctty = true
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	far.Close()
	late := time.AfterFunc(longest, func() { c.Process.Kill() })
	t.Cleanup(func() { late.Stop() })
	return near, c
}

// onTerminal runs the program on a terminal and returns what came there.
func (s session) onTerminal(t *testing.T, columns uint16, args ...string) string {
	t.Helper()
	near, c := s.begin(t, columns, args...)
	out, _ := io.ReadAll(near) // it ends with an error when nobody holds the other end
	c.Wait()
	if c.ProcessState.ExitCode() < 0 {
		t.Fatalf("boothmock %s: %v\n%s", strings.Join(args, " "), c.ProcessState, out)
	}
	return strings.ReplaceAll(string(out), "\r\n", "\n")
}

var colourOrder = regexp.MustCompile("\x1b\\[[0-9]+m")

// packed is a text without blanks and breaks: how it was wrapped does not count.
func packed(s string) string { return strings.Join(strings.Fields(s), "") }

// On a terminal of twenty characters no line is longer, and no finding, step or hook is lost.
func TestNarrowTerminal(t *testing.T) {
	scene, err := os.ReadFile("../../scenes/wrong.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s := session{dir: t.TempDir(), env: []string{"TERM=xterm"}}
	const wrong = "wrong.yaml"
	lay(t, s.dir, map[string]string{"small.yaml": accents, wrong: regexp.MustCompile(`image: [^,]*, `).ReplaceAllString(string(scene), "")})
	for _, args := range [][]string{{"check", wrong}, {"rehearse", wrong}, {"hang", "small.yaml"}, {"explain", "rules"}} {
		_, wide, _ := s.run(t, args...)
		out := s.onTerminal(t, 20, args...)
		if args[0] == "check" && !colourOrder.MatchString(out) {
			t.Error("there is no colour on a terminal")
		}
		out = colourOrder.ReplaceAllString(out, "")
		if strings.Contains(out, "\x1b") {
			t.Errorf("%v: orders to the terminal: %q", args, out)
		}
		long := 0
		for _, line := range strings.Split(out, "\n") {
			if text.StringWidth(line) > 20 {
				long++
				t.Logf("%v: %q", args, line)
			}
		}
		if long > 0 {
			t.Errorf("%v: %d lines are too long", args, long)
		}
		// Every message of the wide output stands in the narrow one. A cell is what stands between two blanks or more.
		narrow := packed(out)
		cells := 0
		for _, line := range strings.Split(wide, "\n") {
			for _, cell := range regexp.MustCompile(`\s{2,}`).Split(strings.TrimSpace(line), -1) {
				cells++
				if !strings.Contains(narrow, packed(cell)) && !slices.Contains([]string{"medium", "edition", "left of it", "price", "sold to", "deposit"}, cell) { // columns without anything in them
					t.Errorf("%v: %q is lost", args, cell)
				}
			}
		}
		if cells < 30 {
			t.Errorf("%v: only %d cells were looked at", args, cells)
		}
	}
	// COLUMNS says more than the terminal.
	s.env = append(s.env, "COLUMNS=30")
	for _, line := range strings.Split(colourOrder.ReplaceAllString(s.onTerminal(t, 200, "check", wrong), ""), "\n") {
		if text.StringWidth(line) > 30 {
			t.Errorf("COLUMNS=30: %q", line)
		}
	}
}

// The progress bar keeps to one line, whatever its width.
func TestProgressOnANarrowTerminal(t *testing.T) {
	near, far := terminal(t, 20)
	p := newProgress(newConsole(far), 3)
	for _, name := range []string{"entrance.png", "set-up/12-a-very-long-name-of-a-step.png", "x"} {
		p.step(name)
	}
	p.clear()
	far.Close()
	out, _ := io.ReadAll(near)
	parts := strings.Split(string(out), "\r\x1b[K")
	if len(parts) != 5 {
		t.Fatalf("%q", out)
	}
	for _, part := range parts {
		if len(part) > 19 {
			t.Errorf("%q", part)
		}
	}
}

const accents = `units: in
event: Fête à Öland – ½ price → “now” 絵
pitch: {width: 8ft, depth: 6ft, aisle: 10ft, neighbours: none}
walls: [{side: back, hang on: panel, top: 82}]
works: [{name: a, title: Ärger × 2 £, size: 12 x 18, weight: 6lb, wall: back}]
`

// Where the locale is not UTF-8, a terminal gets ASCII, in columns that still stand below each other; a pipe gets what is
// so. Where nothing is said of the locale, it is not UTF-8 (POSIX).
func TestLocaleWithoutUTF8(t *testing.T) {
	s := session{dir: t.TempDir()}
	lay(t, s.dir, map[string]string{"a.yaml": accents})
	for _, c := range []struct {
		env   []string
		ascii bool
	}{
		{[]string{"LC_ALL=C"}, true}, {[]string{"LC_ALL=", "LANG=de_DE.ISO-8859-1"}, true}, {[]string{"LC_ALL="}, true}, {[]string{"LC_ALL=", "LC_CTYPE=C", "LANG=de_DE.UTF-8"}, true},
		{[]string{"LC_ALL=", "LANG=de_DE.UTF-8"}, false}, {[]string{"LC_ALL=en_GB.utf8", "LANG=C"}, false},
	} {
		s.env = c.env
		out := colourOrder.ReplaceAllString(s.onTerminal(t, 100, "check", "a.yaml"), "")
		event, title := "Fête à Öland – ½ price → “now” 絵", "Ärger × 2 £"
		if c.ascii {
			event, title = `Fete a Oland - 1/2 price -> "now" ?`, "Arger x 2 GBP"
			if i := strings.IndexFunc(out, func(r rune) bool { return r >= utf8.RuneSelf }); i >= 0 {
				t.Errorf("%v: %q is no ASCII", c.env, out[i:])
			}
		}
		lines := strings.Split(out, "\n")
		if lines[0] != event+" (a.yaml)" {
			t.Errorf("%v: the first line is %q", c.env, lines[0])
		}
		at := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "seen by") })
		head, row := lines[at], lines[at+1]
		if !strings.HasPrefix(row, title+"  ") || text.StringWidth(row[:strings.Index(row, "100%")]) != strings.Index(head, "entrance") {
			t.Errorf("%v: the table is broken:\n%s\n%s", c.env, head, row)
		}
		if _, pipe, _ := s.run(t, "check", "a.yaml"); !strings.Contains(pipe, "Ärger × 2 £") {
			t.Errorf("%v: into a pipe goes %q", c.env, pipe)
		}
	}
}

// Nothing that a stranger wrote gives orders to the terminal: not in a sheet, not in a scene, not by the name of a file.
func TestTerminalsAreNotGivenOrders(t *testing.T) {
	s := session{dir: t.TempDir(), env: []string{"TERM=xterm"}}
	evil := "a\x1b]0;owned\x07\x1b[2J\x1b[8m\u009b31m\u202edet\u2066x\x7f\b"
	lay(t, s.dir, map[string]string{
		"f/list.csv":    "Title,Height,Width,Photo," + evil + "\n" + evil + ",24in,36in,\n" + evil + "b,x,y,\n",
		"f/\x1b[2J.jpg": "x", "f/\u202egpj.jpg": photograph(t), "\x1b[2Jx.yaml": "units: in\nworks: [{name: a}]\n", "c.yaml": "units: in\nevent: \"a\\e[2Jb\"\n", "d.yaml": "units: in\nevent: a\x1b[2Jb\n",
	})
	for _, args := range [][]string{{"start", "f", "--rule", "x=1"}, {"check", "\x1b[2Jx.yaml"}, {"check", "\x1b[31mnone.yaml"}, {"check", "c.yaml"}, {"check", "d.yaml"}, {"check", "f/booth.yaml"}, {"rehearse", "f/booth.yaml"}, {"explain", evil}, {evil}} {
		code, out, errs := s.run(t, args...)
		if args[0] == "start" {
			os.Remove(filepath.Join(s.dir, "f", "booth.yaml")) // it is made again
		}
		shown := strings.NewReplacer("\r\x1b[K", "").Replace(colourOrder.ReplaceAllString(s.onTerminal(t, 80, args...), "")) // the progress bar's
		for where, text := range map[string]string{"pipe": out + errs, "terminal": shown} {
			if i := strings.IndexFunc(text, func(r rune) bool { return r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) }); i >= 0 {
				t.Errorf("%q, %s: %q", args, where, text[max(0, i-40):min(len(text), i+40)])
			}
			if len(text) < 20 {
				t.Errorf("%q, %s: exit code %d and only %q", args, where, code, text)
			}
		}
	}
}

// What was measured before an interrupt is kept.
func TestPracticeOnATerminal(t *testing.T) {
	s := session{dir: t.TempDir()}
	lay(t, s.dir, map[string]string{"a.yaml": accents})
	near, c := s.begin(t, 40, "rehearse", "a.yaml", "--time")
	// A step is given its minutes; then somebody presses Ctrl-C, which the terminal makes an interrupt of.
	waitFor(t, near, "> ")
	io.WriteString(near, "4.5\n")
	waitFor(t, near, "> ")
	io.WriteString(near, "\x03")
	io.Copy(io.Discard, near)
	c.Wait()
	log, err := os.ReadFile(filepath.Join(s.dir, "a.times.csv"))
	if code := c.ProcessState.ExitCode(); code != interrupted || err != nil || !regexp.MustCompile(`^practice,step,minutes\n1,[^,]+,4.5\n$`).Match(log) {
		t.Errorf("exit code %d, the log is %q, %v", code, log, err)
	}
}

// waitFor reads until a text comes.
func waitFor(t *testing.T, r io.Reader, want string) {
	t.Helper()
	var all []byte
	for b := make([]byte, 1); !strings.HasSuffix(string(all), want); all = append(all, b[0]) {
		if _, err := r.Read(b); err != nil {
			t.Fatalf("%v after %q", err, all)
		}
	}
}

// TestNoNetworkNoPrograms reads what the program is made of, and runs it where there is no network.
func TestNoNetworkNoPrograms(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", "{{.ImportPath}}{{range .Imports}} {{.}}{{end}}", ".").Output()
	if err != nil {
		t.Fatal(err)
	}
	// Who imports what could reach a network or run a program. Of ours only try does, which shows its page on this machine and
	// opens the person's browser; of what libraries import for themselves nothing is ever called.
	mayImport := map[string][]string{
		"net/http": {"boothmock/internal/try", "github.com/spf13/afero"}, // viper's view of files can be shown by a web server
		"net": {"boothmock/internal/try", "github.com/go-viper/mapstructure/v2", "github.com/spf13/pflag", // they know addresses as a type of value
			"github.com/tetratelabs/wazero", "github.com/tetratelabs/wazero/internal/sock", "github.com/tetratelabs/wazero/internal/sys", "github.com/tetratelabs/wazero/internal/sysfs"}, // sockets for WebAssembly that is given some: the readers of HEIC and AVIF are given nothing
		"os/exec": {"github.com/pkg/browser"}, "plugin": nil, "net/rpc": nil, "net/smtp": nil,
	}
	deps := strings.Split(strings.TrimSpace(string(out)), "\n")
	seen := map[string]bool{}
	for _, line := range deps {
		who, imports, _ := strings.Cut(line, " ")
		seen[who] = true
		if !strings.Contains(strings.Split(who, "/")[0], ".") && !strings.HasPrefix(who, "boothmock/") {
			continue // Go's own library
		}
		for what, users := range mayImport {
			if slices.Contains(strings.Fields(imports), what) && !slices.Contains(users, who) {
				t.Errorf("%s imports %s", who, what)
			}
		}
	}
	if !seen["boothmock/internal/job"] || len(deps) < 100 {
		t.Fatalf("the list has %d packages", len(deps))
	}
	if seen["plugin"] {
		t.Error("the program holds plugin")
	}
	if os.Getuid() != 0 {
		needs(t, "root, for a place without a network")
	}
	s := session{dir: t.TempDir(), clone: syscall.CLONE_NEWNET, env: []string{"PATH=/nowhere"}}
	lay(t, s.dir, map[string]string{"booth.yaml": smallScene, "a.jpg": photograph(t)})
	if code, out, stderr := s.run(t, "hang", "booth.yaml"); code != fine || stderr != "" {
		t.Errorf("without a network: %d %s%s", code, out, stderr)
	}
}
