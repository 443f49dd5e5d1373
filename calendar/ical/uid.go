package ical

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"strings"
)

// slugMost is how many characters of each part a UID shows; its tail tells
// apart what the shortened parts do not.
const slugMost = 32

// uidOf makes the UID of an event from its kind and what names it for ever: a
// batch's id and stage, a local day, or a target's name. What names it is shown as
// far as it is plain, and a hash of the exact words follows, so that stages whose
// names differ only in odd characters differ too. It holds no host or user name.
func uidOf(kind string, names ...string) string {
	h := sha256.New()
	parts := []string{"ripeby", kind}
	for _, name := range append([]string{kind}, names...) {
		// Lengths first: ("a", "bc") is not ("ab", "c").
		h.Write([]byte(strconv.Itoa(len(name)) + ":" + name))
	}
	for _, name := range names {
		if s := slug(name); s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, "-") + "-" + hex.EncodeToString(h.Sum(nil)[:10])
}

// slug keeps letters, digits and dashes of ASCII, and makes one dash of
// everything between them.
func slug(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range name {
		plain := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9'
		if !plain {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
		if b.Len() >= slugMost {
			break
		}
	}
	return b.String()
}
