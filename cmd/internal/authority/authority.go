package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"errors"
	"fmt"
	"net"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// Authority is the authority of a kitchen, with its key.
type Authority struct {
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
}

const (
	years = 10 // that an authority lasts: to be trusted anew is work on each phone
	// early is how long before the present what is made begins: a phone's clock may be behind.
	early = 24 * time.Hour
	// longestCommon is how many letters a name in a certificate may have (RFC 5280, A.1, ub-common-name).
	longestCommon = 64
)

// firstClock is when no machine can make an authority yet: a clock before it was never set, and what is
// made by it would be over before it is used.
var firstClock = time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC)

// ErrClock says that the machine's clock was never set.
var ErrClock = errors.New("the clock of this machine is not set")

// Make makes an authority for a kitchen, "" for one without a name. It may speak for private networks, and
// for what the server is reached by. The error is [ErrClock], or that of the system's source of chance.
func Make(kitchen string, reach Reach, now time.Time) (*Authority, error) {
	if now.Before(firstClock) {
		return nil, ErrClock
	}
	reach = reach.ordered()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, fmt.Errorf("drawing the authority's key: %w", err)
	}
	from := now.Add(-early).UTC().Truncate(time.Second)
	form := &x509.Certificate{
		Subject: pkix.Name{CommonName: nameFor(kitchen)}, NotBefore: from, NotAfter: from.AddDate(years, 0, 0),
		KeyUsage: x509.KeyUsageCertSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true, IsCA: true, MaxPathLenZero: true,
		PermittedDNSDomainsCritical: true, PermittedDNSDomains: slices.Clone(privateNames), PermittedIPRanges: slices.Clone(privateRanges),
	}
	for _, name := range reach.Names {
		if !below(form.PermittedDNSDomains, name) {
			form.PermittedDNSDomains = append(form.PermittedDNSDomains, name)
		}
	}
	for _, ip := range reach.IPs {
		if !within(form.PermittedIPRanges, ip) {
			form.PermittedIPRanges = append(form.PermittedIPRanges, only(ip))
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, form, form, &key.PublicKey, key)
	if err != nil {
		return nil, fmt.Errorf("making the authority's certificate: %w", err)
	}
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, fmt.Errorf("reading the authority's certificate back: %w", err)
	}
	return &Authority{cert, key}, nil
}

// nameFor is what phones list an authority as.
func nameFor(kitchen string) string {
	name := "ripeby authority"
	if kitchen = strings.TrimSpace(kitchen); kitchen != "" {
		name += " of " + kitchen
	}
	if utf8.RuneCountInString(name) > longestCommon {
		name = strings.TrimSpace(string([]rune(name)[:longestCommon-1])) + "…"
	}
	return name
}

// Certificate is the authority's certificate, in DER (ITU-T X.690): what may be told to anybody.
func (a *Authority) Certificate() []byte { return a.cert.Raw }

// Ends is when the authority is over.
func (a *Authority) Ends() time.Time { return a.cert.NotAfter }

// May reports whether the authority may speak for a host, a name or an address in numbers.
func (a *Authority) May(host string) bool {
	if ip := net.ParseIP(host); ip != nil {
		return within(a.cert.PermittedIPRanges, ip)
	}
	name := strings.ToLower(strings.TrimSuffix(host, "."))
	return isHostName(name) && below(a.cert.PermittedDNSDomains, name)
}

// within is what of a reach the authority may speak for: with one name more than that, all of a
// certificate would be refused.
func (a *Authority) within(reach Reach) Reach {
	var out Reach
	for _, name := range reach.Names {
		if a.May(name) {
			out.Names = append(out.Names, name)
		}
	}
	for _, ip := range reach.IPs {
		if a.May(ip.String()) {
			out.IPs = append(out.IPs, ip)
		}
	}
	return out.ordered()
}
