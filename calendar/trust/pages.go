package trust

import (
	"bytes"
	"crypto/sha256"
	"crypto/x509"
	_ "embed" // the page and its style
	"encoding/base64"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"
)

//go:embed trust.html
var pageText string

//go:embed trust.css
var styleText string

// Path is where the page with the steps is, and CertificatePath where the certificate.
const (
	Path            = "/trust"
	CertificatePath = Path + "/authority.crt"
)

// Pages answers with what anybody may know of an authority.
type Pages struct {
	cert   *x509.Certificate
	policy string
	pages  map[asked][]byte // drawn once: they are the same for all
}

// asked is how somebody came to the page.
type asked struct {
	Plain bool // without https
	Key   bool // by an address that is a key
}

// view is what the page is drawn from.
type view struct {
	asked
	Style         template.CSS
	Name          string
	Ends          time.Time
	Fingerprint   []string
	Names, Ranges []string
	Certificate   string
	Try           string // the page over https
}

// New gives the pages for an authority's certificate (DER) and a server whose links begin with root,
// "https://larder.local:7379". The error says that it is no certificate.
func New(der []byte, root string) (*Pages, error) {
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, fmt.Errorf("reading the authority's certificate: %w", err)
	}
	sum := sha256.Sum256([]byte(styleText))
	p := &Pages{cert: cert, pages: map[asked][]byte{}, policy: "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) +
		"'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}
	v := view{Style: template.CSS(styleText), Name: cert.Subject.CommonName, Ends: cert.NotAfter, Fingerprint: p.Fingerprint(),
		Names: cert.PermittedDNSDomains, Certificate: CertificatePath, Try: root + Path}
	for _, r := range cert.PermittedIPRanges {
		v.Ranges = append(v.Ranges, r.String())
	}
	drawn := template.Must(template.New("trust").Parse(pageText))
	for _, v.asked = range []asked{{}, {Plain: true}, {Plain: true, Key: true}} {
		var text bytes.Buffer
		if err := drawn.Execute(&text, v); err != nil {
			return nil, fmt.Errorf("drawing the page on trust: %w", err)
		}
		p.pages[v.asked] = text.Bytes()
	}
	return p, nil
}

// Fingerprint is the SHA-256 of the certificate, by which people tell it from another: 32 bytes in pairs
// of hexadecimal digits, as phones show them, in four lines of eight.
func (p *Pages) Fingerprint() []string {
	sum := sha256.Sum256(p.cert.Raw)
	var lines []string
	for line := range slices.Chunk(sum[:], 8) {
		lines = append(lines, fmt.Sprintf("% X", line))
	}
	return lines
}

// Secure answers with the page to who asks over https.
func (p *Pages) Secure(w http.ResponseWriter, r *http.Request) {
	p.page(w, r, http.StatusOK, asked{})
}

// Certificate answers with the authority's certificate, of the type by which phones and browsers know that
// it may be installed.
func (p *Pages) Certificate(w http.ResponseWriter, r *http.Request) {
	p.send(w, r, http.StatusOK, "application/x-x509-ca-cert", p.cert.Raw)
}

// Plain answers whatever is asked without https: with the certificate where that is asked for, else with
// the page, and with nothing else. A request's body is not read, and its connection not kept.
func (p *Pages) Plain() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Connection", "close")
		came := asked{Plain: true, Key: holdsKey(r.URL.Path)}
		switch path := strings.TrimSuffix(r.URL.Path, "/"); {
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			w.Header().Set("Allow", "GET, HEAD")
			p.page(w, r, http.StatusMethodNotAllowed, came)
		case path == CertificatePath:
			p.Certificate(w, r)
		case path == Path || path == "":
			p.page(w, r, http.StatusOK, came)
		default:
			p.page(w, r, http.StatusForbidden, came)
		}
	})
}

// The addresses of a server hold keys of so many letters at the least, of these (calendar/address).
const (
	keyLeast   = 26
	keyLetters = "abcdefghijklmnopqrstuvwxyz234567"
)

// holdsKey reports whether something in a path looks like the key of an address.
func holdsKey(path string) bool {
	return slices.ContainsFunc(strings.Split(path, "/"), func(part string) bool {
		part = strings.TrimSuffix(part, ".ics")
		return len(part) >= keyLeast && strings.Trim(part, keyLetters) == ""
	})
}

func (p *Pages) page(w http.ResponseWriter, r *http.Request, status int, came asked) {
	p.send(w, r, status, "text/html; charset=utf-8", p.pages[came])
}

// send answers with bytes that are not to be kept: the next who asks may come otherwise.
func (p *Pages) send(w http.ResponseWriter, r *http.Request, status int, kind string, text []byte) {
	h := w.Header()
	h.Set("Content-Security-Policy", p.policy)
	h.Set("Referrer-Policy", "no-referrer") // the address may be a key
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("X-Robots-Tag", "noindex, nofollow, noarchive")
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Type", kind)
	h.Set("Content-Length", strconv.Itoa(len(text)))
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		_, _ = w.Write(text) // a client that went away is no fault
	}
}
