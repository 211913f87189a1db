package browser

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/websocket"
)

// Others are the engines beside Chromium's, each steered by a standard: WebKit by WebDriver (W3C), over HTTP, and Firefox by
// WebDriver BiDi (W3C), over a socket. They run where Debian's webkit2gtk-driver, xvfb and firefox-esr are installed.
var Others = []Engine{
	{Name: "WebKit", start: startWebKit, needs: []string{"/usr/bin/WebKitWebDriver", "/usr/bin/Xvfb"}},
	{Name: "Firefox", start: startFirefox, needs: []string{"/usr/bin/firefox-esr"}},
}

// Engine is a browser of one kind.
type Engine struct {
	Name  string
	Blind bool // without WebGL: drawn without a graphics card, it keeps WebKit from answering; Firefox without a window has none
	start func(t *testing.T, blind bool) session
	needs []string
}

// session is a window of a browser.
type session interface {
	visit(url, end string) error
	eval(js string) (string, error) // of an expression that is a text
	act(sources ...any) error       // WebDriver, section 15 (actions): both standards share it
}

// Page is a page in a browser that speaks a standard, in a test.
type Page struct {
	*testing.T
	session
}

// Visit opens an address, which may lead on to another where it ends, in a browser of its own.
func (e Engine) Visit(t *testing.T, url, end string) Page {
	t.Helper()
	Needed(t, e.needs...)
	p := Page{t, e.start(t, e.Blind)}
	if err := p.visit(url, end); err != nil {
		t.Fatal(err)
	}
	return p
}

// Read is what a JavaScript expression comes to.
func Read[T any](p Page, js string) (out T) {
	p.Helper()
	text, err := p.eval(`JSON.stringify((` + js + `) ?? null)`)
	if err == nil {
		err = json.Unmarshal([]byte(text), &out)
	}
	if err != nil {
		p.Fatalf("%s: %v", js[:min(len(js), 200)], err)
	}
	return out
}

// Until waits for a JavaScript expression to be true. It asks again and again: a page that is left takes with it what waits in it.
func (p Page) Until(js string) {
	p.Helper()
	for late := time.Now().Add(Patience); !Read[bool](p, `Boolean(`+js+`)`); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(late) {
			p.Fatalf("it never came: %s", js)
		}
	}
}

// Middle is the middle of an element in the window, after it was scrolled to.
func (p Page) Middle(selector string) (x, y float64) {
	p.Helper()
	Read[any](p, `document.querySelector(`+quoted(selector)+`).scrollIntoView({block: 'center', behavior: 'instant'})`)
	return p.Where(selector)
}

// Where is the middle of an element in the window.
func (p Page) Where(selector string) (x, y float64) {
	p.Helper()
	b := Read[[2]float64](p, `(() => { const b = document.querySelector(`+quoted(selector)+`).getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()`)
	return b[0], b[1]
}

func quoted(s string) string {
	b, _ := json.Marshal(s)
	return string(b)
}

// Click presses the mouse on the middle of an element.
func (p Page) Click(selector string) {
	p.Helper()
	x, y := p.Middle(selector)
	p.Drag(x, y, x, y)
}

// action is an action of WebDriver, section 15.
type action map[string]any

// Drag presses the mouse at one place in the window and lets go at another.
func (p Page) Drag(x0, y0, x1, y1 float64) {
	p.Helper()
	to := func(share float64) action {
		return action{"type": "pointerMove", "duration": 0, "x": math.Round(x0 + (x1-x0)*share), "y": math.Round(y0 + (y1-y0)*share)}
	}
	steps := []action{to(0), {"type": "pointerDown", "button": 0}}
	if x0 != x1 || y0 != y1 {
		steps = append(steps, to(0.3), to(0.6), to(1))
	}
	steps = append(steps, action{"type": "pointerUp", "button": 0})
	if err := p.act(action{"type": "pointer", "id": "mouse", "parameters": action{"pointerType": "mouse"}, "actions": steps}); err != nil {
		p.Fatal(err)
	}
}

// EnterKey ends what is typed: a Firefox without a window does not tell a field that it is left (WebDriver, section 15.4.2, normalised key values).
const EnterKey = "\ue007"

