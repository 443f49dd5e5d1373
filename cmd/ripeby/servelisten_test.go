package main

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// What --listen may be, and what it exposes.
func TestExposure(t *testing.T) {
	home, street := net.ParseIP("192.168.1.7"), net.ParseIP("203.0.113.9")
	tests := []struct {
		name, listen string
		there        []net.IP
		secure       bool
		in, out      []string
	}{
		{"the default", serveHome, nil, false, []string{"Only this machine can connect"}, []string{"network of", "Nothing is hidden", "no network"}},
		{"loopback in IPv6", "[::1]:0", nil, false, []string{"Only this machine can connect"}, nil},
		{"every network", ":7379", []net.IP{home}, false, []string{"Every device on every network", "192.168.1.7", "Nothing is hidden on its way", "does not work on phones while there is no network", "--own-https"}, []string{"internet"}},
		{"every network, with https", "0.0.0.0:7379", []net.IP{home}, true, []string{"Every device on every network"}, []string{"Nothing is hidden", "no network", "--own-https", "internet"}},
		{"every network, a public one too", "[::]:7379", []net.IP{home, street}, true, []string{"everybody on the internet", "203.0.113.9"}, nil},
		{"the home network", "192.168.1.7:7379", []net.IP{home, street}, false, []string{"Every device on the network of 192.168.1.7"}, []string{"internet", "203.0.113.9"}},
		{"a public address", "203.0.113.9:7379", nil, false, []string{"everybody on the internet"}, nil},
	}
	for _, c := range tests {
		door, err := doorOf(c.listen)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got := strings.Join(exposure(door.IP, c.there, c.secure), "\n")
		for _, want := range c.in {
			if !strings.Contains(got, want) {
				t.Errorf("%s: got %q, want %q in it", c.name, got, want)
			}
		}
		for _, never := range c.out {
			if strings.Contains(got, never) {
				t.Errorf("%s: got %q, want no %q in it", c.name, got, never)
			}
		}
	}
	for _, bad := range []string{"7379", "localhost", "127.0.0.1:http:1", "127.0.0.1:99999", "127.0.0.1:-1", "no such host.invalid:80", ":"} {
		if door, err := doorOf(bad); err == nil {
			t.Errorf("%q: got %v, want an error", bad, door)
		}
	}
}

// Under which address phones reach the server.
func TestSiteOf(t *testing.T) {
	tests := []struct {
		name, listen, url string
		secure            bool
		root              string // "" for an error
		loopback          bool
	}{
		{"loopback", "127.0.0.1:7379", "", false, "http://127.0.0.1:7379", true},
		{"loopback, https", "127.0.0.1:7379", "", true, "https://127.0.0.1:7379", true},
		{"IPv6", "[fd00::7]:80", "", false, "http://[fd00::7]:80", false},
		{"the home network", "192.168.1.7:7379", "", false, "http://192.168.1.7:7379", false},
		{"behind a proxy", "127.0.0.1:7379", "https://kitchen.example/", false, "https://kitchen.example", false},
		{"a port of its own", ":7379", "http://larder.local:8080", false, "http://larder.local:8080", false},
		{"no scheme", ":7379", "kitchen.example", false, "", false},
		{"another scheme", ":7379", "ftp://kitchen.example", false, "", false},
		{"a path", ":7379", "https://kitchen.example/cheese", false, "", false},
		{"a question", ":7379", "https://kitchen.example?x", false, "", false},
		{"somebody", ":7379", "https://nell@kitchen.example", false, "", false},
		{"no host", ":7379", "https://:80", false, "", false},
		{"http with a certificate", ":7379", "http://kitchen.example", true, "", false},
	}
	for _, c := range tests {
		door, err := doorOf(c.listen)
		if err != nil {
			t.Fatal(err)
		}
		root, err := rootOf(c.url, c.secure)
		if c.root == "" {
			if err == nil {
				t.Errorf("%s: got %q, want an error", c.name, root)
			}
			continue
		}
		got := siteOf(door, root, c.secure)
		if err != nil || got.Root != c.root || got.Loopback != c.loopback {
			t.Errorf("%s: got %q, loopback %v (%v); want %q, %v", c.name, got.Root, got.Loopback, err, c.root, c.loopback)
		}
	}
}

