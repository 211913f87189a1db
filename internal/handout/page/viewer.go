package page

import (
	"crypto/sha256"
	"encoding/base64"
	"strings"
	"sync"

	"boothmock/internal/basis/module"
)

// The walk, for another page that holds the elements of parts/walk.html: startWalk of scripts/look.js takes Facts and a .glb,
// whose images may have addresses.
var (
	WalkStyle = sync.OnceValue(func() string { return styled("paper", "walk") })
	WalkMoves = sync.OnceValue(func() string { return part("moves") }) // its keys in words, and its buttons
	Scripts   = sync.OnceValue(func() module.Set { return module.Read("handout/page", files) })
)

// part is a part of the page that is the same whatever the page shows.
func part(name string) string {
	var b strings.Builder
	if err := parts().ExecuteTemplate(&b, name, nil); err != nil {
		panic(err) // the file is inside the program
	}
	return b.String()
}

// Hashed is how a content security policy names a script or a style by what is in it (Content Security Policy Level 3, W3C,
// section 2.3.1, hash-source).
func Hashed(text string) string {
	h := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(h[:]) + "'"
}

// Facts are what the walk reads, ready for JSON. Of v it needs Plan, Checks, Sheet and Behind.
func Facts(v Values) any { return newFacts(v, v.Checks.ByWork(), newEyes(v.Plan)) }
