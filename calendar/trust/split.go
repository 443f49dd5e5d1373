package trust

import (
	"errors"
	"net"
	"sync"
	"time"
)

// handshake is the first byte of a connection that begins as TLS does (RFC 8446, 5.1, ContentType).
const handshake = 22

// Split gives the connections of a listener that begin as TLS does to one side, and all others to another.
// Each is waited for by itself, until deadline() at the longest, and hung up on when nothing came by then:
// how many may wait is the listener's to say. What goes wrong with the listener the secure side is told.
// Closing either side closes both, the listener, and what still waits.
func Split(l net.Listener, deadline func() time.Time) (secure, plain net.Listener) {
	s := &split{Listener: l, deadline: deadline, done: make(chan struct{}), waiting: map[net.Conn]bool{}}
	one, other := &side{s, make(chan accepted)}, &side{s, make(chan accepted)}
	go s.accept(one, other)
	return one, other
}

// split is a listener that is shared by two sides.
type split struct {
	net.Listener
	deadline func() time.Time
	done     chan struct{}

	mu      sync.Mutex
	closed  bool
	waiting map[net.Conn]bool // of which nothing has come yet
}

// side is what one server listens on.
type side struct {
	*split
	come chan accepted
}

// accepted is what Accept gives.
type accepted struct {
	conn net.Conn
	err  error
}

// accept hands connections on until the listener is closed.
func (s *split) accept(secure, plain *side) {
	for {
		c, err := s.Listener.Accept()
		if errors.Is(err, net.ErrClosed) {
			_ = s.Close()
			return
		}
		if err != nil {
			secure.give(accepted{err: err}) // whoever serves there knows which pass by themselves
			continue
		}
		if s.wait(c) {
			go s.sort(c, secure, plain)
		}
	}
}

// sort reads a connection's first byte, and gives it to the side that it is for.
func (s *split) sort(c net.Conn, secure, plain *side) {
	first := make([]byte, 1)
	err := c.SetReadDeadline(s.deadline())
	if err == nil {
		_, err = c.Read(first)
	}
	if err == nil {
		err = c.SetReadDeadline(time.Time{})
	}
	s.mu.Lock()
	delete(s.waiting, c)
	s.mu.Unlock()
	to := plain
	if first[0] == handshake {
		to = secure
	}
	if err != nil || !to.give(accepted{conn: &begun{Conn: c, first: first}}) {
		_ = c.Close()
	}
}

// wait notes that a connection is waited for; not when all is over.
func (s *split) wait(c net.Conn) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		_ = c.Close()
		return false
	}
	s.waiting[c] = true
	return true
}

// Close ends both sides.
func (s *split) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return nil
	}
	s.closed = true
	close(s.done)
	for c := range s.waiting {
		_ = c.Close()
	}
	return s.Listener.Close()
}

// give hands on to whoever accepts here; it reports false when nobody will any more.
func (s *side) give(a accepted) bool {
	select {
	case s.come <- a:
		return true
	case <-s.done:
		return false
	}
}

// Accept waits for a connection of this side.
func (s *side) Accept() (net.Conn, error) {
	select {
	case a := <-s.come:
		return a.conn, a.err
	case <-s.done:
		return nil, net.ErrClosed
	}
}

// begun is a connection whose first byte has been read.
type begun struct {
	net.Conn
	first []byte
}

// Read gives the first byte, and then the rest.
func (b *begun) Read(p []byte) (int, error) {
	if len(b.first) > 0 && len(p) > 0 {
		n := copy(p, b.first)
		b.first = b.first[n:]
		return n, nil
	}
	return b.Conn.Read(p)
}
