package feed

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"errors"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"ripeby/calendar/said"
	"ripeby/calendar/trust"
)

// vouched is a stand that speaks https for an authority of its own, which is its own certificate here.
func vouched(t *testing.T) (s *stand, addr string, client *http.Client) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	form := &x509.Certificate{SerialNumber: big.NewInt(1), Subject: pkix.Name{CommonName: "ripeby authority"}, NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
		IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, IsCA: true, BasicConstraintsValid: true}
	der, err := x509.CreateCertificate(rand.Reader, form, form, &key.PublicKey, key)
	if err != nil {
		t.Fatal(err)
	}
	s = stood(t, sampleMade(t, 2))
	s.site = Site{Root: "https://127.0.0.1:7379"}
	if s.opt.Trust, err = trust.New(der, s.site.Root); err != nil {
		t.Fatal(err)
	}
	s.secure = &tls.Config{Certificates: []tls.Certificate{{Certificate: [][]byte{der}, PrivateKey: key}}}
	roots := x509.NewCertPool()
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	roots.AddCert(leaf)
	s.limits.header, s.limits.read, s.limits.idle = 2*time.Second, 2*time.Second, time.Second
	s.limits.stop = 200 * time.Millisecond
	addr, s.stop = served(t, s)
	client = &http.Client{Timeout: 20 * time.Second, Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}, ForceAttemptHTTP2: true},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	t.Cleanup(client.CloseIdleConnections)
	return s, addr, client
}

// got asks for an address and gives the answer with its body.
func got(t *testing.T, client *http.Client, address string) (*http.Response, string) {
	t.Helper()
	answer, err := client.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer, string(text)
}

// At one port the kitchen is served over https, and over http no more than how to trust that: a key that is
// good opens nothing, nothing is written, and nobody is led on.
func TestBothAtOnePort(t *testing.T) {
	s, addr, client := vouched(t)
	s.kitchen.change(func(k *kitchenAt) {
		k.say = func(said.Saying) (said.Heard, error) {
			t.Error("something was said over http")
			return said.Heard{}, nil
		}
	})
	calendar, page, writing := s.address(t, "Nell").Path(), s.address(t, "page").Path(), ""
	for _, a := range s.board.Load().book.Addresses {
		if strings.HasPrefix(a.Path(), "/w/") {
			writing = a.Path()
		}
	}
	for _, path := range []string{calendar, page, writing, "/health", "/assets/style.css", "/trust"} {
		answer, body := got(t, client, "https://"+addr+path)
		if answer.StatusCode != 200 || answer.TLS == nil || body == "" {
			t.Errorf("%s over https: got %d", path, answer.StatusCode)
		}
	}
	if answer, _ := got(t, client, "https://"+addr+"/health"); answer.ProtoMajor != 2 {
		t.Errorf("got HTTP/%d, want HTTP/2 as without an authority", answer.ProtoMajor)
	}
	if answer, body := got(t, client, "https://"+addr+trust.CertificatePath); answer.Header.Get("Content-Type") != "application/x-x509-ca-cert" || len(body) < 100 {
		t.Errorf("the certificate over https: got %v", answer.Header)
	}
	if _, body := got(t, client, "https://"+addr+page+"calendars"); !strings.Contains(body, "give them the address that begins with <code>https</code>") || !strings.Contains(body, `<a href="/trust">`) || strings.Contains(body, "Nothing is hidden") {
		t.Error("the calendars over https: they do not say which address is for which app, and how a phone trusts the server")
	}
	for _, path := range []string{calendar, page, page + "week", writing, writing + "live", "/health", "/version", "/assets/style.css", "/robots.txt"} {
		answer, body := got(t, client, "http://"+addr+path)
		if answer.StatusCode != 403 || answer.Header.Get("Location") != "" || !strings.Contains(body, "How a phone trusts this server") ||
			strings.Contains(body, "VCALENDAR") || strings.Contains(body, "Saltgrass") || strings.Contains(body, "Nell") || strings.Contains(body, "ripeby v1") {
			t.Errorf("%s over http: got %d, %v, %q", path, answer.StatusCode, answer.Header, body)
		}
	}
	for _, path := range []string{"/", "/trust"} {
		if answer, _ := got(t, client, "http://"+addr+path); answer.StatusCode != 200 || !answer.Close {
			t.Errorf("%s over http: got %d, closed %v", path, answer.StatusCode, answer.Close)
		}
	}
	if statuses := raw(t, addr, "POST "+writing+"say HTTP/1.1\r\nHost: "+addr+"\r\nContent-Length: 9\r\n\r\nverb=done"); len(statuses) != 1 || statuses[0] != 405 {
		t.Errorf("a form over http: got %v, want 405", statuses)
	}
	if statuses := raw(t, addr, "GET /trust HTTP/1.1\r\nHost: evil.example\r\n\r\n"); len(statuses) != 1 || statuses[0] != 421 {
		t.Errorf("another host over http: got %v, want 421", statuses)
	}
	if statuses := raw(t, addr, "GET / HTTP/1.1\r\nHost: "+addr+"\r\nLong: "+strings.Repeat("x", 64<<10)+"\r\n\r\n"); len(statuses) != 1 || statuses[0] != 431 {
		t.Errorf("a long head over http: got %v, want 431", statuses)
	}
	if said := s.said.String(); said != "" {
		t.Errorf("it said %q, want nothing: those who ask do not choose what is logged", said)
	}
}

