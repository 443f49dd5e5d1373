package main

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/url"
	"os"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"ripeby/calendar/feed"
	"ripeby/config"
)

// serveHome is where ripeby serve listens when nobody says otherwise: on this
// machine alone.
const serveHome = "127.0.0.1:7379"

// doorOf reads --listen.
func doorOf(at string) (*net.TCPAddr, error) {
	_, port, err := net.SplitHostPort(at)
	if err != nil {
		return nil, wrong("--listen is %q; want HOST:PORT, such as %s or :7379 for every network of this machine", at, serveHome)
	}
	if n, err := strconv.Atoi(port); err != nil || n < 0 || n > 65535 {
		return nil, wrong("--listen is %q; want a port from 0 to 65535 after the colon", at)
	}
	door, err := net.ResolveTCPAddr("tcp", at)
	if err != nil {
		return nil, wrong("--listen is %q: there is no such host", at)
	}
	return door, nil // with no IP when every network is meant
}

// listen opens the door.
func listen(at *net.TCPAddr) (net.Listener, error) {
	l, err := net.ListenTCP("tcp", at)
	switch {
	case err == nil:
		return l, nil
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, other("another program, perhaps another ripeby serve, listens on %s already; choose another port with --listen", at)
	}
	var op *net.OpError
	if errors.As(err, &op) {
		err = op.Err
	}
	return nil, other("nothing can listen on %s: %w", at, err)
}

// rootOf reads --url; "" when it is not given.
func rootOf(text string, secure bool) (string, error) {
	if text == "" {
		return "", nil
	}
	u, err := url.Parse(text)
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Hostname() == "" || u.User != nil ||
		strings.Trim(u.Path, "/") != "" || u.RawQuery != "" || u.Fragment != "" {
		return "", wrong("--url is %q; want one like https://kitchen.example, without anything after the host", text)
	}
	if secure && u.Scheme == "http" {
		return "", wrong("--url is %q, but with --tls-cert or --own-https only https is spoken; write it with https", text)
	}
	return u.Scheme + "://" + u.Host, nil
}

// siteOf says under which names a server is reached that listens there; root is ""
// when nobody has said how its links begin.
func siteOf(at *net.TCPAddr, root string, secure bool) feed.Site {
	site := feed.Site{Root: root, Loopback: at.IP.IsLoopback() && root == ""}
	if !at.IP.IsLoopback() {
		site.Names = ownNames()
	}
	if root != "" {
		return site
	}
	scheme, host := "http", at.IP.String()
	if secure {
		scheme = "https"
	}
	if anywhere(at.IP) {
		host = "127.0.0.1"
		if there := reachable(); len(there) > 0 {
			host = there[0].String()
		}
	}
	site.Root = scheme + "://" + net.JoinHostPort(host, strconv.Itoa(at.Port))
	return site
}

// anywhere reports whether an address means every network of this machine.
func anywhere(ip net.IP) bool { return len(ip) == 0 || ip.IsUnspecified() }

// ownNames are the names that other machines of the network may know this one by.
func ownNames() []string {
	name, err := os.Hostname()
	if err != nil || name == "" {
		return nil
	}
	short, _, _ := strings.Cut(strings.ToLower(name), ".")
	return []string{strings.ToLower(name), short, short + ".local"}
}

// reachable lists this machine's addresses on its networks, those of private
// networks first, IPv4 before IPv6.
func reachable() []net.IP {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var ranked [4][]net.IP
	for _, a := range all {
		n, ok := a.(*net.IPNet)
		if !ok || !n.IP.IsGlobalUnicast() {
			continue
		}
		rank := 0
		if !n.IP.IsPrivate() {
			rank = 2
		}
		if n.IP.To4() == nil {
			rank++
		}
		ranked[rank] = append(ranked[rank], n.IP)
	}
	var list []net.IP
	for _, ips := range ranked {
		list = append(list, ips...)
	}
	return list
}

// exposure says plainly who can connect, and who can listen in.
func exposure(ip net.IP, there []net.IP, secure bool) []string {
	var who string
	public := false
	switch {
	case ip.IsLoopback():
		return []string{"Only this machine can connect. For phones on your network start it with --listen :7379."}
	case anywhere(ip):
		var list []string
		for _, a := range there {
			list = append(list, a.String())
			public = public || !a.IsPrivate()
		}
		who = "Every device on every network that this machine is on can connect"
		if len(list) > 0 {
			who += " (it is " + strings.Join(list, ", ") + ")"
		}
	default:
		public = !ip.IsPrivate() && !ip.IsLinkLocalUnicast()
		who = "Every device on the network of " + ip.String() + " can connect"
	}
	lines := []string{who + ". Without an address below it gets nothing; with one, it can read that calendar or the page."}
	if public {
		lines = append(lines, "One of these addresses is a public one: unless a firewall is in between, that is everybody on the internet.")
	}
	if !secure {
		lines = append(lines, "Nothing is hidden on its way: whoever can listen in on the network can read the addresses and the plan. "+
			"The page does not work on phones while there is no network, for browsers keep it only over https. "+
			"The easy way to https is --own-https; with a certificate that phones know, give --tls-cert and --tls-key.")
	}
	return lines
}

// certificate is a TLS certificate that is read again when its file was renewed.
type certificate struct {
	cert, key string // files
	now       func() time.Time

	mu     sync.Mutex
	pair   *tls.Certificate
	since  time.Time // of the certificate's file
	looked time.Time
}

// lookAgain is how often the file of a certificate is looked at.
const lookAgain = time.Minute

// httpsBy reads how https is spoken, nil for not at all or with an authority of the kitchen's own, and how
// links begin, "" when that is not given.
func (p *program) httpsBy(opt serveOptions) (secure *tls.Config, root string, err error) {
	if opt.own && (opt.cert != "" || opt.key != "") {
		return nil, "", wrong("--own-https makes a certificate of its own, and --tls-cert and --tls-key give another; leave one of them out")
	}
	if secure, err = secureBy(opt.cert, opt.key, p.now); err != nil {
		return nil, "", err
	}
	root, err = rootOf(opt.url, secure != nil || opt.own)
	return secure, root, err
}

// secureBy gives the TLS configuration of a certificate, nil for none.
func secureBy(cert, key string, now func() time.Time) (*tls.Config, error) {
	switch {
	case cert == "" && key == "":
		return nil, nil
	case cert == "" || key == "":
		return nil, wrong("--tls-cert and --tls-key belong together; give both")
	}
	c := &certificate{cert: cert, key: key, now: now}
	if _, err := c.current(nil); err != nil {
		return nil, wrong("the certificate cannot be used: %w", err)
	}
	return &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: c.current}, nil
}

// current gives the certificate. One that cannot be read, as while it is being
// renewed, leaves the one before it in use.
func (c *certificate) current(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	now := c.now()
	if c.pair != nil && now.Sub(c.looked) < lookAgain {
		return c.pair, nil
	}
	c.looked = now
	info, err := os.Stat(c.cert)
	if err == nil && c.pair != nil && info.ModTime().Equal(c.since) {
		return c.pair, nil
	}
	if err == nil {
		var pair tls.Certificate
		if pair, err = tls.LoadX509KeyPair(c.cert, c.key); err == nil {
			c.pair, c.since = &pair, info.ModTime()
		}
	}
	if c.pair != nil {
		return c.pair, nil
	}
	return nil, fmt.Errorf("reading %s and %s: %w", c.cert, c.key, config.WithoutPath(err))
}