// madeCertificate writes a certificate for 127.0.0.1 with the serial number.
func madeCertificate(t *testing.T, dir string, serial int64) (cert, key string) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	form := &x509.Certificate{SerialNumber: big.NewInt(serial), Subject: pkix.Name{CommonName: "kitchen"}, NotAfter: time.Now().Add(time.Hour),
		IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, IsCA: true, BasicConstraintsValid: true}
	der, err := x509.CreateCertificate(rand.Reader, form, form, &private.PublicKey, private)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalECPrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	cert, key = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for file, block := range map[string]*pem.Block{cert: {Type: "CERTIFICATE", Bytes: der}, key: {Type: "EC PRIVATE KEY", Bytes: secret}} {
		if err := os.WriteFile(file, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return cert, key
}

// With a certificate the server speaks https, and nothing older than TLS 1.2.
func TestServeSecurely(t *testing.T) {
	folder := newFolder(t)
	cert, key := madeCertificate(t, t.TempDir(), 1)
	s := servingOn(t, folder, nil, "--tls-cert", cert, "--tls-key", key)
	if !strings.HasPrefix(s.site, "https://127.0.0.1:") {
		t.Errorf("it serves on %s, want https", s.site)
	}
	text, err := os.ReadFile(cert)
	if err != nil {
		t.Fatal(err)
	}
	roots := x509.NewCertPool()
	roots.AppendCertsFromPEM(text)
	s.client.Transport = &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}
	s.wait("a calendar", func() bool { status, _, _ := s.get(s.path("everything"), ""); return status == 200 })
	old := &tls.Config{RootCAs: roots, MinVersion: tls.VersionTLS10, MaxVersion: tls.VersionTLS11}
	if c, err := tls.Dial("tcp", strings.TrimPrefix(s.site, "https://"), old); err == nil {
		c.Close()
		t.Error("TLS 1.1 was accepted")
	}
	if answer, err := http.Get("http://" + strings.TrimPrefix(s.site, "https://") + "/health"); err == nil {
		answer.Body.Close()
		if answer.StatusCode != 400 {
			t.Errorf("http to the same port: got %d, want 400", answer.StatusCode)
		}
	}
}

// A certificate that was renewed is used without a new start; one that is broken
// meanwhile is not.
func TestCertificateIsReadAgain(t *testing.T) {
	dir := t.TempDir()
	cert, key := madeCertificate(t, dir, 1)
	at := time.Now()
	conf, err := secureBy(cert, key, func() time.Time { return at })
	if err != nil {
		t.Fatal(err)
	}
	serial := func() int64 {
		pair, err := conf.GetCertificate(nil)
		if err != nil {
			t.Fatal(err)
		}
		leaf, err := x509.ParseCertificate(pair.Certificate[0])
		if err != nil {
			t.Fatal(err)
		}
		return leaf.SerialNumber.Int64()
	}
	madeCertificate(t, dir, 2)
	if err := os.Chtimes(cert, at, at.Add(time.Second)); err != nil {
		t.Fatal(err)
	}
	if got := serial(); got != 1 {
		t.Errorf("at once: got number %d, want 1", got)
	}
	at = at.Add(lookAgain)
	if got := serial(); got != 2 {
		t.Errorf("after a while: got number %d, want 2", got)
	}
	if err := os.WriteFile(cert, bytes.Repeat([]byte("x"), 10), 0o600); err != nil {
		t.Fatal(err)
	}
	at = at.Add(lookAgain)
	if got := serial(); got != 2 {
		t.Errorf("broken: got number %d, want 2", got)
	}
	for name, files := range map[string][2]string{"no key": {cert, ""}, "no certificate": {"", key}, "broken": {cert, key}, "not there": {cert + "x", key}} {
		if _, err := secureBy(files[0], files[1], time.Now); err == nil {
			t.Errorf("%s: got no error", name)
		}
	}
	if conf, err := secureBy("", "", time.Now); conf != nil || err != nil {
		t.Errorf("none at all: got %v, %v; want nothing", conf, err)
	}
}

// A port that is taken is told in plain words.
func TestServePortTaken(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	got := runWith(t.Context(), nil, "serve", "-C", newFolder(t), "--listen", l.Addr().String())
	if got.code != exitOther || !strings.Contains(got.err, "listens on "+l.Addr().String()+" already; choose another port with --listen") {
		t.Errorf("got %d and %q, want 1 and the reason", got.code, got.err)
	}
}
