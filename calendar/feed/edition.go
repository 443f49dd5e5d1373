package feed

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"time"

	"ripeby/calendar/address"
)

// MemoryFile is the name under which it is kept when each calendar last changed.
const MemoryFile = "feeds.json"

const memoryFormat = "ripeby/feeds/1"

// edition is a calendar as it is served. Its tag is strong: it is made from the
// bytes alone.
type edition struct {
	text     []byte
	tag      string // with its quotes
	modified time.Time
}

func tagOf(text []byte) string {
	sum := sha256.Sum256(text)
	return `"` + hex.EncodeToString(sum[:16]) + `"`
}

// memory is what must outlive the server: the tag and the time of change of each
// calendar, by the digest of its token, and what the plan was made from. Without
// it a restart would tell every phone that everything has changed, or, worse, tell
// one that had been away that nothing has.
type memory struct {
	Format string       `json:"format"`
	Folder string       `json:"folder"` // print of the folder that the plan was made from
	Plan   string       `json:"plan"`   // print of that plan
	Site   string       `json:"site"`   // how links began
	Feeds  []remembered `json:"feeds"`
}

type remembered struct {
	Digest   string    `json:"address"`
	Tag      string    `json:"etag"`
	Modified time.Time `json:"modified"`
}

// LastRoot is how links began when the kitchen was last served, "" when it never was.
func LastRoot(store address.Store) string {
	m, err := readMemory(store)
	if err != nil {
		return ""
	}
	return m.Site
}

// readMemory reads what is remembered. Where nothing can be read all calendars
// count as changed now, which costs each subscriber one download.
func readMemory(store address.Store) (memory, error) {
	m := memory{Format: memoryFormat}
	text, err := store.Read(MemoryFile)
	if errors.Is(err, fs.ErrNotExist) {
		return m, nil
	}
	if err != nil {
		return m, err
	}
	var read memory
	if err := json.Unmarshal(text, &read); err != nil {
		return m, fmt.Errorf("%s is damaged and is written anew: %w", MemoryFile, err)
	}
	if read.Format != memoryFormat {
		return m, fmt.Errorf("%s has the format %q, not %q, and is written anew", MemoryFile, read.Format, memoryFormat)
	}
	return read, nil
}

func (m memory) keep(store address.Store) error {
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	return store.Write(MemoryFile, append(text, '\n'))
}

func (m memory) find(d address.Digest) (remembered, bool) {
	name := hex.EncodeToString(d[:])
	for _, r := range m.Feeds {
		if r.Digest == name {
			return r, true
		}
	}
	return remembered{}, false
}

// edit gives the edition of a calendar's bytes. Its time of change stays while the
// bytes do; when they change it moves forward by a second at least, since that is
// how finely HTTP counts, whatever the clock says.
func (m memory) edit(d address.Digest, text []byte, now time.Time) *edition {
	e := &edition{text: text, tag: tagOf(text), modified: now.UTC().Truncate(time.Second)}
	if old, known := m.find(d); known {
		switch next := old.Modified.UTC().Add(time.Second); {
		case old.Tag == e.tag:
			e.modified = old.Modified.UTC()
		case e.modified.Before(next):
			e.modified = next
		}
	}
	return e
}
