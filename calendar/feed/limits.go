package feed

import (
	"context"
	"crypto/tls"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"time"

	"ripeby/calendar/crowd"
	"ripeby/calendar/trust"
)

// limits are what clients may take of a server's time and memory.
type limits struct {
	header, read, write, idle time.Duration // for a request's head, all of it, an answer, and between requests
	stop                      time.Duration // for answers under way when the server stops
	headerBytes               int           // of a request's head; net/http adds 4 KiB
	connections               int           // open at a time; further ones wait
	crowd                     int           // from so many open on, one is closed after its answer; pages that listen apart
}

// usual are the limits of a server: two hundred phones that all ask at once fit, and
// none of them can hold a connection for long without asking.
func usual() limits {
	return limits{header: 5 * time.Second, read: 10 * time.Second, write: 30 * time.Second, idle: 60 * time.Second,
		stop: 5 * time.Second, headerBytes: 8 << 10, connections: 256 + listenersMost, crowd: 224}
}

// Serve answers on a listener until ctx ends; answers under way then have a
// moment to be done. With a TLS configuration it speaks https; where an authority is to be trusted for that
// (Options.Trust), whoever comes without is told how, and nothing else.
func (s *Server) Serve(ctx context.Context, l net.Listener, secure *tls.Config) error {
	bounded := crowd.Bound(l, s.limits.connections, &s.open)
	main := s.within(ctx, s)
	main.TLSConfig = secure
	servers, failed := []*http.Server{main}, make(chan error, 2)
	switch {
	case secure == nil:
		go func() { failed <- main.Serve(bounded) }()
	case s.opt.Trust == nil:
		go func() { failed <- main.ServeTLS(bounded, "", "") }()
	default:
		encrypted, plain := trust.Split(bounded, func() time.Time { return time.Now().Add(s.limits.header) })
		other := s.within(ctx, s.admitPlain(s.opt.Trust.Plain()))
		servers = append(servers, other)
		go func() { failed <- main.ServeTLS(encrypted, "", "") }()
		go func() { failed <- other.Serve(plain) }()
	}
	var err error
	left := len(servers)
	select {
	case err = <-failed: // with one ended the other is of no use
		left--
	case <-ctx.Done():
	}
	stop, cancel := context.WithTimeout(context.WithoutCancel(ctx), s.limits.stop)
	defer cancel()
	for _, server := range servers {
		ended := server.Shutdown(stop)
		if errors.Is(ended, context.DeadlineExceeded) {
			ended = server.Close() // a client that does not take its answer is not waited for
		}
		if err == nil {
			err = ended
		}
	}
	for range left {
		<-failed
	}
	return err
}

// within is a server that keeps to the limits.
func (s *Server) within(ctx context.Context, h http.Handler) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: s.limits.header, ReadTimeout: s.limits.read, WriteTimeout: s.limits.write, IdleTimeout: s.limits.idle,
		MaxHeaderBytes:               s.limits.headerBytes,
		BaseContext:                  func(net.Listener) context.Context { return ctx }, // who listens is not waited for at the end
		DisableGeneralOptionsHandler: true,                                              // "OPTIONS *" is refused like the rest
		// What net/http has to say is about connections that went wrong and names who
		// they came from; only whoever attacks would choose what is written.
		ErrorLog: log.New(io.Discard, "", 0),
	}
}

// crowded reports whether connections should not be kept for later.
func (s *Server) crowded() bool {
	return s.open.Load()-int64(s.listeners.count()) >= int64(s.limits.crowd)
}