// Type presses keys one after the other.
func (p Page) Type(keys string) {
	p.Helper()
	var steps []action
	for _, k := range keys {
		steps = append(steps, action{"type": "keyDown", "value": string(k)}, action{"type": "keyUp", "value": string(k)})
	}
	if err := p.act(action{"type": "key", "id": "keys", "actions": steps}); err != nil {
		p.Fatal(err)
	}
}

// run starts a program that ends with the test, or when Patience does.
func run(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	late := time.AfterFunc(Patience, func() { cmd.Process.Kill() })
	t.Cleanup(func() {
		late.Stop()
		cmd.Process.Kill()
		cmd.Wait()
	})
}

// webKit is a session of WebDriver (W3C), over HTTP.
type webKit struct{ address string }

func (w webKit) call(method, path string, params any, patience time.Duration) (json.RawMessage, error) {
	body, err := json.Marshal(params)
	if err != nil {
		return nil, err
	}
	r, err := http.NewRequest(method, w.address+path, bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	reply, err := (&http.Client{Timeout: patience}).Do(r)
	if err != nil {
		return nil, err
	}
	defer reply.Body.Close()
	text, err := io.ReadAll(reply.Body)
	if err != nil {
		return nil, err
	}
	if reply.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("%s: %s", path, text)
	}
	var out struct{ Value json.RawMessage }
	return out.Value, json.Unmarshal(text, &out)
}

// visit waits for the address where it ends, and not for all to be loaded: news that never end count as loading.
func (w webKit) visit(url, end string) error {
	_, err := w.call("POST", "/url", map[string]any{"url": url}, Patience)
	for late := time.Now().Add(Patience); err == nil; time.Sleep(20 * time.Millisecond) {
		v, asked := w.call("GET", "/url", nil, Patience)
		var here string
		if err = asked; err == nil {
			err = json.Unmarshal(v, &here)
		}
		if here == end {
			break
		}
		if time.Now().After(late) {
			err = fmt.Errorf("it stands at %s", here)
		}
	}
	return err
}

// eval asks again after a while: WebKit may change to another process when a page is there, as one with a Cross-Origin-Opener-Policy
// wants, and what it was asked meanwhile is never answered.
func (w webKit) eval(js string) (out string, err error) {
	var v json.RawMessage
	for late := time.Now().Add(Patience); ; {
		v, err = w.call("POST", "/execute/sync", map[string]any{"args": []any{}, "script": "return " + js}, 5*time.Second)
		between := err != nil && (os.IsTimeout(err) || strings.Contains(err.Error(), `"unknown error"`))
		if !between || time.Now().After(late) {
			break
		}
	}
	if err == nil {
		err = json.Unmarshal(v, &out)
	}
	return out, err
}

func (w webKit) act(sources ...any) error {
	_, err := w.call("POST", "/actions", map[string]any{"actions": sources}, Patience)
	return err
}

// startWebKit starts a screen that nobody sees, WebKit's driver on it, and through that its smallest browser.
func startWebKit(t *testing.T, blind bool) session {
	found, _ := filepath.Glob("/usr/lib/*/webkit2gtk-4.*/MiniBrowser")
	if len(found) == 0 {
		t.Fatal("webkit2gtk-driver has no MiniBrowser")
	}
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	screen := exec.Command("/usr/bin/Xvfb", "-displayfd", "3", "-screen", "0", "1280x900x24", "-nolisten", "tcp")
	screen.ExtraFiles = []*os.File{w}
	run(t, screen)
	w.Close()
	number, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address := free.Addr().String()
	free.Close()
	driver := exec.Command("/usr/bin/WebKitWebDriver", "--port="+address[strings.LastIndex(address, ":")+1:])
	driver.Env = append(os.Environ(), "DISPLAY=:"+strings.TrimSpace(number), "LIBGL_ALWAYS_SOFTWARE=1")
	run(t, driver)
	all := webKit{"http://" + address}
	for until := time.Now().Add(Patience); ; time.Sleep(20 * time.Millisecond) { // until it listens
		if _, err = all.call("GET", "/status", nil, Patience); err == nil {
			break
		}
		if time.Now().After(until) {
			t.Fatal(err)
		}
	}
	v, err := all.call("POST", "/session", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
		"webkitgtk:browserOptions": map[string]any{"binary": found[0], "args": []string{"--automation", fmt.Sprint("--enable-webgl=", !blind)}},
		"pageLoadStrategy":         "none",
	}}}, Patience)
	var s struct{ SessionID string }
	if err == nil {
		err = json.Unmarshal(v, &s)
	}
	if err != nil {
		t.Fatal(err)
	}
	one := webKit{all.address + "/session/" + s.SessionID}
	t.Cleanup(func() { one.call("DELETE", "", nil, time.Minute) })
	if _, err := one.call("POST", "/window/rect", map[string]any{"x": 0, "y": 0, "width": 1280, "height": 900}, Patience); err != nil {
		t.Fatal(err)
	}
	return one
}

