package orders

import "ripeby/config"

// How much of a file is read. Beyond it the file is refused, with the limit named.
const (
	MaxBytes = config.MaxFileBytes // of the file
	MaxLines = config.MaxEntries   // that hold something, below the header
)
