package main

import (
	"crypto/tls"
	"errors"
	"io"
	"net"
	"net/url"
	"strings"
	"time"

	"ripeby/calendar/feed"
	"ripeby/calendar/qr"
	"ripeby/calendar/trust"
	"ripeby/calendar/words"
	"ripeby/cmd/internal/authority"
)

// ownHTTPS is https with an authority of the kitchen's own; nil where it is spoken otherwise, or not at all.
type ownHTTPS struct {
	files ownFiles
	now   func() time.Time
	by    *authority.Authority // nil before the first
	told  *trust.Pages         // what phones are told
	link  string               // where; it holds no key
}

// ownBy reads the authority that is kept. A damaged one is an error before anything is written.
func ownBy(opt serveOptions, files ownFiles, now func() time.Time) (*ownHTTPS, error) {
	if !opt.own {
		return nil, nil
	}
	by, err := authority.Read(files)
	if err != nil {
		return nil, other("%w", err)
	}
	return &ownHTTPS{files: files, now: now, by: by}, nil
}

// makeOwn makes the authority where there is none, and what phones are told of it.
func (p *program) makeOwn(o *ownHTTPS, k kitchen, door *net.TCPAddr, site feed.Site) error {
	if o == nil {
		return nil
	}
	if o.by == nil {
		by, err := authority.Make(words.Printable(p.kitchenName(k, o.files.out)), reachOf(door, site), p.now())
		if errors.Is(err, authority.ErrClock) {
			return other("%w: it says %s; set it, for the authority is good for ten years from now", err, p.now().Format("Mon 2 Jan 2006 15:04"))
		}
		if err == nil {
			err = by.Keep(o.files)
		}
		if err != nil {
			return err
		}
		// Another run may have made one at the same time: the one that is kept counts.
		if o.by, err = authority.Read(o.files); err != nil {
			return other("%w", err)
		}
	}
	var err error
	if o.told, err = trust.New(o.by.Certificate(), site.Root); err != nil {
		return err
	}
	o.link, err = trustLink(site.Root)
	return err
}

// kitchenName is the kitchen's name, by its folder or, while that cannot be read, by its plan.
func (p *program) kitchenName(k kitchen, out output) string {
	if problem, err := k.load("", p.now()); err == nil {
		return problem.Kitchen.Name
	}
	if plan, err := out.earlier(); err == nil && plan != nil {
		return plan.Kitchen
	}
	return ""
}

// speak gives the TLS configuration of a server that listens at the door and is known as the site.
func (o *ownHTTPS) speak(door *net.TCPAddr, site feed.Site) (*tls.Config, error) {
	if host := hostOf(site.Root); !o.by.May(host) {
		return nil, other("the authority in %s may not speak for %s, which it was not made for; give a name for it that ends in .local with --url, "+
			"or remove that file: then a new authority is made and each phone must be told to trust that one", o.files.out.path(authority.File), host)
	}
	speaker, err := authority.NewSpeaker(o.by, func() authority.Reach { return reachOf(door, site) }, o.now, o.files.say)
	if err != nil {
		return nil, other("%w", err)
	}
	return &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: speaker.Certificate}, nil
}

// reachOf is under which names and addresses a server is reached just now.
func reachOf(door *net.TCPAddr, site feed.Site) authority.Reach {
	reach := authority.Loopback()
	reach.Names = append(reach.Names, site.Names...)
	switch {
	case anywhere(door.IP):
		reach.IPs = append(reach.IPs, reachable()...)
	default:
		reach.IPs = append(reach.IPs, door.IP)
	}
	host := hostOf(site.Root)
	if ip := net.ParseIP(host); ip != nil {
		reach.IPs = append(reach.IPs, ip)
	} else {
		reach.Names = append(reach.Names, host)
	}
	return reach
}

// hostOf is the host that links lead to.
func hostOf(root string) string {
	u, err := url.Parse(root)
	if err != nil {
		return ""
	}
	return u.Hostname()
}

// trustLink is where phones are told how, for a server whose links begin with root: over http, for they do
// not trust its https yet, and at the port of that.
func trustLink(root string) (string, error) {
	u, err := url.Parse(root)
	if err != nil {
		return "", err
	}
	if u.Port() == "" {
		u.Host += ":443"
	}
	return "http://" + u.Host + trust.Path, nil
}

// lastRoot is how links begin where they last began so: with https at the same place.
func (o *ownHTTPS) lastRoot(root string) string {
	if rest, plain := strings.CutPrefix(root, "http://"); o != nil && plain {
		return "https://" + rest
	}
	return root
}

// pages are what phones are told, nil for nothing.
func (o *ownHTTPS) pages() *trust.Pages {
	if o == nil {
		return nil
	}
	return o.told
}

// endsSoon is how long before the authority's end it is spoken of: each phone has to be told once more then.
const endsSoon = 365 * 24 * time.Hour

// write says where phones are told, and how people know that it is this authority.
func (o *ownHTTPS) write(w io.Writer, l look, code bool) error {
	if o == nil {
		return nil
	}
	line(w, "How a phone trusts this server, once (this address is no key):")
	line(w, "  "+o.link)
	if code {
		text, err := qr.Terminal(o.link, l.colour)
		if err != nil {
			return err
		}
		_, _ = io.WriteString(w, text) // resultWriter keeps the error
	}
	line(w, "The fingerprint (SHA-256) that the phone must show for it:")
	for _, part := range o.told.Fingerprint() {
		line(w, "  "+part)
	}
	if left := o.by.Ends().Sub(o.now()); left < endsSoon {
		line(w, "It ends on "+o.by.Ends().Format("Mon 2 Jan 2006")+". To have a new one, which each phone must be told to trust, remove "+o.files.out.path(authority.File)+".")
	}
	line(w, "")
	return nil
}
