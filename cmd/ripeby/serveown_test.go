package main

import (
	"bytes"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/feed"
	"ripeby/cmd/internal/authority"
)

// keptAuthority gives the certificate of the authority that is kept for a folder, and the file as it is.
func keptAuthority(t *testing.T, folder string) (cert *x509.Certificate, text []byte) {
	t.Helper()
	file := filepath.Join(folder, "plan", authority.File)
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	block, _ := pem.Decode(text)
	cert, err = x509.ParseCertificate(block.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%s: got mode %v (%v), want 600", authority.File, info.Mode(), err)
	}
	return cert, text
}

// trusting has a server's client trust one certificate and nothing else.
func (s *serving) trusting(cert *x509.Certificate) {
	roots := x509.NewCertPool()
	roots.AddCert(cert)
	s.client.Transport = &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}
}

// shownPrint is a fingerprint as people compare it, worked out here once more.
func shownPrint(cert *x509.Certificate) string {
	sum := sha256.Sum256(cert.Raw)
	pairs := make([]string, len(sum))
	for i, b := range sum {
		pairs[i] = fmt.Sprintf("%02X", b)
	}
	return strings.Join(pairs, " ")
}

// From nothing to a phone that trusts: the authority is made once, the terminal says where phones are told
// and what its fingerprint is, https is spoken in its name, and http says how to trust it and nothing else.
func TestServeWithItsOwnAuthority(t *testing.T) {
	folder := newFolder(t)
	s := servingOn(t, folder, nil, "--own-https")
	if !strings.HasPrefix(s.site, "https://127.0.0.1:") {
		t.Errorf("it serves on %s, want https", s.site)
	}
	cert, text := keptAuthority(t, folder)
	if cert.Subject.CommonName != "ripeby authority of Rushy Meadow" {
		t.Errorf("the authority is called %q", cert.Subject.CommonName)
	}
	s.trusting(cert)
	s.wait("a calendar", func() bool { status, _, _ := s.get(s.path("everything"), ""); return status == 200 })
	if out := strings.Join(strings.Fields(s.out.String()), " "); !strings.Contains(out, shownPrint(cert)) ||
		!strings.Contains(out, "How a phone trusts this server, once (this address is no key): http"+strings.TrimPrefix(s.site, "https")+"/trust ") {
		t.Errorf("it says %q, want the fingerprint %s and where phones are told", out, shownPrint(cert))
	}
	port := s.site[strings.LastIndex(s.site, ":"):]
	for _, host := range []string{"localhost", "127.0.0.1", "[::1]"} {
		conf := s.client.Transport.(*http.Transport).TLSClientConfig.Clone()
		conf.ServerName = strings.Trim(host, "[]") // whatever this machine makes of the name
		c, err := tls.Dial("tcp", "127.0.0.1"+port, conf)
		if err != nil {
			t.Errorf("%s: %v", host, err)
			continue
		}
		c.Close()
	}
	kept := filesOf(t, folder)
	secure := s.site
	s.site = "http" + strings.TrimPrefix(secure, "https")
	for _, label := range []string{"everything", "page", "Wren"} {
		status, body, _ := s.get(s.path(label), "")
		if status != 403 || !strings.Contains(body, "How a phone trusts this server") || strings.Contains(body, "VCALENDAR") {
			t.Errorf("%s over http: got %d, %q; want how to trust and nothing else", label, status, body)
		}
	}
	if status, body, _ := s.get("/trust", ""); status != 200 || !strings.Contains(body, secure+"/trust") || strings.Contains(body, "--new-addresses") {
		t.Errorf("/trust over http: got %d, %q", status, body)
	}
	if status, body, _ := s.get("/trust/authority.crt", ""); status != 200 || body != string(cert.Raw) {
		t.Errorf("the certificate over http: got %d and %d bytes, want that of the authority", status, len(body))
	}
	if after := filesOf(t, folder); !slices.Equal(after, kept) {
		t.Errorf("what came over http changed the folder: %q, before %q", after, kept)
	}
	if private := text[bytes.Index(text, []byte("PRIVATE KEY")):]; strings.Contains(s.out.String()+s.err.String(), string(private[20:60])) {
		t.Error("the key was printed")
	}
	if code := s.stop(); code != 0 {
		t.Errorf("got %d, want 0", code)
	}

	for _, how := range [][]string{nil, {"--own-https"}} { // as it was served last
		got := runWith(t.Context(), nil, append([]string{"serve", "-C", folder, "--addresses"}, how...)...)
		if got.code != 0 || !strings.Contains(got.out, "  "+secure+"/p/") {
			t.Errorf("--addresses %q: got %d and %q, want links of %s", how, got.code, got.out, secure)
		}
	}

	again := servingOn(t, folder, nil, "--own-https")
	if _, now := keptAuthority(t, folder); !bytes.Equal(now, text) {
		t.Error("another start made another authority")
	}
	again.trusting(cert)
	if status, _, _ := again.get(again.path("page"), ""); status != 200 {
		t.Errorf("after another start: got %d, want 200 by the same authority", status)
	}
}

