package art

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// looksLike says in plain words what a file is that is of no kind that can be read.
func looksLike(file []byte) string {
	head := file[:min(len(file), 4096)]
	for _, k := range []struct {
		at    int
		magic string
		what  string
	}{
		{0, "%PDF", "it is a PDF document"},
		{0, "GIF8", "it is a GIF"},
		{0, "BM", "it is a BMP"},
		{0, "8BPS", "it is a layered file of a photo program"},
		{4, "ftyp", "it is a film or a camera's raw file"},
		{0, "PK\x03\x04", "it is a zip archive or an office document"},
		{0, "\xd0\xcf\x11\xe0", "it is an old office document"},
	} {
		if len(head) > k.at && bytes.HasPrefix(head[k.at:], []byte(k.magic)) {
			return k.what
		}
	}
	if len(bytes.Trim(head, "\x00")) == 0 {
		return "it is filled with zeros, as after a copy that failed"
	}
	for range 3 { // the head may end in the middle of a character
		if !utf8.Valid(head) {
			head = head[:max(0, len(head)-1)]
		}
	}
	if utf8.Valid(head) && !bytes.ContainsRune(head, 0) {
		switch text := strings.ToLower(strings.TrimSpace(strings.TrimPrefix(string(head), "\ufeff"))); {
		case strings.Contains(text, "<svg"):
			return "it is an SVG drawing"
		case strings.HasPrefix(text, "<!doctype html"), strings.HasPrefix(text, "<html"):
			return "it is a web page"
		}
		return "it is a text"
	}
	return "it does not begin as any picture does"
}
