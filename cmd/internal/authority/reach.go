package authority

import (
	"bytes"
	"net"
	"slices"
	"strings"
)

// Reach is under which names and addresses a server is reached, in any order and case.
type Reach struct {
	Names []string
	IPs   []net.IP
}

// ordered gives the same each once, in an order of its own, so that two can be compared. A name that no
// certificate can hold is left out.
func (r Reach) ordered() Reach {
	var out Reach
	for _, name := range r.Names {
		if name = strings.ToLower(strings.TrimSuffix(name, ".")); isHostName(name) {
			out.Names = append(out.Names, name)
		}
	}
	for _, ip := range r.IPs {
		if ip = ip.To16(); ip != nil {
			out.IPs = append(out.IPs, ip)
		}
	}
	slices.Sort(out.Names)
	out.Names = slices.Compact(out.Names)
	slices.SortFunc(out.IPs, func(a, b net.IP) int { return bytes.Compare(a, b) })
	out.IPs = slices.CompactFunc(out.IPs, net.IP.Equal)
	return out
}

// same reports whether two that are in order have the same in them.
func (r Reach) same(o Reach) bool {
	return slices.Equal(r.Names, o.Names) && slices.EqualFunc(r.IPs, o.IPs, net.IP.Equal)
}

// longestName is how long a host's name may be (RFC 1035, 2.3.4).
const longestName = 253

// isHostName reports whether a text is a host's name in small letters as certificates have it: labels of
// letters, digits, hyphens and, as machines are called at home, underscores.
func isHostName(name string) bool {
	if name == "" || len(name) > longestName || net.ParseIP(name) != nil {
		return false
	}
	for label := range strings.SplitSeq(name, ".") {
		if label == "" || len(label) > 63 || strings.Trim(label, "abcdefghijklmnopqrstuvwxyz0123456789-_") != "" {
			return false
		}
	}
	return true
}

// privateNames are the names that every authority may speak for: those of this machine, and those that a
// network without a name server has (RFC 6761, 6.3; RFC 6762, 3).
var privateNames = []string{"localhost", "local"}

// privateRanges are the addresses that every authority may speak for. Nobody on the internet has one.
var privateRanges = rangesOf(
	"127.0.0.0/8", "::1/128", // this machine (RFC 1122, 3.2.1.3; RFC 4291, 2.5.3)
	"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "fc00::/7", // private networks (RFC 1918, 3; RFC 4193, 3.1)
	"169.254.0.0/16", "fe80::/10", // one link (RFC 3927, 2.1; RFC 4291, 2.5.6)
	"100.64.0.0/10", // shared by a provider, or laid over others (RFC 6598, 7)
)

func rangesOf(texts ...string) []*net.IPNet {
	ranges := make([]*net.IPNet, len(texts))
	for i, text := range texts {
		_, ranges[i], _ = net.ParseCIDR(text) // a test reads them all
	}
	return ranges
}

// only is the range of one address.
func only(ip net.IP) *net.IPNet {
	if four := ip.To4(); four != nil {
		ip = four
	}
	bits := 8 * len(ip)
	return &net.IPNet{IP: ip, Mask: net.CIDRMask(bits, bits)}
}

// within reports whether an address lies in one of the ranges.
func within(ranges []*net.IPNet, ip net.IP) bool {
	return slices.ContainsFunc(ranges, func(r *net.IPNet) bool { return r.Contains(ip) })
}

// below reports whether a name is one of the others or ends in one, label by label.
func below(others []string, name string) bool {
	return slices.ContainsFunc(others, func(o string) bool { return name == o || strings.HasSuffix(name, "."+o) })
}