// filesOf lists the files of a folder that hold what was said or who may say it, with their sizes.
func filesOf(t *testing.T, folder string) (all []string) {
	t.Helper()
	for _, pattern := range []string{"record/*", "plan/addresses.json", "plan/authority.pem"} {
		found, err := filepath.Glob(filepath.Join(folder, pattern))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range found {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, fmt.Sprintf("%s %x", name, sha256.Sum256(text)))
		}
	}
	return all
}

// What is wrong is told in one line, and nothing is written, nor written over.
func TestOwnAuthorityRefusals(t *testing.T) {
	folder := newFolder(t)
	file := filepath.Join(folder, "plan", authority.File)
	serve := func(args ...string) ran {
		return runWith(t.Context(), nil, append([]string{"serve", "-C", folder, "--listen", "127.0.0.1:0", "--own-https"}, args...)...)
	}
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--tls-cert", "a", "--tls-key", "b"}, "leave one of them out"},
		{[]string{"--tls-key", "b"}, "leave one of them out"},
		{[]string{"--url", "http://kitchen.example"}, "write it with https"},
	} {
		if got := serve(c.args...); got.code != exitWrong || !strings.Contains(got.err, c.want) {
			t.Errorf("%q: got %d and %q, want 2 and %q", c.args, got.code, got.err, c.want)
		}
	}
	if _, err := os.Stat(filepath.Dir(file)); err == nil {
		t.Error("something was written")
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"", "-----BEGIN CERTIFICATE-----\nAAAA\n", strings.Repeat("x", ownMost+1)} {
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{nil, {"--addresses"}, {"--new-addresses"}} {
			if got := serve(args...); got.code != exitOther || !strings.Contains(got.err, "put back a good copy") || strings.Count(got.err, "\n") != 1 || got.out != "" {
				t.Errorf("damaged, %q: got %d and %q, %q; want 1 and one line", args, got.code, got.err, got.out)
			}
		}
		if now, err := os.ReadFile(file); err != nil || string(now) != text {
			t.Errorf("the damaged file was written over (%v)", err)
		}
		if _, err := os.Stat(filepath.Join(folder, "plan", address.File)); err == nil {
			t.Error("addresses were made beside a damaged authority")
		}
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	if got := serve("--addresses", "--url", "https://kitchen.example"); got.code != 0 {
		t.Fatal(got.err)
	}
	if got := serve("--url", "https://other.example"); got.code != exitOther || !strings.Contains(got.err, "may not speak for other.example") {
		t.Errorf("a name that it was not made for: got %d and %q", got.code, got.err)
	}
	if err := os.Chmod(file, 0o644); err != nil {
		t.Fatal(err)
	}
	if got := serve("--addresses"); !strings.Contains(got.err, "could be read by others; now it cannot") || !strings.Contains(got.err, "take the authority back on each phone") {
		t.Errorf("open to others: got %q, want what to do", got.err)
	}
	keptAuthority(t, folder)
}

