package recordfile

import (
	"strings"
	"time"

	"ripeby/schedule/record"
)

// Said is what an entry says as its line has it, without its number, its moment and the
// word of the phone, and without quotation marks: for people, not to be read back.
func Said(e record.Entry, zone *time.Location) string {
	w := &lineWriter{zone: zone, bare: true}
	w.said(&e)
	return strings.Join(w.pairs, ", ")
}
