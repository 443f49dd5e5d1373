// Package crowd holds a crowd of connections back, so that no more are open at a time than a server has
// room for.
package crowd

import (
	"net"
	"sync"
	"sync/atomic"
)

// Bound has a listener hold further connections back while as many are open as may be, and count those that
// are.
func Bound(l net.Listener, most int, open *atomic.Int64) net.Listener {
	return &listener{Listener: l, free: make(chan struct{}, most), done: make(chan struct{}), open: open}
}

type listener struct {
	net.Listener
	free chan struct{} // a place taken is an entry
	done chan struct{}
	once sync.Once
	open *atomic.Int64
}

// Accept waits for a place, then for a connection.
func (l *listener) Accept() (net.Conn, error) {
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
	return &conn{Conn: c, leave: sync.OnceFunc(func() { l.open.Add(-1); <-l.free })}, nil
}

// Close lets a waiting Accept go too.
func (l *listener) Close() error {
	l.once.Do(func() { close(l.done) })
	return l.Listener.Close()
}

// conn gives its place back when it is closed.
type conn struct {
	net.Conn
	leave func()
}

// Close gives the place back, once.
func (c *conn) Close() error {
	err := c.Conn.Close()
	c.leave()
	return err
}
