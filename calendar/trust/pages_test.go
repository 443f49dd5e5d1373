package trust

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/hex"
	"html"
	"math/big"
	"net"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"
	"time"
)

// sampleCertificate is the certificate of an authority, of an odd name.
func sampleCertificate(t *testing.T) []byte {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	form := &x509.Certificate{SerialNumber: big.NewInt(7), Subject: pkix.Name{CommonName: "ripeby authority of Saltgrass <Lane>"},
		NotBefore: time.Date(2027, 3, 15, 0, 0, 0, 0, time.UTC), NotAfter: time.Date(2037, 3, 15, 0, 0, 0, 0, time.UTC), IsCA: true, BasicConstraintsValid: true,
		PermittedDNSDomainsCritical: true, PermittedDNSDomains: []string{"local", "kitchen.example"},
		PermittedIPRanges: []*net.IPNet{{IP: net.IPv4(192, 168, 0, 0).To4(), Mask: net.CIDRMask(16, 32)}}}
	der, err := x509.CreateCertificate(rand.Reader, form, form, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	return der
}

func samplePages(t *testing.T) (p *Pages, der []byte) {
	t.Helper()
	der = sampleCertificate(t)
	p, err := New(der, "https://larder.local:7379")
	if err != nil {
		t.Fatal(err)
	}
	return p, der
}

// key is a key of a calendar, as it may stand in an address.
const key = "abcdefghijklmnopqrstuvwxyz"

// Whatever is asked for without https is answered with the steps, or with the certificate, and with nothing
// else: no redirect, and nothing of what was asked.
func TestPlain(t *testing.T) {
	p, der := samplePages(t)
	tests := []struct {
		method, path string
		status       int
		told         bool // that a key was
	}{
		{"GET", "/", 200, false}, {"GET", "/trust", 200, false}, {"GET", "/trust/", 200, false}, {"HEAD", "/trust", 200, false},
		{"GET", "/w/" + key + "/", 403, true}, {"GET", "/w/" + key + "/week", 403, true}, {"GET", "/p/" + key + "/", 403, true},
		{"GET", "/f/" + key + ".ics", 403, true}, {"GET", "/s/" + key + "/batch/BH-1", 403, true}, {"HEAD", "/f/" + key + ".ics", 403, true},
		{"POST", "/w/" + key + "/say", 405, true}, {"PROPFIND", "/", 405, false}, {"OPTIONS", "*", 405, false},
		{"GET", "/f/", 403, false}, {"GET", "/health", 403, false}, {"GET", "/favicon.ico", 403, false}, {"GET", "/trust/other", 403, false},
		{"GET", "/f/" + key[1:] + ".ics", 403, false}, {"GET", "/other/" + key + "/below", 403, true},
		{"GET", "/../plan.json", 403, false}, {"GET", "//evil.example/", 403, false},
	}
	for _, c := range tests {
		r := httptest.NewRequest(c.method, "http://larder.local:7379/", strings.NewReader("who=Nell"))
		r.URL.Path = c.path
		w := httptest.NewRecorder()
		p.Plain().ServeHTTP(w, r)
		body := w.Body.String()
		if w.Code != c.status || w.Header().Get("Location") != "" || w.Header().Get("Connection") != "close" || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s %s: got %d and %v", c.method, c.path, w.Code, w.Header())
		}
		if strings.Contains(body, key) || strings.Contains(body, "Nell") {
			t.Errorf("%s %s: the answer says what was asked", c.method, c.path)
		}
		if c.method == "HEAD" {
			if body != "" {
				t.Errorf("HEAD %s: got a body", c.path)
			}
			continue
		}
		if !strings.Contains(body, "<h1>How a phone trusts this server</h1>") || strings.Contains(body, "is a key, and it came without https") != c.told {
			t.Errorf("%s %s: want the steps, told of a key %v", c.method, c.path, c.told)
		}
	}
	w := httptest.NewRecorder()
	p.Plain().ServeHTTP(w, httptest.NewRequest("GET", CertificatePath, nil))
	if w.Code != 200 || !bytes.Equal(w.Body.Bytes(), der) || w.Header().Get("Content-Type") != "application/x-x509-ca-cert" || w.Header().Get("Content-Disposition") != "" {
		t.Errorf("the certificate: got %d, %v", w.Code, w.Header())
	}
}

// The page says what the certificate is, by a fingerprint that is worked out here once more.
func TestPageSaysWhatIsTrusted(t *testing.T) {
	p, der := samplePages(t)
	w := httptest.NewRecorder()
	p.Secure(w, httptest.NewRequest("GET", Path, nil))
	body := w.Body.String()
	sum := sha256.Sum256(der)
	shown := regexp.MustCompile(`<span>([0-9A-F ]+)</span>`).FindAllStringSubmatch(body, -1)
	print := ""
	for _, line := range shown {
		print += strings.ReplaceAll(line[1], " ", "")
	}
	if want := strings.ToUpper(hex.EncodeToString(sum[:])); print != want || len(shown) != 4 {
		t.Errorf("got %q in %d lines, want %q in four", print, len(shown), want)
	}
	for _, want := range []string{"ripeby authority of Saltgrass &lt;Lane&gt;", "15 March 2037", "<code>kitchen.example</code>", "<code>192.168.0.0/16</code>", `href="https://larder.local:7379/trust"`, "This page came over https"} {
		if !strings.Contains(body, want) {
			t.Errorf("the page does not say %s", want)
		}
	}
	if w.Code != http.StatusOK {
		t.Errorf("got %d, want 200", w.Code)
	}
	// What the policy lets in is the page's own style, and nothing else is in it that a policy would stop.
	style := regexp.MustCompile(`(?s)<style>(.*)</style>`).FindStringSubmatch(body)
	if style == nil || html.UnescapeString(style[1]) != styleText || !strings.HasPrefix(w.Header().Get("Content-Security-Policy"), "default-src 'none'; style-src 'sha256-") {
		t.Errorf("the style is not the one that the policy lets in")
	}
	if strings.Contains(body, "<script") || strings.Contains(body, "style=") || strings.Contains(body, "<form") {
		t.Error("there is a script, a form or a style in the page")
	}
	if _, err := New([]byte("no certificate"), "https://larder.local"); err == nil {
		t.Error("got no error for what is no certificate")
	}
}

// Each way leads to steps that are there.
func TestLinksLeadToSteps(t *testing.T) {
	p, _ := samplePages(t)
	body := string(p.pages[asked{Plain: true}])
	links := regexp.MustCompile(`href="#(\w+)"`).FindAllStringSubmatch(body, -1)
	if len(links) < 5 {
		t.Fatalf("got %d ways", len(links))
	}
	for _, l := range links {
		if !strings.Contains(body, `<h3 id="`+l[1]+`">`) {
			t.Errorf("there are no steps for %s", l[1])
		}
	}
}
