package film

import (
	"errors"
	"image"
	"io"
)

const HasWebP = false

func WriteWebP(io.Writer, []*image.NRGBA) error {
	return errors.New("the program for a computer writes animated WebP, this page does not")
}
