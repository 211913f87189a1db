//go:build !js

package try

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net/http"
	"strings"
)

// guard lets only the person's own page speak with the program. Others who can reach the port: any page that the person's
// browser shows (it can send requests to 127.0.0.1, also under a name that it has brought to lead there), and any program on
// the machine.
//
// So before anything is looked at, a request must name us by our number and port as Host, must come from our own page if it says from
// where it comes, and must have the key: 128 random bits, that only the address has which is printed and opened. The key
// becomes a cookie that no other site's request carries (SameSite=Strict, RFC 6265bis) and no script reads.
type guard struct {
	host string // 127.0.0.1:port
	key  string
	next http.Handler
}

func newGuard(host string, next http.Handler) guard {
	var b [16]byte
	rand.Read(b[:]) // never fails
	return guard{host, base64.RawURLEncoding.EncodeToString(b[:]), next}
}

// address is where the page is, for the person's browser.
func (g guard) address() string { return "http://" + g.host + "/?key=" + g.key }

// cookie is the cookie's name. Cookies know no ports: several programs of ours may run.
func (g guard) cookie() string {
	return "boothmock-" + g.host[strings.LastIndexByte(g.host, ':')+1:]
}

func (g guard) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
	switch {
	case r.Host != g.host, !g.own(r):
		http.Error(w, "This program speaks only with its own page.", http.StatusForbidden)
	case r.Method == http.MethodGet && r.URL.Path == "/" && g.is(r.URL.Query().Get("key")):
		http.SetCookie(w, &http.Cookie{Name: g.cookie(), Value: g.key, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
		http.Redirect(w, r, "/", http.StatusSeeOther)
	case !g.knows(r):
		http.Error(w, "Open the address that the program has printed, with its key.", http.StatusForbidden)
	default:
		g.next.ServeHTTP(w, r)
	}
}

// own is whether a request comes from our own page, or from no page: one that changes something must say so.
func (g guard) own(r *http.Request) bool {
	switch r.Header.Get("Sec-Fetch-Site") { // Fetch Metadata (W3C)
	case "", "same-origin", "none":
	default:
		return false
	}
	origin := r.Header.Values("Origin")
	if len(origin) == 0 {
		return r.Method == http.MethodGet
	}
	return len(origin) == 1 && origin[0] == "http://"+g.host
}

func (g guard) is(key string) bool {
	return subtle.ConstantTimeCompare([]byte(key), []byte(g.key)) == 1
}

func (g guard) knows(r *http.Request) bool {
	for _, c := range r.CookiesNamed(g.cookie()) {
		if g.is(c.Value) {
			return true
		}
	}
	return false
}
