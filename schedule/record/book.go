package record

import (
	"cmp"
	"slices"

	"ripeby/resources"
)

// Book is the record of a kitchen: the entries of all months in the order of writing.
// The zero Book has none. A Book is not changed once it is made.
type Book struct {
	entries  []*Entry
	struckBy map[*Entry]*Entry // of those that are struck, by which
}

// NewBook makes a book of entries in the order of writing. An entry that says the same
// under the same number as an earlier one is that one.
func NewBook(entries []Entry) *Book {
	b := &Book{}
	bearing := map[int][]*Entry{} // by number
	for i := range entries {
		e := &entries[i]
		copied := func(o *Entry) bool { return Same(*e, *o) }
		if e.Nr != 0 && slices.ContainsFunc(bearing[e.Nr], copied) {
			continue
		}
		if e.Nr != 0 {
			bearing[e.Nr] = append(bearing[e.Nr], e)
		}
		b.entries = append(b.entries, e)
	}
	b.strike(bearing)
	return b
}

// strike finds which entries are struck. A strike takes back an entry with a lower
// number, of several that bear it the one written last; one without a number, which
// nothing can strike, any number. So from the highest number down each strike is known
// to stand or not before it is its turn.
func (b *Book) strike(bearing map[int][]*Entry) {
	b.struckBy = map[*Entry]*Entry{}
	var strikes []*Entry
	for _, e := range b.entries {
		if len(e.Strikes) > 0 {
			strikes = append(strikes, e)
		}
	}
	slices.SortStableFunc(strikes, func(a, b *Entry) int {
		if a.Nr == 0 || b.Nr == 0 { // those without a number first
			return cmp.Compare(a.Nr, b.Nr)
		}
		return cmp.Compare(b.Nr, a.Nr)
	})
	for _, e := range strikes {
		if b.struckBy[e] != nil {
			continue
		}
		for _, nr := range e.Strikes {
			if meant := bearing[nr]; len(meant) > 0 && (e.Nr == 0 || nr < e.Nr) {
				b.struckBy[meant[len(meant)-1]] = e
			}
		}
	}
}

// Until is the book as it was known at a moment: without every entry of a later At,
// strikes too. It says how many it leaves out.
func (b *Book) Until(m resources.Moment) (known *Book, left int) {
	var early []Entry
	for _, e := range b.entries {
		if e.At <= m {
			early = append(early, *e)
		}
	}
	return NewBook(early), len(b.entries) - len(early)
}

// But is the book as it would be had an entry not been written: what that struck stands.
func (b *Book) But(e *Entry) *Book {
	var others []Entry
	for _, o := range b.entries {
		if o != e {
			others = append(others, *o)
		}
	}
	return NewBook(others)
}

// All gives every entry, struck ones too, in the order of writing.
func (b *Book) All() Entries { return slices.Clone(b.entries) }

// StruckBy gives the entry of the book that strikes e; nil where none does.
func (b *Book) StruckBy(e *Entry) *Entry { return b.struckBy[e] }

// Standing gives the entries that are not struck, in the order of writing.
func (b *Book) Standing() Entries {
	var standing Entries
	for _, e := range b.entries {
		if b.struckBy[e] == nil {
			standing = append(standing, e)
		}
	}
	return standing
}

// LastNr is the highest number that an entry bears; 0 where none does.
func (b *Book) LastNr() int {
	last := 0
	for _, e := range b.entries {
		last = max(last, e.Nr)
	}
	return last
}