// A clock that was never set makes no authority; a year before its end it says so.
func TestOwnAuthorityAndTheClock(t *testing.T) {
	folder := newFolder(t)
	at := func(when time.Time) func(*program) {
		return func(p *program) { p.now = func() time.Time { return when } }
	}
	got := runWith(t.Context(), at(time.Unix(0, 0)), "serve", "--demo", "--out", filepath.Join(folder, "demo"), "--addresses", "--own-https")
	if got.code != exitOther || !strings.Contains(got.err, "the clock of this machine is not set: it says Thu 1 Jan 1970") {
		t.Errorf("a clock that was never set: got %d and %q", got.code, got.err)
	}
	for _, c := range []struct {
		years int
		told  bool
	}{{0, false}, {8, false}, {9, true}} {
		got := runWith(t.Context(), at(time.Now().AddDate(c.years, 0, 0)), "serve", "-C", folder, "--addresses", "--own-https")
		if got.code != 0 || strings.Contains(got.out, "It ends on ") != c.told {
			t.Errorf("after %d years: got %d and %q, want its end told %v", c.years, got.code, got.out, c.told)
		}
	}
}

// What a certificate is for, by where the server listens and how its links begin.
func TestReachOf(t *testing.T) {
	tests := []struct {
		name, listen, url string
		in, out           []string
	}{
		{"loopback", "127.0.0.1:7379", "", []string{"localhost", "127.0.0.1", "::1"}, []string{"192.168.1.7"}},
		{"one network", "192.168.1.7:7379", "", []string{"localhost", "192.168.1.7", "127.0.0.1"}, []string{"192.168.1.8"}},
		{"a name", "192.168.1.7:7379", "https://larder.local:7379", []string{"larder.local", "192.168.1.7"}, []string{"192.168.1.8"}},
		{"an address of IPv6", "[fd00::7]:80", "", []string{"fd00::7", "::1"}, nil},
		{"a name that ends otherwise", "127.0.0.1:7379", "https://kitchen.example", []string{"kitchen.example", "127.0.0.1"}, nil},
	}
	for _, c := range tests {
		door, err := doorOf(c.listen)
		if err != nil {
			t.Fatal(err)
		}
		reach := reachOf(door, siteOf(door, c.url, true))
		all := reach.Names
		for _, ip := range reach.IPs {
			all = append(all, ip.String())
		}
		for _, want := range c.in {
			if !slices.Contains(all, want) {
				t.Errorf("%s: got %v, want %s in it", c.name, all, want)
			}
		}
		for _, never := range c.out {
			if slices.Contains(all, never) {
				t.Errorf("%s: got %v, want no %s", c.name, all, never)
			}
		}
	}
	everywhere := reachOf(&net.TCPAddr{Port: 7379}, feed.Site{Root: "https://127.0.0.1:7379"})
	for _, ip := range reachable() {
		if !slices.ContainsFunc(everywhere.IPs, ip.Equal) {
			t.Errorf("every network: got %v, want %v in it", everywhere.IPs, ip)
		}
	}
	for last, want := range map[string]string{"http://192.168.1.7:7379": "https://192.168.1.7:7379", "https://larder.local": "https://larder.local", "": ""} {
		if got := (&ownHTTPS{}).lastRoot(last); got != want {
			t.Errorf("last served on %q: got %q, want %q", last, got, want)
		}
		if got := (*ownHTTPS)(nil).lastRoot(last); got != last {
			t.Errorf("without --own-https, last served on %q: got %q, want the same", last, got)
		}
	}
	for root, want := range map[string]string{"https://192.168.1.7:7379": "http://192.168.1.7:7379/trust", "https://kitchen.example": "http://kitchen.example:443/trust", "https://[fd00::7]:80": "http://[fd00::7]:80/trust", "https://[fd00::7]": "http://[fd00::7]:443/trust"} {
		if got, err := trustLink(root); err != nil || got != want {
			t.Errorf("%s: got %q (%v), want %q", root, got, err, want)
		}
	}
}
