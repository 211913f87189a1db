package art

import (
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"io"
	"slices"
)

// HEIC and AVIF are boxes in boxes (ISO/IEC 14496-12 and 23008-12). Their readers run as WebAssembly and tell nothing of
// size or colours beforehand; what is needed of that is read here.

// heifBrand is whether the file is of one of the kinds, by its first brand or, for the general one, by any.
func heifBrand(kinds ...string) func(file []byte) bool {
	return func(file []byte) bool {
		if len(file) < 16 || string(file[4:8]) != "ftyp" {
			return false
		}
		n := min(int(binary.BigEndian.Uint32(file)), len(file), 256)
		var brands []string
		for at := 16; at+4 <= n; at += 4 {
			brands = append(brands, string(file[at:at+4]))
		}
		major := string(file[8:12])
		if major == "mif1" && slices.Contains(brands, "avif") {
			major = "avif"
		}
		return slices.Contains(kinds, major)
	}
}

// errStumbles is what people read about a picture at which a reader stops without words that mean something to them.
var errStumbles = errors.New("the part of the program that reads such pictures cannot make sense of it")

// mended decodes and mends what the decoder breaks: it hands out memory that it has freed already, at whose beginning the
// free list then stands. Those few pixels are taken from the row below.
func mended(decode func(io.Reader) (image.Image, error)) func(io.Reader) (image.Image, error) {
	const broken = 32 // bytes, at most
	return func(r io.Reader) (image.Image, error) {
		m, err := decode(r)
		if err != nil {
			return nil, errStumbles // what it says itself is of WebAssembly: "wasm error: unreachable" and a list of calls
		}
		var pix []uint8
		stride := 0
		switch m := m.(type) {
		case *image.YCbCr:
			pix, stride = m.Y, m.YStride
		case *image.Gray:
			pix, stride = m.Pix, m.Stride
		case *image.RGBA:
			pix, stride = m.Pix, m.Stride
		case *image.NRGBA:
			pix, stride = m.Pix, m.Stride
		}
		if n := min(broken, stride); len(pix) >= stride+n {
			copy(pix[:n], pix[stride:stride+n])
		}
		return m, nil
	}
}

// heifProperties visits the properties of the pictures in a file.
func heifProperties(file []byte, visit func(kind string, body []byte)) {
	boxes(file, func(kind string, meta []byte) {
		if kind != "meta" || len(meta) < 4 {
			return
		}
		boxes(meta[4:], func(kind string, iprp []byte) { // 4: version and flags
			if kind != "iprp" {
				return
			}
			boxes(iprp, func(kind string, ipco []byte) {
				if kind == "ipco" {
					boxes(ipco, visit)
				}
			})
		})
	})
}

// heifWhole is whether the last box of a file ends with it.
func heifWhole(file []byte) bool { return len(boxes(file, func(string, []byte) {})) == 0 }

// boxes visits the boxes in a row and returns what is left behind them: something, where one is cut short.
func boxes(p []byte, visit func(kind string, body []byte)) []byte {
	for len(p) >= 8 {
		n, head := uint64(binary.BigEndian.Uint32(p)), uint64(8)
		switch {
		case n == 0: // to the end
			n = uint64(len(p))
		case n == 1 && len(p) >= 16:
			n, head = binary.BigEndian.Uint64(p[8:]), 16
		}
		if n < head || n > uint64(len(p)) {
			break
		}
		visit(string(p[4:8]), p[head:n])
		p = p[n:]
	}
	return p
}

// heicConfig is heifConfig for HEIC, whose decoder muddles the rows of very small pictures.
func heicConfig(file []byte) (image.Config, error) {
	const least = 128 // pixels
	c, err := heifConfig(file)
	if err == nil && min(c.Width, c.Height) < least {
		err = errUnsupported{fmt.Errorf("it is only %d x %d pixels", c.Width, c.Height)}
	}
	return c, err
}

// heifConfig is the size of the largest picture in the file: a photograph is stored with thumbnails and in tiles.
func heifConfig(file []byte) (image.Config, error) {
	var c image.Config
	huge := false
	heifProperties(file, func(kind string, b []byte) {
		if kind != "ispe" || len(b) < 12 {
			return
		}
		w, h := binary.BigEndian.Uint32(b[4:]), binary.BigEndian.Uint32(b[8:])
		if w > 1<<24 || h > 1<<24 {
			huge = true
		} else if int64(w)*int64(h) > int64(c.Width)*int64(c.Height) {
			c.Width, c.Height = int(w), int(h)
		}
	})
	switch {
	case huge:
		return image.Config{Width: 1 << 24, Height: 1 << 24}, nil
	case c.Width == 0:
		return c, errors.New("it does not say how large it is")
	}
	return c, nil
}

// heifProfile is the colour profile of the picture, or nil.
func heifProfile(file []byte) (profile []byte) {
	heifProperties(file, func(kind string, b []byte) {
		if kind == "colr" && len(b) > 4 && string(b[:4]) == "prof" && profile == nil {
			profile = b[4:]
		}
	})
	return profile
}

// heifRange brings a HEIC's colours to those of JPEG, by what its box of colours says (ISO/IEC 23091-2: matrix 1 is
// BT.709). Without one they are full-range BT.601.
func heifRange(m image.Image, file []byte) {
	ycc, ok := m.(*image.YCbCr)
	if !ok {
		return
	}
	matrix, full := uint16(6), true
	heifProperties(file, func(kind string, b []byte) {
		if kind == "colr" && len(b) >= 11 && string(b[:4]) == "nclx" {
			matrix, full = binary.BigEndian.Uint16(b[8:]), b[10]&0x80 != 0
		}
	})
	if !full {
		stretch(ycc)
	}
	if matrix == 1 {
		from709(ycc)
	}
}
