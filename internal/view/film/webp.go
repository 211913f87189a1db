//go:build !js

package film

import (
	"bytes"
	"compress/gzip"
	"context"
	_ "embed"
	"encoding/binary"
	"errors"
	"image"
	"io"
	"sync"

	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/imports/wasi_snapshot_preview1"

	"boothmock/internal/basis/colour"
	"boothmock/internal/basis/imprint"
)

// HasWebP is whether this program can write animated WebP: the page that is the whole program is spared a second WebAssembly machine.
const HasWebP = true

// quality is of 100, method of 6: tuned on the demo's film, 55 pictures. Method 4 makes it 4 % smaller in three times the time.
const quality, method = 75, 2

// The encoder is WebAssembly, so that the same pictures give the same bytes on every machine; see libwebp/LICENSE.
//
//go:embed libwebp/webp.wasm.gz
var libwebp []byte

// encoder is the encoder ready to run: a machine of its own for each picture.
type encoder struct {
	machine wazero.Runtime
	code    wazero.CompiledModule
}

var shared = sync.OnceValues(func() (*encoder, error) { return newEncoder(wazero.NewRuntimeConfig()) })

func newEncoder(c wazero.RuntimeConfig) (*encoder, error) {
	z, err := gzip.NewReader(bytes.NewReader(libwebp))
	if err != nil {
		return nil, err
	}
	code, err := io.ReadAll(z)
	if err != nil {
		return nil, err
	}
	ctx := context.Background()
	e := &encoder{machine: wazero.NewRuntimeWithConfig(ctx, c)}
	if _, err := wasi_snapshot_preview1.Instantiate(ctx, e.machine); err != nil {
		return nil, err
	}
	e.code, err = e.machine.CompileModule(ctx, code)
	return e, err
}

// encode gives the chunks of a picture (RFC 9649, section 2): of an opaque one, its VP8.
func (e *encoder) encode(m *image.NRGBA) ([]byte, error) {
	ctx := context.Background()
	// No name: several run at once.
	run, err := e.machine.InstantiateModule(ctx, e.code, wazero.NewModuleConfig().WithName("").WithStartFunctions("_initialize"))
	if err != nil {
		return nil, err
	}
	defer run.Close(ctx)
	call := func(name string, args ...uint64) uint32 {
		var out []uint64
		if err == nil {
			out, err = run.ExportedFunction(name).Call(ctx, args...)
		}
		if err != nil {
			return 0
		}
		return uint32(out[0])
	}
	in := call("malloc", uint64(len(m.Pix)))
	size := call("malloc", 8)
	if err != nil {
		return nil, err
	}
	if !run.Memory().Write(in, m.Pix) || !run.Memory().WriteUint64Le(size, 0) {
		return nil, errors.New("the WebP encoder has no memory")
	}
	const argb, lossless, exact = 0, 0, 0
	at := call("encode", uint64(in), uint64(m.Rect.Dx()), uint64(m.Rect.Dy()), uint64(size), argb, quality, method, lossless, exact)
	if err != nil {
		return nil, err
	}
	n, _ := run.Memory().ReadUint32Le(size)
	file, ok := run.Memory().Read(at, n)
	if !ok || len(file) < len("RIFF????WEBP") {
		return nil, errors.New("the WebP encoder gave nothing")
	}
	return bytes.Clone(file[len("RIFF????WEBP"):]), nil
}

// WriteWebP writes the frames, opaque and all of one size, as an animated WebP that is shown again and again, with the profile of
// sRGB in it (RFC 9649, section 2.7.1.1). The same frames give the same bytes. There must be one at least.
func WriteWebP(w io.Writer, frames []*image.NRGBA) error {
	e, err := shared()
	if err != nil {
		return err
	}
	return e.write(w, frames)
}

func (e *encoder) write(w io.Writer, frames []*image.NRGBA) error {
	pictures, faults := make([][]byte, len(frames)), make([]error, len(frames))
	each(len(frames), func(i int) { pictures[i], faults[i] = e.encode(frames[i]) })
	if err := errors.Join(faults...); err != nil {
		return err
	}
	const moving, xmpInside, profileInside = 1 << 1, 1 << 2, 1 << 5
	sides := three(frames[0].Rect.Dx()-1, frames[0].Rect.Dy()-1)
	body := chunk([]byte("WEBP"), "VP8X", append([]byte{moving | xmpInside | profileInside, 0, 0, 0}, sides...))
	body = chunk(body, "ICCP", colour.Profile())
	body = chunk(body, "ANIM", make([]byte, 6)) // a background that nobody sees, and no end
	for i, p := range pictures {
		last := delay
		if i == len(pictures)-1 {
			last = rest
		}
		const asItIs = 1 << 1 // not blended with the one before
		head := append(append(three(0, 0), sides...), append(three(10*last), asItIs)...)
		body = chunk(body, "ANMF", append(head, p...))
	}
	body = chunk(body, "XMP ", []byte(imprint.XMP))
	_, err := w.Write(append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...))
	return err
}

// three are numbers of three bytes each.
func three(numbers ...int) (out []byte) {
	for _, n := range numbers {
		out = append(out, byte(n), byte(n>>8), byte(n>>16))
	}
	return out
}

// chunk adds a chunk to those of a file, to an even length.
func chunk(to []byte, name string, data []byte) []byte {
	to = binary.LittleEndian.AppendUint32(append(to, name...), uint32(len(data)))
	return append(append(to, data...), make([]byte, len(data)&1)...)
}
