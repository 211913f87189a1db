package answer

import (
	"crypto/sha256"
	"encoding/binary"
	"hash"
	"math"
)

// Sum stands for what an answer is made from: two things with one sum are the same (SHA-256, FIPS 180-4).
type Sum [sha256.Size]byte

// Summing adds up a Sum. What is written to it must say for itself where one thing ends and the next begins: texts and lists
// are written with their lengths.
type Summing struct {
	hash   hash.Hash
	buffer []byte
}

// Add takes numbers in, bit by bit.
func (s *Summing) Add(numbers ...float64) {
	for _, x := range numbers {
		s.buffer = binary.LittleEndian.AppendUint64(s.buffer, math.Float64bits(x))
	}
	s.flush()
}

// Count takes whole numbers in.
func (s *Summing) Count(numbers ...int) {
	for _, n := range numbers {
		s.buffer = binary.AppendVarint(s.buffer, int64(n))
	}
	s.flush()
}

// Text takes a text in.
func (s *Summing) Text(t string) {
	s.Count(len(t))
	s.buffer = append(s.buffer, t...)
	s.flush()
}

// Sum takes another sum in.
func (s *Summing) Sum(o Sum) {
	s.buffer = append(s.buffer, o[:]...)
	s.flush()
}

func (s *Summing) flush() {
	const enough = 4096
	if len(s.buffer) < enough {
		return
	}
	if s.hash == nil {
		s.hash = sha256.New()
	}
	s.hash.Write(s.buffer)
	s.buffer = s.buffer[:0]
}

// Done is the sum of all that was taken in; the next one begins.
func (s *Summing) Done() Sum {
	if s.hash == nil {
		out := Sum(sha256.Sum256(s.buffer))
		s.buffer = s.buffer[:0]
		return out
	}
	s.hash.Write(s.buffer)
	var out Sum
	s.hash.Sum(out[:0])
	s.hash.Reset()
	s.hash, s.buffer = nil, s.buffer[:0]
	return out
}
