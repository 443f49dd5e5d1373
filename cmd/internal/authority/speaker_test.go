package authority

import (
	"crypto/tls"
	"crypto/x509"
	"net"
	"strings"
	"testing"
	"time"
)

// speaking is a speaker whose clock and reach the test moves.
type speaking struct {
	*Speaker
	at    time.Time
	reach Reach
	said  []string
}

func spoken(t *testing.T, a *Authority) *speaking {
	t.Helper()
	s := &speaking{at: sampleNow, reach: sampleReach()}
	var err error
	s.Speaker, err = NewSpeaker(a, func() Reach { return s.reach }, func() time.Time { return s.at }, func(text string) { s.said = append(s.said, text) })
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// leaf gives the certificate in use.
func (s *speaking) leaf(t *testing.T) *x509.Certificate {
	t.Helper()
	pair, err := s.Certificate(nil)
	if err != nil {
		t.Fatal(err)
	}
	return pair.Leaf
}

// verified verifies a certificate as a phone that trusts the authority does.
func verified(a *Authority, leaf *x509.Certificate, host string, at time.Time) error {
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	_, err := leaf.Verify(x509.VerifyOptions{Roots: roots, DNSName: host, CurrentTime: at, KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}})
	return err
}

// Each name and address of the server is verified, and nothing else; what the authority may not speak for
// is left out, for one such name would spoil the certificate for all.
func TestCertificatesVerify(t *testing.T) {
	a := made(t, "Saltgrass Lane", sampleReach())
	s := spoken(t, a)
	s.reach.IPs = append(s.reach.IPs, net.ParseIP("203.0.113.9"), net.ParseIP("192.168.1.7"))
	s.reach.Names = append(s.reach.Names, "bank.example", "LARDER", "not a name", "")
	s.at = s.at.Add(lookAgain)
	leaf := s.leaf(t)
	for _, host := range []string{"localhost", "127.0.0.1", "::1", "larder", "larder.local", "kitchen.example", "192.168.1.7", "fd00::7"} {
		if err := verified(a, leaf, host, s.at); err != nil {
			t.Errorf("%s: got %v", host, err)
		}
	}
	for _, host := range []string{"203.0.113.9", "bank.example", "ripeby", "192.168.1.8"} {
		if verified(a, leaf, host, s.at) == nil {
			t.Errorf("%s: it is verified", host)
		}
	}
	if err := verified(made(t, "Saltgrass Lane", sampleReach()), leaf, "localhost", s.at); err == nil {
		t.Error("another authority of the same name vouches for it")
	}
	if leaf.IsCA || leaf.KeyUsage != x509.KeyUsageDigitalSignature || len(leaf.DNSNames)+len(leaf.IPAddresses) != 8 {
		t.Errorf("got authority %v, usage %v, names %v, addresses %v; want a server's, each once", leaf.IsCA, leaf.KeyUsage, leaf.DNSNames, leaf.IPAddresses)
	}
	// Apple, HT210176 and HT211025: 825 days at the most, and 398 of public authorities.
	if days := leaf.NotAfter.Sub(leaf.NotBefore).Hours() / 24; days > 397 {
		t.Errorf("it lasts %v days, want 397 at the most", days)
	}
	if got := len(s.said); got > 0 {
		t.Errorf("it said %q, want nothing", s.said)
	}
}

// What a stolen key signs for a bank is not verified.
func TestConstraintsHold(t *testing.T) {
	a := made(t, "Saltgrass Lane", sampleReach())
	for host, reach := range map[string]Reach{
		"bank.example":   {Names: []string{"localhost", "bank.example"}},
		"198.51.100.7":   {IPs: []net.IP{net.ParseIP("198.51.100.7")}},
		"2001:db8::1":    {IPs: []net.IP{net.ParseIP("2001:db8::1")}},
		"fooled.example": {Names: []string{"fooled.example"}, IPs: []net.IP{net.ParseIP("192.168.1.7")}},
	} {
		pair, err := a.issue(reach, sampleNow) // as somebody does who has the key
		if err != nil {
			t.Fatal(err)
		}
		if verified(a, pair.Leaf, host, sampleNow) == nil {
			t.Errorf("%s: it is verified", host)
		}
	}
}