// Who connects and says nothing, says half of a hello, or drips, is hung up on, and holds up nobody.
func TestSlowClientsAtOnePort(t *testing.T) {
	s, addr, client := vouched(t)
	begun := time.Now()
	hungUp := make(chan time.Duration)
	const each = 10
	for range each {
		for _, beginning := range []string{"", "\x16", "\x16\x03\x01\x02", "GET / HT"} {
			c := dialled(t, addr)
			if _, err := io.WriteString(c, beginning); err != nil {
				t.Fatal(err)
			}
			go func() {
				_, _ = io.Copy(io.Discard, c)
				hungUp <- time.Since(begun)
			}()
		}
	}
	if answer, _ := got(t, client, "https://"+addr+"/health"); answer.StatusCode != 200 {
		t.Errorf("meanwhile: got %d, want 200", answer.StatusCode)
	}
	if answer, _ := got(t, client, "http://"+addr+"/"); answer.StatusCode != 200 {
		t.Errorf("meanwhile, over http: got %d, want 200", answer.StatusCode)
	}
	for range 4 * each {
		if after := <-hungUp; after > 15*time.Second {
			t.Errorf("hung up after %v, want soon after 2 s", after)
		}
	}
	client.CloseIdleConnections()
	eventually(t, "no connection left", func() bool { return s.open.Load() == 0 })
}

// Stopping waits neither for who has said nothing yet nor for who does not end.
func TestStopsAtOnePort(t *testing.T) {
	s, addr, client := vouched(t)
	silent, half := dialled(t, addr), dialled(t, addr)
	if _, err := io.WriteString(half, "GET / HT"); err != nil {
		t.Fatal(err)
	}
	if answer, _ := got(t, client, "https://"+addr+"/health"); answer.StatusCode != 200 { // and is kept open
		t.Fatalf("got %d, want 200", answer.StatusCode)
	}
	eventually(t, "three connections", func() bool { return s.open.Load() == 3 })
	begun := time.Now()
	if err := s.stop(); err != nil {
		t.Errorf("got %v, want a good end", err)
	}
	if took := time.Since(begun); took > 15*time.Second {
		t.Errorf("it took %v, want soon", took)
	}
	for _, c := range []net.Conn{silent, half} {
		if _, err := io.Copy(io.Discard, c); errors.Is(err, os.ErrDeadlineExceeded) {
			t.Error("a connection is still open")
		}
	}
	if s.open.Load() != 0 {
		t.Errorf("%d connections are left", s.open.Load())
	}
}

// Without an authority to be trusted there is no page on it.
func TestNoTrustWithoutAuthority(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	for _, path := range []string{trust.Path, trust.CertificatePath} {
		if w := s.ask("GET", path); w.Code != 404 {
			t.Errorf("%s: got %d, want 404", path, w.Code)
		}
	}
	if w := s.ask("GET", s.address(t, "page").Path()+"calendars"); strings.Contains(w.Body.String(), trust.Path) {
		t.Error("the calendars lead to a page that is not there")
	}
}
