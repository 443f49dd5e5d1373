package address

import (
	"net"
	"net/netip"
	"net/url"
	"strings"
)

// Site says under which names a server is reached.
type Site struct {
	// Root is how links begin: scheme, host and port, "https://kitchen.example".
	Root string
	// Loopback says that only this machine can connect.
	Loopback bool
	// Names are further hosts that requests may be for, in small letters.
	Names []string
}

// Webcal is an address in the form that opens a phone's calendar.
func (s Site) Webcal(path string) string {
	_, rest, _ := strings.Cut(s.Root, "://")
	return "webcal://" + rest + path
}

// Link is an address as a browser takes it.
func (s Site) Link(path string) string { return s.Root + path }

// Secure says whether what is sent is hidden on its way.
func (s Site) Secure() bool { return strings.HasPrefix(s.Root, "https://") }

// Knows reports whether a request for a host is meant for this server. A page that
// has its own name point at this machine can use that name only; so names must be
// known, while an address in numbers cannot be made to point anywhere else.
func (s Site) Knows(host string) bool {
	name := strings.ToLower(strings.TrimSuffix(hostOnly(host), "."))
	if ip, err := netip.ParseAddr(name); err == nil {
		return !s.Loopback || ip.Unmap().IsLoopback() || s.isRoot(name)
	}
	if name == "localhost" || s.isRoot(name) {
		return true
	}
	for _, n := range s.Names {
		if n == name {
			return true
		}
	}
	return false
}

func (s Site) isRoot(name string) bool {
	u, err := url.Parse(s.Root)
	return err == nil && name != "" && strings.ToLower(u.Hostname()) == name
}

// hostOnly takes the port off, and the brackets of an IPv6 address.
func hostOnly(host string) string {
	if h, _, err := net.SplitHostPort(host); err == nil {
		return h
	}
	return strings.TrimSuffix(strings.TrimPrefix(host, "["), "]")
}
