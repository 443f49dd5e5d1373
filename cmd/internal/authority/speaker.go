package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"fmt"
	"net"
	"sync"
	"time"
)

const (
	// lasts is how long a certificate of the server is good for. Apple takes no longer than 825 days from an
	// authority that was added (support page HT210176), 398 from one that it came with (HT211025).
	lasts = 90 * 24 * time.Hour
	// renewed is how long before its end it is made anew.
	renewed = 30 * 24 * time.Hour
	// lookAgain is how often it is asked what the server is reached by: a machine's addresses change.
	lookAgain = 10 * time.Second
)

// Speaker gives the server its certificates. It may be used by many at a time.
type Speaker struct {
	of    *Authority
	reach func() Reach
	now   func() time.Time
	say   func(string)

	mu     sync.Mutex
	pair   *tls.Certificate
	has    Reach // what the certificate is for
	looked time.Time
	told   string // what was said last
}

// NewSpeaker gives a speaker with its first certificate. What the server is reached by is asked of reach now
// and then; what the authority may not speak for is left out. Where a later certificate cannot be made, say
// is told and the one before stays in use.
func NewSpeaker(of *Authority, reach func() Reach, now func() time.Time, say func(string)) (*Speaker, error) {
	s := &Speaker{of: of, reach: reach, now: now, say: say}
	if _, err := s.Certificate(nil); err != nil {
		return nil, err
	}
	return s, nil
}

// Certificate is for [tls.Config.GetCertificate]: the same for every name.
func (s *Speaker) Certificate(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := s.now()
	if ago := now.Sub(s.looked); s.pair != nil && ago >= 0 && ago < lookAgain {
		return s.pair, nil
	}
	s.looked = now
	reach := s.of.within(s.reach())
	if s.pair != nil && s.has.same(reach) && !s.soonOver(now) {
		return s.pair, nil
	}
	pair, err := s.of.issue(reach, now)
	switch {
	case err == nil:
		s.pair, s.has = pair, reach
	case s.pair == nil:
		return nil, err
	case err.Error() != s.told: // said once, and not at each look
		s.told = err.Error()
		s.say("the server's certificate could not be renewed, and the one before is used: " + s.told)
	}
	return s.pair, nil
}

// soonOver reports whether the certificate is to be made anew at a moment; not when it would end no later,
// because its authority does.
func (s *Speaker) soonOver(now time.Time) bool {
	leaf := s.pair.Leaf
	return now.Before(leaf.NotBefore) && leaf.NotBefore.After(s.of.cert.NotBefore) ||
		leaf.NotAfter.Sub(now) < renewed && leaf.NotAfter.Before(s.of.cert.NotAfter)
}

// issue makes a certificate for a server that is reached so, and a key for it.
func (a *Authority) issue(reach Reach, now time.Time) (*tls.Certificate, error) {
	if !now.Before(a.Ends()) {
		return nil, fmt.Errorf("the authority in %s ended on %s; remove that file: then a new authority is made and each phone must be told to trust that one", File, a.Ends().Format("Mon 2 Jan 2006"))
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, fmt.Errorf("drawing the key of a certificate: %w", err)
	}
	from := now.Add(-early)
	if from.Before(a.cert.NotBefore) {
		from = a.cert.NotBefore
	}
	until := from.Add(lasts)
	if until.After(a.cert.NotAfter) {
		until = a.cert.NotAfter
	}
	form := &x509.Certificate{
		Subject: pkix.Name{CommonName: "ripeby"}, NotBefore: from, NotAfter: until,
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true, DNSNames: reach.Names, IPAddresses: reach.IPs,
	}
	der, err := x509.CreateCertificate(rand.Reader, form, a.cert, &key.PublicKey, a.key)
	if err != nil {
		return nil, fmt.Errorf("making a certificate: %w", err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, fmt.Errorf("reading a certificate back: %w", err)
	}
	return &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key, Leaf: leaf}, nil
}

// Loopback is how this machine reaches itself.
func Loopback() Reach {
	return Reach{[]string{"localhost"}, []net.IP{net.IPv4(127, 0, 0, 1), net.IPv6loopback}}
}
