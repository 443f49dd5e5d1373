// Package edition holds calendars as they are served: the bytes, the tag made from them, and when they last
// changed, which is remembered beside the plan. Without that a restart would tell every phone that everything
// has changed, or, worse, tell one that had been away that nothing has.
package edition

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
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

// Edition is a calendar as it is served. Its tag is strong (RFC 9110, 8.8.3): it is made from the
// bytes alone.
type Edition struct {
	Text     []byte
	Tag      string // with its quotes
	Modified time.Time
}

// TagOf is the tag of bytes.
func TagOf(text []byte) string {
	sum := sha256.Sum256(text)
	return `"` + hex.EncodeToString(sum[:16]) + `"`
}

// Memory is what must outlive the server: the tag and the time of change of each
// calendar, by the digest of its token, and what the plan was made from.
type Memory struct {
	Format string       `json:"format"`
	Folder string       `json:"folder"` // print of the folder that the plan was made from
	Plan   string       `json:"plan"`   // print of that plan
	Site   string       `json:"site"`   // how links began
	Feeds  []Remembered `json:"feeds"`
}

// Remembered is what is kept of one calendar.
type Remembered struct {
	Digest   string    `json:"address"`
	Tag      string    `json:"etag"`
	Modified time.Time `json:"modified"`
}

// LastRoot is how links began when the kitchen was last served, "" when it never was.
func LastRoot(store address.Store) string {
	m, err := Read(store)
	if err != nil {
		return ""
	}
	return m.Site
}

// Read reads what is remembered. Where nothing can be read all calendars
// count as changed now, which costs each subscriber one download.
func Read(store address.Store) (Memory, error) {
	m := Memory{Format: memoryFormat}
	text, err := store.Read(MemoryFile)
	if errors.Is(err, fs.ErrNotExist) {
		return m, nil
	}
	if err != nil {
		return m, err
	}
	var read Memory
	if err := json.Unmarshal(text, &read); err != nil {
		return m, fmt.Errorf("%s is damaged and is written anew: %w", MemoryFile, err)
	}
	if read.Format != memoryFormat {
		return m, fmt.Errorf("%s has the format %q, not %q, and is written anew", MemoryFile, read.Format, memoryFormat)
	}
	return read, nil
}

// Keep writes it.
func (m Memory) Keep(store address.Store) error {
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	return store.Write(MemoryFile, append(text, '\n'))
}

func (m Memory) find(d address.Digest) (Remembered, bool) {
	name := hex.EncodeToString(d[:])
	for _, r := range m.Feeds {
		if r.Digest == name {
			return r, true
		}
	}
	return Remembered{}, false
}

// Edit gives the edition of a calendar's bytes. Its time of change stays while the
// bytes do; when they change it moves forward by a second at least, since that is
// how finely HTTP counts, whatever the clock says.
func (m Memory) Edit(d address.Digest, text []byte, now time.Time) *Edition {
	e := &Edition{Text: text, Tag: TagOf(text), Modified: now.UTC().Truncate(time.Second)}
	if old, known := m.find(d); known {
		switch next := old.Modified.UTC().Add(time.Second); {
		case old.Tag == e.Tag:
			e.Modified = old.Modified.UTC()
		case e.Modified.Before(next):
			e.Modified = next
		}
	}
	return e
}

// New is what is remembered of what is served now; nothing yet of its calendars.
func New(folder, plan, site string) Memory {
	return Memory{Format: memoryFormat, Folder: folder, Plan: plan, Site: site, Feeds: []Remembered{}}
}

// Add remembers a calendar.
func (m *Memory) Add(d address.Digest, e *Edition) {
	m.Feeds = append(m.Feeds, Remembered{hex.EncodeToString(d[:]), e.Tag, e.Modified})
}

// Sent is the time of change as it is told: never later than the clock (RFC 9110,
// 8.8.2.1), which it can be by a second when a calendar changed twice in one.
func (e *Edition) Sent(now time.Time) time.Time {
	if now = now.UTC().Truncate(time.Second); e.Modified.After(now) {
		return now
	}
	return e.Modified
}

// PolicyOf is what a picture, or a page, with a style sheet of its own may load: that sheet, by what it is,
// and nothing else (Content Security Policy 3, a hash of a style).
func PolicyOf(text []byte) string {
	style := ""
	if _, rest, found := bytes.Cut(text, []byte("<style>")); found {
		sheet, _, _ := bytes.Cut(rest, []byte("</style>"))
		sum := sha256.Sum256(sheet)
		style = "; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return "default-src 'none'" + style + "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
}
