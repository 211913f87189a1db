package job

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"regexp"
	"strconv"

	"boothmock/internal/basis/imprint"
)

// WriteJSON writes v as indented JSON, an object with our imprint in it. Numbers have at most nine decimals (of a metre: a nanometre): beyond them
// processors differ, as some round a product before they add to it and others do not.
func WriteJSON(w io.Writer, v any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(imprint.InJSON(token.ReplaceAllFunc(b.Bytes(), rounded)))
	return err
}

// token is a text, or a number that is not whole. Texts are matched so that a number in one is left alone.
var token = regexp.MustCompile(`"(?:[^"\\]|\\.)*"|-?[0-9]+(?:\.[0-9]+(?:e[-+]?[0-9]+)?|e-[0-9]+)`)

func rounded(t []byte) []byte {
	if t[0] == '"' {
		return t
	}
	f, err := strconv.ParseFloat(string(t), 64)
	if err != nil {
		return t
	}
	const whole = 1e9
	if r := math.Round(f*whole) / whole; !math.IsInf(r, 0) {
		return strconv.AppendFloat(nil, r+0, 'f', -1, 64) // +0: no minus before nothing
	}
	return t
}
