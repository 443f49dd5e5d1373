// Package seen keeps which warnings of the plan each person has answered. A warning stays with everybody until
// they have: that one has seen it says nothing of the others. It is kept beside the plan as a digest of what the
// warning says, so that one that says something else is to be answered anew.
package seen

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"ripeby/calendar/address"
	"ripeby/schedule"
)

// File is the name under which it is kept.
const File = "seen.json"

const format = "ripeby/seen/1"

// Most is how many answers are kept. Those of warnings that are in the plan no more are let go with each
// new one, so that it is more than a kitchen has; the oldest go first.
const Most = 4000

// Book is who has seen what. It is not changed: [Book.With] gives another. The zero value is empty.
type Book struct{ marks []mark }

// mark is one answer.
type mark struct {
	Person  string `json:"person"`
	Warning string `json:"warning"` // as KeyOf has it
}

// fileKeys are the keys of the file.
type fileKeys struct {
	Format string `json:"format"`
	Seen   []mark `json:"seen"`
}

// KeyOf tells one warning from another, by all that it says: 32 hexadecimal digits.
func KeyOf(w schedule.Warning) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%q %q %d", w.Code, w.Text, w.At))
	return hex.EncodeToString(sum[:16])
}

// Read reads what is kept; none is an empty book. With an error too: to ask once more costs a tap.
func Read(store address.Store) (Book, error) {
	text, err := store.Read(File)
	if errors.Is(err, fs.ErrNotExist) {
		return Book{}, nil
	}
	if err != nil {
		return Book{}, err
	}
	var k fileKeys
	if err := json.Unmarshal(text, &k); err != nil {
		return Book{}, fmt.Errorf("%s is damaged, and all warnings count as not seen: %w", File, err)
	}
	if k.Format != format || len(k.Seen) > Most {
		return Book{}, fmt.Errorf("%s has the format %q and %d answers, not %q and %d at the most, and all warnings count as not seen", File, k.Format, len(k.Seen), format, Most)
	}
	return Book{k.Seen}, nil
}

// Has reports whether somebody has seen a warning.
func (b Book) Has(person string, w schedule.Warning) bool {
	return slices.Contains(b.marks, mark{person, KeyOf(w)})
}

// With gives a book in which somebody has seen the warning with a key, and nothing of warnings that are none of
// these any more. It is the same book where none of them has that key.
func (b Book) With(person, key string, these []schedule.Warning) Book {
	there := map[string]bool{}
	for _, w := range these {
		there[KeyOf(w)] = true
	}
	if !there[key] || slices.Contains(b.marks, mark{person, key}) {
		return b
	}
	marks := slices.DeleteFunc(slices.Clone(b.marks), func(m mark) bool { return !there[m.Warning] })
	marks = append(marks, mark{person, key})
	return Book{marks[max(0, len(marks)-Most):]}
}

// Keep writes the book.
func (b Book) Keep(store address.Store) error {
	text, err := json.MarshalIndent(fileKeys{format, append([]mark{}, b.marks...)}, "", "  ")
	if err != nil {
		return err
	}
	return store.Write(File, append(text, '\n'))
}
