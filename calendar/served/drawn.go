package served

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"

	"ripeby/calendar/edition"
)

// MayKeep lets a client keep what it got but ask each time: that costs a 304.
const MayKeep = "private, no-cache"

// Whole readies a request for http.ServeContent. Conditions that stand on several lines
// are one list (RFC 9110, 5.3). A part of a calendar would cost a phone the tasks of the
// rest, and every text here is short: ranges are left aside, as 14.2 lets a server do.
func Whole(r *http.Request) *http.Request {
	for _, name := range []string{"If-None-Match", "If-Match"} {
		if lines := r.Header.Values(name); len(lines) > 1 {
			r.Header.Set(name, strings.Join(lines, ", "))
		}
	}
	r.Header.Del("Range")
	return r
}

// Drawing is a picture, or a page, of a content type that brings a style sheet of its own, which its own policy
// lets through by what it is and nothing else (Content Security Policy 3, a hash of a style).
func Drawing(kind string, text []byte) *Answer {
	style := ""
	if _, rest, found := bytes.Cut(text, []byte("<style>")); found {
		sheet, _, _ := bytes.Cut(rest, []byte("</style>"))
		sum := sha256.Sum256(sheet)
		style = "; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return &Answer{Kind: kind, Tag: edition.TagOf(text), Text: text,
		Policy: "default-src 'none'" + style + "; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}
}

// JSON is what a script reads.
func JSON(kind string, of any) *Answer {
	text, err := json.Marshal(of)
	if err != nil {
		panic(fmt.Errorf("drawing %s: %w", kind, err))
	}
	return &Answer{Kind: kind, Tag: edition.TagOf(text), Text: append(text, '\n')}
}
