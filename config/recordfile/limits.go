package recordfile

// How much of a record is read and written. Every one of these is far beyond what a small
// kitchen says; beyond it a line or a file is refused, with the limit named.
const (
	MaxBytes  = 4 << 20  // of one month: some 20,000 entries
	MaxFiles  = 1200     // months, a hundred years of them
	MaxLine   = 64 << 10 // bytes of one entry
	MaxText   = 200      // characters of a lot, a reason, a reading, a word of a phone
	MaxNumber = 1_000_000_000
	MaxPieces = 100_000 // of one batch or target
	MaxList   = 200     // readings, lots or numbers in one entry
)