// firefox is a session of WebDriver BiDi (W3C), over a socket.
type firefox struct {
	socket  *websocket.Conn
	context string // the window
	asked   *int
}

func (f firefox) call(method string, params map[string]any, out any) error {
	*f.asked++
	if f.context != "" {
		params["context"] = f.context
	}
	f.socket.SetDeadline(time.Now().Add(Patience))
	if err := websocket.JSON.Send(f.socket, map[string]any{"id": *f.asked, "method": method, "params": params}); err != nil {
		return err
	}
	for {
		var reply struct {
			ID      int
			Type    string
			Message string
			Result  json.RawMessage
		}
		if err := websocket.JSON.Receive(f.socket, &reply); err != nil {
			return err
		}
		switch {
		case reply.ID != *f.asked: // an event
		case reply.Type == "error":
			return fmt.Errorf("%s: %s", method, reply.Message)
		default:
			return json.Unmarshal(reply.Result, out)
		}
	}
}

func (f firefox) visit(url, _ string) error {
	return f.call("browsingContext.navigate", map[string]any{"url": url, "wait": "complete"}, &struct{}{})
}

func (f firefox) eval(js string) (string, error) {
	var out struct {
		Result           struct{ Value string }
		ExceptionDetails struct{ Text string }
	}
	err := f.call("script.evaluate", map[string]any{"expression": js, "awaitPromise": false, "target": map[string]any{"context": f.context}}, &out)
	if err == nil && out.ExceptionDetails.Text != "" {
		err = fmt.Errorf("%s", out.ExceptionDetails.Text)
	}
	return out.Result.Value, err
}

func (f firefox) act(sources ...any) error {
	return f.call("input.performActions", map[string]any{"actions": sources}, &struct{}{})
}

var listening = regexp.MustCompile(`ws://\S+`)

// startFirefox starts Firefox with a profile of its own and takes its one window.
func startFirefox(t *testing.T, _ bool) session {
	profile, err := os.MkdirTemp("", "firefox")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(profile) })
	const origin = "http://127.0.0.1"
	cmd := exec.Command("/usr/bin/firefox-esr", "--headless", "--no-remote", "--profile", profile, "--remote-debugging-port=0", "--remote-allow-origins="+origin)
	cmd.Env = append(os.Environ(), "HOME="+profile)
	said, err := cmd.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	run(t, cmd)
	lines := bufio.NewScanner(said)
	address := ""
	for address == "" && lines.Scan() {
		address = listening.FindString(lines.Text())
	}
	if address == "" {
		t.Fatal("Firefox says no address")
	}
	go io.Copy(io.Discard, said)
	f := firefox{asked: new(int)}
	if f.socket, err = websocket.Dial(address+"/session", "", origin); err != nil {
		t.Fatal(err)
	}
	f.socket.MaxPayloadBytes = 64 << 20
	var tree struct{ Contexts []struct{ Context string } }
	err = f.call("session.new", map[string]any{"capabilities": map[string]any{}}, &struct{}{})
	if err == nil {
		err = f.call("browsingContext.getTree", map[string]any{}, &tree)
	}
	if err != nil || len(tree.Contexts) == 0 {
		t.Fatalf("Firefox has no window: %v", err)
	}
	t.Cleanup(func() { f.call("browser.close", map[string]any{}, &struct{}{}) })
	f.context = tree.Contexts[0].Context
	if err := f.call("browsingContext.setViewport", map[string]any{"viewport": map[string]any{"width": 1280, "height": 900}}, &struct{}{}); err != nil {
		t.Fatal(err)
	}
	return f
}
