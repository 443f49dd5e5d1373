package address

import (
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
)

// File is the name under which the addresses are kept.
const File = "addresses.json"

const bookFormat = "ripeby/addresses/1"

// Kind says what an address leads to.
type Kind string

// The kinds of address.
const (
	Everything Kind = "everything" // all work, rounds and targets
	OnePerson  Kind = "person"     // one person's work and rounds, and all targets
	ColdPlaces Kind = "cold"       // stays in cold places, as whole days
	Page       Kind = "page"       // the page for the kitchen
	Writing    Kind = "writing"    // the same page, on which one person says what happened
	// Thermometer is where the thermometer of one place tells what it reads. Nothing can be read there.
	Thermometer Kind = "thermometer"
)

// IsCalendar reports whether an address leads to a calendar.
func (k Kind) IsCalendar() bool { return k == Everything || k == OnePerson || k == ColdPlaces }

// Address is one unguessable address.
type Address struct {
	Kind   Kind   `json:"kind"`
	Person string `json:"person,omitempty"`
	Place  string `json:"place,omitempty"` // of a thermometer
	Token  string `json:"token"`
}

// Label names what the address leads to, for people. Those of one person have one label.
func (a Address) Label() string {
	switch a.Kind {
	case OnePerson, Writing:
		return a.Person
	case ColdPlaces:
		return "cold places"
	case Thermometer:
		return ThermometerOf(a.Place)
	}
	return string(a.Kind)
}

// ThermometerOf is the label of the address of a place's thermometer. A person may have the name of a place.
func ThermometerOf(place string) string { return "thermometer: " + place }

// Path is the address within the server.
func (a Address) Path() string {
	switch a.Kind {
	case Page:
		return "/p/" + a.Token + "/"
	case Writing:
		return "/w/" + a.Token + "/"
	case Thermometer:
		return "/t/" + a.Token
	}
	return "/f/" + a.Token + ".ics"
}

// Seal is a key for a text that only who has the address can make, as long as a token and of its letters.
func (a Address) Seal(text string) string {
	seal := hmac.New(sha256.New, []byte(a.Token))
	seal.Write([]byte(text))
	return strings.ToLower(base32.StdEncoding.EncodeToString(seal.Sum(nil))[:tokenLeast])
}

// SheetKey is the key of the sheets that a calendar's events name. It is made from the calendar's own and
// leads to them alone: who is sent an event can read the sheet of its batch, and not the calendar.
func (a Address) SheetKey() string { return a.Seal("sheets") }

// SheetsPath is where the sheets are that its events name, within the server.
func (a Address) SheetsPath() string { return "/s/" + a.SheetKey() + "/batch/" }

// Digest is what a token is known by where it need not be shown.
type Digest [sha256.Size]byte

// DigestOf is the digest of a token.
func DigestOf(token string) Digest { return sha256.Sum256([]byte(token)) }

// Book holds the addresses of a kitchen and the digests of those that were taken
// back. It is not changed once it is on a board.
type Book struct {
	Addresses []Address
	digests   []Digest // of Addresses
	revoked   []Digest
}

// bookKeys are the keys of the file.
type bookKeys struct {
	Format    string    `json:"format"`
	Addresses []Address `json:"addresses"`
	Revoked   []string  `json:"revoked"` // SHA-256 of the token, hexadecimal
}

// Store keeps files beside the plan, readable by their owner alone. Each is written whole or not at all.
type Store interface {
	// Read gives a file's bytes; the error is fs.ErrNotExist when there is none.
	Read(name string) ([]byte, error)
	Write(name string, text []byte) error
}

// Digest is what an address is known by where it need not be shown, by its place in Addresses.
func (b *Book) Digest(i int) Digest { return b.digests[i] }

// Read reads the addresses that are kept; none is an empty book.
func Read(store Store) (*Book, error) {
	text, err := store.Read(File)
	if errors.Is(err, fs.ErrNotExist) {
		return &Book{}, nil
	}
	if err != nil {
		return nil, err
	}
	b, err := Decode(text)
	if err != nil {
		return nil, fmt.Errorf("%s, which holds the addresses, %w; put back a good copy, or remove it: then all addresses are made anew and phones must subscribe again", File, err)
	}
	return b, nil
}

// tokenLeast is the shortest token that is believed: 26 characters of 5 random bits.
const tokenLeast = 26

