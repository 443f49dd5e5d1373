package main

import (
	"ripeby/calendar/address"
	"ripeby/calendar/dav"
	"ripeby/calendar/feed"
)

// serveTasks has calendar programs tick tasks at a server.
func serveTasks(s *feed.Server, store address.Store, site feed.Site, p *program) {
	s.Beside(dav.New(s, store, dav.Options{Link: site.Link, Secure: site.Secure(), Now: p.now, Say: p.say}), dav.Root)
}
