package art

import (
	"errors"
	"image"
	"io"
)

// Their readers are WebAssembly themselves and a machine that runs it: in a page that is 3 MB more, packed.
var decodeHEIC, decodeAVIF = notInPage, notInPage

func notInPage(io.Reader) (image.Image, error) {
	return nil, errUnsupported{errors.New("the program for a computer reads it, this page does not")}
}
