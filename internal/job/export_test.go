package job

import "boothmock/internal/basis/answer"

// Counts are the questions asked of the readers since the last version, and how many took work.
func (m *Mockup) Counts() map[string]answer.Count { return m.keeps.Counts() }

// Counts are the same of what parts are made from.
func (w *Workshop) Counts() map[string]answer.Count { return w.kept.Counts() }

// Kept is about how many bytes are kept.
func (w *Workshop) Kept(m *Mockup) int { return w.kept.Bytes() + m.keeps.Bytes() }

// WriteAll is Build for some outputs.
var WriteAll = writeAll
