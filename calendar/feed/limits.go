package feed

import (
	"context"
	"crypto/tls"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"ripeby/calendar/listeners"
	"sync"
	"sync/atomic"
	"time"
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
		stop: 5 * time.Second, headerBytes: 8 << 10, connections: 256 + listeners.Most, crowd: 224}
}

// Serve answers on a listener until ctx ends; answers under way then have a
// moment to be done. With a TLS configuration it speaks https.
func (s *Server) Serve(ctx context.Context, l net.Listener, secure *tls.Config) error {
	server := &http.Server{
		Handler:           s,
		ReadHeaderTimeout: s.limits.header, ReadTimeout: s.limits.read, WriteTimeout: s.limits.write, IdleTimeout: s.limits.idle,
		MaxHeaderBytes:               s.limits.headerBytes,
		TLSConfig:                    secure,
		BaseContext:                  func(net.Listener) context.Context { return ctx }, // who listens is not waited for at the end
		DisableGeneralOptionsHandler: true,                                              // "OPTIONS *" is refused like the rest
		// What net/http has to say is about connections that went wrong and names who
		// they came from; only whoever attacks would choose what is written.
		ErrorLog: log.New(io.Discard, "", 0),
	}
	bounded := &boundedListener{Listener: l, free: make(chan struct{}, s.limits.connections), done: make(chan struct{}), open: &s.open}
	failed := make(chan error, 1)
	go func() {
		if secure != nil {
			failed <- server.ServeTLS(bounded, "", "")
			return
		}
		failed <- server.Serve(bounded)
	}()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	stop, cancel := context.WithTimeout(context.WithoutCancel(ctx), s.limits.stop)
	defer cancel()
	err := server.Shutdown(stop)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close() // a client that does not take its answer is not waited for
	}
	<-failed
	return err
}

// crowded reports whether connections should not be kept for later.
func (s *Server) crowded() bool {
	return s.open.Load()-int64(s.listeners.Count()) >= int64(s.limits.crowd)
}

// boundedListener holds further connections back while as many are open as may be.
type boundedListener struct {
	net.Listener
	free chan struct{} // a place taken is an entry
	done chan struct{}
	once sync.Once
	open *atomic.Int64
}

// Accept waits for a place, then for a connection.
func (l *boundedListener) Accept() (net.Conn, error) {
	select {
	case l.free <- struct{}{}:
	case <-l.done:
		return nil, net.ErrClosed
	}
	c, err := l.Listener.Accept()
	if err != nil {
		<-l.free
		return nil, err
	}
	l.open.Add(1)
	return &boundedConn{Conn: c, leave: sync.OnceFunc(func() { l.open.Add(-1); <-l.free })}, nil
}

// Close lets a waiting Accept go too.
func (l *boundedListener) Close() error {
	l.once.Do(func() { close(l.done) })
	return l.Listener.Close()
}

// boundedConn gives its place back when it is closed.
type boundedConn struct {
	net.Conn
	leave func()
}

// Close gives the place back, once.
func (c *boundedConn) Close() error {
	err := c.Conn.Close()
	c.leave()
	return err
}