// Decode reads the text of the file.
func Decode(text []byte) (*Book, error) {
	var k bookKeys
	if err := json.Unmarshal(text, &k); err != nil {
		return nil, fmt.Errorf("is damaged: %w", err)
	}
	if k.Format != bookFormat {
		return nil, fmt.Errorf("has the format %q; want %q", k.Format, bookFormat)
	}
	b := &Book{Addresses: k.Addresses}
	for _, a := range k.Addresses {
		if len(a.Token) < tokenLeast || strings.Trim(a.Token, tokenLetters) != "" {
			return nil, fmt.Errorf("has an address for %q that is not one", a.Label())
		}
		b.digests = append(b.digests, DigestOf(a.Token))
	}
	for _, h := range k.Revoked {
		var d Digest
		if n, err := hex.Decode(d[:], []byte(h)); err != nil || n != len(d) {
			return nil, errors.New("has a revoked address that is not one")
		}
		b.revoked = append(b.revoked, d)
	}
	return b, nil
}

// Keep writes the book.
func (b *Book) Keep(store Store) error {
	k := bookKeys{Format: bookFormat, Addresses: b.Addresses, Revoked: []string{}}
	for _, d := range b.revoked {
		k.Revoked = append(k.Revoked, hex.EncodeToString(d[:]))
	}
	text, err := json.MarshalIndent(k, "", "  ")
	if err != nil {
		return err
	}
	return store.Write(File, append(text, '\n'))
}

// tokenLetters are those of rand.Text, in small letters.
const tokenLetters = "abcdefghijklmnopqrstuvwxyz234567"

// NewToken draws 130 random bits.
func NewToken() string { return strings.ToLower(rand.Text()) }

// Complete gives a book that has an address for everything, the cold places, the page and
// each of the people, one on which each of them writes, and one for the thermometer of each of some
// places, and says whether any was missing.
func (b *Book) Complete(people []string, places ...string) (book *Book, added bool) {
	want := []Address{{Kind: Everything}}
	for _, p := range people {
		want = append(want, Address{Kind: OnePerson, Person: p})
	}
	want = append(want, Address{Kind: ColdPlaces}, Address{Kind: Page})
	for _, p := range people {
		want = append(want, Address{Kind: Writing, Person: p})
	}
	for _, p := range places {
		want = append(want, Address{Kind: Thermometer, Place: p})
	}
	book = &Book{Addresses: slices.Clone(b.Addresses), digests: slices.Clone(b.digests), revoked: b.revoked}
	for _, a := range want {
		same := func(o Address) bool { return o.Kind == a.Kind && o.Person == a.Person && o.Place == a.Place }
		if slices.ContainsFunc(book.Addresses, same) {
			continue
		}
		a.Token = NewToken()
		book.Addresses = append(book.Addresses, a)
		book.digests = append(book.digests, DigestOf(a.Token))
		added = true
	}
	return book, added
}

// Renew gives a book in which the addresses with the label are taken back, "" for
// all of them, and the labels of those. Complete then makes new ones for whoever is
// still in the kitchen.
func (b *Book) Renew(label string) (book *Book, labels []string) {
	book = &Book{revoked: slices.Clone(b.revoked)}
	for i, a := range b.Addresses {
		if label == "" || a.Label() == label {
			book.revoked = append(book.revoked, b.digests[i])
			labels = append(labels, a.Label())
			continue
		}
		book.Addresses = append(book.Addresses, a)
		book.digests = append(book.digests, b.digests[i])
	}
	return book, labels
}

// Standing is what is known of a token.
type Standing int

// An address never was, was taken back, or leads somewhere.
const (
	Unknown Standing = iota
	Revoked
	InUse
)

// Find looks a token up. Digests are compared, all of them and each in the same
// time, so that how long it takes says nothing about how near a guess is.
func (b *Book) Find(token string) (Address, Standing) {
	d := DigestOf(token)
	found, taken := -1, 0
	for i := range b.digests {
		if subtle.ConstantTimeCompare(d[:], b.digests[i][:]) == 1 {
			found = i
		}
	}
	for i := range b.revoked {
		taken |= subtle.ConstantTimeCompare(d[:], b.revoked[i][:])
	}
	switch {
	case found >= 0:
		return b.Addresses[found], InUse
	case taken == 1:
		return Address{}, Revoked
	}
	return Address{}, Unknown
}

// FindSheets looks up a key of sheets, likewise.
func (b *Book) FindSheets(key string) (found Address, ok bool) {
	d := DigestOf(key)
	for i := range b.Addresses {
		if of := DigestOf(b.Addresses[i].SheetKey()); subtle.ConstantTimeCompare(d[:], of[:]) == 1 {
			found, ok = b.Addresses[i], true
		}
	}
	return found, ok
}
