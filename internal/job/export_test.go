package job

// WriteAll is Build for some outputs.
var WriteAll = writeAll
