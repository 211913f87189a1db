package art

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"

	"golang.org/x/image/tiff"
)

// tiffConfig is the head of a TIFF, which must not be a camera's raw file: those begin with a thumbnail.
func tiffConfig(file []byte) (image.Config, error) {
	const newSubfileType, dngVersion, reduced = 254, 50706, 1
	raw := tiffTag(file, dngVersion) != nil || string(file[8:min(len(file), 10)]) == "CR"
	if v := tiffTag(file, newSubfileType); len(v) >= 4 {
		raw = raw || tiffOrder(file).Uint32(v)&reduced != 0
	}
	if raw {
		return image.Config{}, errUnsupported{errors.New("it is a camera's raw file")}
	}
	return tiff.DecodeConfig(bytes.NewReader(file))
}

// errUnsupported is a file that is sound but of a kind that cannot be read.
type errUnsupported struct{ error }

// tiffProfile is the colour profile of a TIFF (ICC.1:2022, annex B.2), or nil.
func tiffProfile(file []byte) []byte { return tiffTag(file, 34675) }

// tiffOrder is the byte order of a TIFF, or nil.
func tiffOrder(file []byte) binary.ByteOrder {
	if len(file) >= 8 {
		switch string(file[:2]) {
		case "II":
			return binary.LittleEndian
		case "MM":
			return binary.BigEndian
		}
	}
	return nil
}

// tiffTag is the value of a tag in the first directory of a TIFF (TIFF 6.0, section 2), or nil.
func tiffTag(file []byte, tag uint16) []byte {
	order := tiffOrder(file)
	if order == nil || order.Uint16(file[2:]) != 42 {
		return nil
	}
	at := int64(order.Uint32(file[4:]))
	if at > int64(len(file)-2) {
		return nil
	}
	entries := file[at+2:]
	for range order.Uint16(file[at:]) {
		if len(entries) < 12 {
			return nil
		}
		if order.Uint16(entries) == tag {
			sizes := [...]int64{1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8}
			kind := int(order.Uint16(entries[2:]))
			if kind >= len(sizes) {
				return nil
			}
			n := sizes[kind] * int64(order.Uint32(entries[4:]))
			if n <= 4 {
				return entries[8 : 8+n]
			}
			from := int64(order.Uint32(entries[8:]))
			if from+n > int64(len(file)) {
				return nil
			}
			return file[from : from+n]
		}
		entries = entries[12:]
	}
	return nil
}
