package feed

import (
	"net/http"
	"net/url"
	"strings"
)

// policy lets a page load what the server itself gives, and nothing else: no inline
// script or style, no frame, no form that goes elsewhere.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; " +
	"connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// writingPolicy also lets a page's forms be sent to the server itself.
var writingPolicy = strings.Replace(policy, "form-action 'none'", "form-action 'self'", 1)

// admit sets what every answer carries and refuses what no path is for: other
// methods, other hosts, and requests with a body. Only where forms are sent to is there POST; what is
// served beside the page looks at methods and bodies itself.
func (s *Server) admit(w http.ResponseWriter, r *http.Request, forms, beside bool) bool {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("Referrer-Policy", "no-referrer") // the address is the key
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("X-Robots-Tag", "noindex, nofollow, noarchive")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	if s.crowded() {
		h.Set("Connection", "close")
	}
	posts := forms && r.Method == http.MethodPost
	switch {
	case !beside && !posts && r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		h.Set("Connection", "close") // its body is not read
		refuse(w, http.StatusMethodNotAllowed, "only GET and HEAD are answered here")
	case posts && (r.ContentLength < 0 || r.ContentLength > mostForm):
		h.Set("Connection", "close")
		refuse(w, http.StatusRequestEntityTooLarge, "a form of the page is no larger than 16 KiB, and says how large it is")
	case !beside && !posts && r.ContentLength != 0:
		h.Set("Connection", "close")
		refuse(w, http.StatusRequestEntityTooLarge, "a request has no body here")
	case !s.site.Knows(r.Host):
		// A page elsewhere whose name was made to point here would have its own name
		// in Host, and so is told nothing.
		refuse(w, http.StatusMisdirectedRequest, unknownName)
	default:
		return true
	}
	return false
}

const unknownName = "this server is not known by that name; start it with --url to give it one"

// admitPlain refuses what came without https for another host, as admit does.
func (s *Server) admitPlain(to http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !s.site.Knows(r.Host) {
			w.Header().Set("Connection", "close")
			refuse(w, http.StatusMisdirectedRequest, unknownName)
			return
		}
		to.ServeHTTP(w, r)
	})
}

// mostSegments is how deep a path may be.
const mostSegments = 8

// segments takes a path apart, each part unescaped. It is not ok when a part could
// mean another place, or something else than it shows: empty (but for the last), a
// dot or two, a slash or backslash within, or a control character.
func segments(escaped string) (parts []string, ok bool) {
	rest, rooted := strings.CutPrefix(escaped, "/")
	if !rooted || strings.Count(rest, "/") >= mostSegments {
		return nil, false
	}
	rest = strings.TrimSuffix(rest, "/")
	if rest == "" {
		return nil, true
	}
	for _, p := range strings.Split(rest, "/") {
		text, err := url.PathUnescape(p)
		if err != nil || text == "" || text == "." || text == ".." || strings.ContainsFunc(text, func(r rune) bool {
			return r == '/' || r == '\\' || r < ' ' || r == 0x7f || r == '\uFFFD'
		}) {
			return nil, false
		}
		parts = append(parts, text)
	}
	return parts, true
}