// A certificate is renewed before it ends, and when the machine's addresses changed: by the same authority,
// and without a word.
func TestRenewal(t *testing.T) {
	a := made(t, "Saltgrass Lane", sampleReach())
	s := spoken(t, a)
	steps := []struct {
		name    string
		ahead   time.Duration
		change  func()
		renewed bool
	}{
		{"at once", 0, nil, false},
		{"the same after a while", lookAgain, nil, false},
		{"another address, at once", 0, func() { s.reach.IPs[2] = net.ParseIP("192.168.1.44") }, false},
		{"another address, after a while", lookAgain, nil, true},
		{"the same in another order", lookAgain, func() { s.reach.Names[0], s.reach.Names[1] = s.reach.Names[1], s.reach.Names[0] }, false},
		{"an address that it may not speak for", lookAgain, func() { s.reach.IPs = append(s.reach.IPs, net.ParseIP("203.0.113.9")) }, false},
		{"a day before it is time", lasts - renewed - 26*time.Hour, nil, false},
		{"when it is time", 27 * time.Hour, nil, true},
		{"long after its end, as after a sleep", 300 * 24 * time.Hour, nil, true},
		{"with the clock set back", -24 * 24 * time.Hour, nil, true},
	}
	for _, c := range steps {
		before := s.leaf(t)
		if c.change != nil {
			c.change()
		}
		s.at = s.at.Add(c.ahead)
		after := s.leaf(t)
		if got := !before.Equal(after); got != c.renewed {
			t.Errorf("%s: got renewed %v, want %v", c.name, got, c.renewed)
		}
		if err := verified(a, after, "larder.local", s.at); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if err := verified(a, s.leaf(t), "192.168.1.44", s.at); err != nil {
		t.Errorf("the new address: %v", err)
	}
	if len(s.said) > 0 {
		t.Errorf("it said %q, want nothing", s.said)
	}
}

// Towards the end of the authority its certificates end with it; then the one before stays, with a word,
// and no other can be begun with.
func TestAtTheAuthoritysEnd(t *testing.T) {
	a := made(t, "Saltgrass Lane", sampleReach())
	s := spoken(t, a)
	s.at = a.Ends().Add(-10 * 24 * time.Hour)
	last := s.leaf(t)
	if !last.NotAfter.Equal(a.Ends()) {
		t.Errorf("it ends on %v, want the authority's end", last.NotAfter)
	}
	s.at = s.at.Add(24 * time.Hour)
	if !s.leaf(t).Equal(last) {
		t.Error("it was made anew, to end no later")
	}
	s.at = a.Ends().Add(time.Hour)
	for range 3 {
		s.reach.Names = append(s.reach.Names, strings.Repeat("a", len(s.reach.Names))+".local")
		s.at = s.at.Add(lookAgain)
		if !s.leaf(t).Equal(last) {
			t.Error("the certificate is another")
		}
	}
	if len(s.said) != 1 || !strings.Contains(s.said[0], "the authority in authority.pem ended on") {
		t.Errorf("it said %q, want the end, once", s.said)
	}
	if _, err := NewSpeaker(a, Loopback, func() time.Time { return s.at }, nil); err == nil || !strings.Contains(err.Error(), "remove that file") {
		t.Errorf("begun after its end: got %v, want an error", err)
	}
	// A machine that starts with a clock that was not set yet has one that is good once it is.
	s.at = time.Unix(0, 0)
	early, err := NewSpeaker(a, Loopback, func() time.Time { return s.at }, nil)
	if err != nil {
		t.Fatal(err)
	}
	s.at = sampleNow.Add(200 * 24 * time.Hour)
	pair, err := early.Certificate(nil)
	if err != nil || verified(a, pair.Leaf, "localhost", s.at) != nil {
		t.Errorf("with the clock set: got %v, %v", verified(a, pair.Leaf, "localhost", s.at), err)
	}
}

// Over a real connection, with the authority and nothing else to go by.
func TestHandshake(t *testing.T) {
	a, err := Make("Saltgrass Lane", sampleReach(), time.Now())
	if err != nil {
		t.Fatal(err)
	}
	speaker, err := NewSpeaker(a, Loopback, time.Now, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	for _, version := range []uint16{tls.VersionTLS12, tls.VersionTLS13} {
		here, there := net.Pipe()
		server := tls.Server(there, &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: speaker.Certificate})
		done := make(chan error, 1)
		go func() { done <- server.Handshake() }()
		client := tls.Client(here, &tls.Config{RootCAs: roots, ServerName: "localhost", MaxVersion: version})
		if err := client.Handshake(); err != nil {
			t.Errorf("version %x: %v", version, err)
		}
		if err := <-done; err != nil {
			t.Errorf("version %x, the server: %v", version, err)
		}
		here.Close()
		there.Close()
	}
}
