package try_test

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"runtime"
	"strings"
	"testing"

	"boothmock/internal/try"
)

// served is a server of the demo with a client that has its key.
func served(t *testing.T) (base string, c *http.Client, address string) {
	t.Helper()
	s, _ := session(t)
	return servedOf(t, s)
}

func servedOf(t *testing.T, s *try.Session) (base string, c *http.Client, address string) {
	t.Helper()
	address = serve(t, s)
	jar, _ := cookiejar.New(nil)
	c = &http.Client{Jar: jar, Transport: &http.Transport{}}
	t.Cleanup(c.CloseIdleConnections)
	r, err := c.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if r.StatusCode != http.StatusOK || r.Request.URL.RawQuery != "" {
		t.Fatalf("%s ends at %s with %s", address, r.Request.URL, r.Status)
	}
	u, _ := url.Parse(address)
	return "http://" + u.Host, c, address
}

func request(t *testing.T, method, address, body string, header ...string) *http.Request {
	t.Helper()
	r, err := http.NewRequest(method, address, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(header); i += 2 {
		if header[i] == "Host" {
			r.Host = header[i+1]
		}
		r.Header.Set(header[i], header[i+1])
	}
	return r
}

func do(t *testing.T, c *http.Client, r *http.Request) (int, string) {
	t.Helper()
	a, err := c.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Body.Close()
	b, err := io.ReadAll(a.Body)
	if err != nil {
		t.Fatal(err)
	}
	return a.StatusCode, string(b)
}

const look = `{"version": 1, "do": "look"}`

// dot is a PNG of one red pixel, in base64.
const dot = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4z8AAAAMBAQDJ/pLvAAAAAElFTkSuQmCC"

// A page elsewhere, a name that leads to 127.0.0.1, another program: none gets anything.
func TestOnlyOurPageIsHeard(t *testing.T) {
	base, c, address := served(t)
	host := strings.TrimPrefix(base, "http://")
	port := host[strings.LastIndexByte(host, ':'):]
	if code, text := do(t, c, request(t, "POST", base+"/say", look, "Origin", base)); code != http.StatusOK || !strings.Contains(text, "Odile Marrowby") {
		t.Fatalf("our own page: %d %s", code, text)
	}
	strange := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	for _, r := range []struct {
		name   string
		client *http.Client
		*http.Request
	}{
		{"a name that leads here", c, request(t, "GET", base+"/state", "", "Host", "booth.example"+port)},
		{"localhost", c, request(t, "GET", base+"/state", "", "Host", "localhost"+port)},
		{"another port", c, request(t, "GET", base+"/state", "", "Host", "127.0.0.1:80")},
		{"no port", c, request(t, "GET", base+"/state", "", "Host", "127.0.0.1")},
		{"a name, with the key", c, request(t, "GET", address, "", "Host", "booth.example"+port)},
		{"another origin", c, request(t, "POST", base+"/say", look, "Origin", "https://booth.example")},
		{"another port's origin", c, request(t, "POST", base+"/say", look, "Origin", "http://127.0.0.1:1")},
		{"no origin", c, request(t, "POST", base+"/say", look)},
		{"the origin null", c, request(t, "POST", base+"/say", look, "Origin", "null")},
		{"another origin that reads", c, request(t, "GET", base+"/state", "", "Origin", "https://booth.example")},
		{"another site that reads", c, request(t, "GET", base+"/state", "", "Sec-Fetch-Site", "cross-site")},
		{"another port's page", c, request(t, "GET", base+"/image/0", "", "Sec-Fetch-Site", "same-site")},
		{"no key", strange, request(t, "GET", base+"/", "")},
		{"no key, and asks", strange, request(t, "POST", base+"/say", look, "Origin", base)},
		{"a wrong key", strange, request(t, "GET", base+"/?key=AAAAAAAAAAAAAAAAAAAAAA", "")},
		{"half a key", strange, request(t, "GET", address[:len(address)-3], "")},
	} {
		if code, text := do(t, r.client, r.Request); code != http.StatusForbidden || strings.Contains(text, "Odile") {
			t.Errorf("%s: %d %.80s", r.name, code, text)
		}
	}
	r, err := strange.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	cookies := r.Cookies()
	if len(cookies) != 1 || cookies[0].SameSite != http.SameSiteStrictMode || !cookies[0].HttpOnly {
		t.Errorf("the cookies: %v", cookies)
	}
	r, err = c.Get(base + "/")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if p := r.Header.Get("Content-Security-Policy"); !strings.Contains(p, "default-src 'none'") || strings.Contains(p, "unsafe") || r.Header.Get("Access-Control-Allow-Origin") != "" {
		t.Errorf("the policy: %s", p)
	}
}

// What is too large, unclear or too much is refused, and nothing is changed by it.
func TestRequestsAreBounded(t *testing.T) {
	base, c, _ := served(t)
	for body, want := range map[string]int{
		`{"version": 1, "do": "look", "text": "` + strings.Repeat("x", 70<<10) + `"}`: http.StatusBadRequest,
		`{"version": 1, "do": "look", "more": 1}`:                                     http.StatusBadRequest,
		`{`: http.StatusBadRequest, look: http.StatusOK,
	} {
		if code, _ := do(t, c, request(t, "POST", base+"/say", body, "Origin", base)); code != want {
			t.Errorf("%.60s: %d", body, code)
		}
	}
	for _, r := range []*http.Request{request(t, "GET", base+"/model?at=99&light=quick", ""), request(t, "GET", base+"/facts?at=x", "")} {
		if code, _ := do(t, c, r); code != http.StatusGone {
			t.Errorf("%s: %d", r.URL, code)
		}
	}
	if code, _ := do(t, c, request(t, "DELETE", base+"/state", "", "Origin", base)); code != http.StatusMethodNotAllowed {
		t.Errorf("DELETE: %d", code)
	}
}

// 10,000 requests of anything, among them of everything that can be done, neither stop the server nor leave anything behind: taken back, the
// scene is what it was.
func TestRandomRequestsDoNoHarm(t *testing.T) {
	s, path := session(t)
	first := contents(t, path)
	base, c, _ := servedOf(t, s)
	random := rand.New(rand.NewPCG(1, 2))
	pick := func(list ...string) string { return list[random.IntN(len(list))] }
	junk := func() string {
		b := make([]byte, random.IntN(300))
		for i := range b {
			b[i] = byte(random.UintN(256))
		}
		return string(b)
	}
	ask := func() string {
		return fmt.Sprintf(`{"version": 1, "do": %q, "item": %q, "with": %q, "row": %s, "place": %d, "x": %s, "y": %s, "field": %q, "text": %q, "name": %q, "title": %q, "file": %s}`,
			pick(append(try.Deeds(), "hold", "fly", "")...), pick("work/nobody", "chair/2", "", "tent"), pick("wall/left", "work/moths", "?"),
			pick("null", "0", "-1", "1e3", "99"), random.IntN(9)-3, pick("0", "1e308", "-1e308", "0.5", "x"), pick("0", "3"), pick("centre", "left", "price", "even", "align", "table", "sign"),
			pick("60", "", "\u0000", "=1+1", "1e9 x 1"), pick("", "../x", "CON", "booth.yaml", "a.png"), pick("", "\n"), pick("null", `"AAAA"`, `"!"`))
	}
	// real asks for what is there, as a page would: some of it is done.
	real := func() string {
		n := random.IntN(3)
		return pick(`{"version": 1, "do": "hang", "item": "work/moths", "with": "wall/back", "row": `+fmt.Sprint(n)+`, "place": 1}`, `{"version": 1, "do": "swap", "item": "work/heron", "with": "work/moths"}`,
			`{"version": 1, "do": "add", "field": "bin", "text": "18 x 16 x 34"}`, `{"version": 1, "do": "add", "field": "table", "text": "48 x 24"}`, `{"version": 1, "do": "remove", "item": "bin/extra"}`,
			`{"version": 1, "do": "remove", "item": "table/prints"}`, `{"version": 1, "do": "tidy", "item": "work/heron", "field": "`+pick("align", "even", "centre")+`"}`, `{"version": 1, "do": "take", "place": 0}`,
			`{"version": 1, "do": "beside", "name": "nothing.yaml"}`, `{"version": 1, "do": "open", "name": "nothing.yaml"}`, `{"version": 1, "do": "keep", "name": "other"}`, `{"version": 1, "do": "hang", "item": "work/weir"}`,
			`{"version": 1, "do": "bring", "name": "dot.png", "title": "Dot", "text": "8 x 10", "file": "`+dot+`"}`, `{"version": 1, "do": "undo"}`, `{"version": 1, "do": "redo"}`,
			`{"version": 1, "do": "stand", "item": "chair", "x": 0.4, "z": -1, "turn": 15}`, `{"version": 1, "do": "hold", "item": "chair", "x": 0.1, "z": -1}`, `{"version": 1, "do": "type", "item": "chair", "field": "from front", "text": "30"}`)
	}
	const every = 250 // requests, of which one is real: each changes the booth, which takes most of the time
	memory := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	var before uint64
	did := 0
	for i := range 10_000 {
		var r *http.Request
		was := s.State().At
		switch kind := random.IntN(4); {
		case i%every == 0:
			r = request(t, "POST", base+"/say", real(), "Origin", base)
		case kind == 0:
			r = request(t, "POST", base+"/say", pick(junk(), ask(), ask()), "Origin", base)
		case kind == 1:
			r = request(t, "GET", base+"/"+url.PathEscape(junk()), "")
		case kind == 2:
			r = request(t, pick("GET", "PUT", "HEAD", "OPTIONS"), base+pick("/image/../state", "/image/%00", "/news/x", "/model?at=-1", "/facts?at=1e9", "/say", "//", "/?key=x"), "", "Origin", pick(base, "null", ""))
		default:
			r = request(t, "GET", base+"/state", "", "Cookie", junk64(random), "Host", pick("127.0.0.1", "x", strings.TrimPrefix(base, "http://")))
		}
		a, err := c.Do(r)
		if err != nil {
			t.Fatalf("request %d: %v", i, err)
		}
		io.Copy(io.Discard, a.Body)
		a.Body.Close()
		if a.StatusCode >= 500 {
			t.Fatalf("request %d, %s %s: %s", i, r.Method, r.URL, a.Status)
		}
		if s.State().At != was {
			did++
		}
		if i == 1000 {
			before = memory()
		}
	}
	if after := memory(); after > before+before/5+(4<<20) {
		t.Errorf("after 10,000 requests %d kB are held, after 1,000 %d kB", after>>10, before>>10)
	}
	if did < 15 {
		t.Errorf("only %d of the requests did anything", did)
	}
	say(t, s, try.Ask{Do: "go", Place: 0})
	if code, text := do(t, c, request(t, "POST", base+"/say", look, "Origin", base)); code != http.StatusOK || !bytes.Contains([]byte(text), []byte(`"here":true`)) {
		t.Errorf("afterwards: %d %.100s", code, text)
	}
	if text := string(s.Text()); text != first {
		t.Error("all taken back, the scene is another one")
	}
}

func junk64(random *rand.Rand) string {
	return fmt.Sprintf("boothmock-%d=%x", random.IntN(1<<16), random.Uint64())
}
