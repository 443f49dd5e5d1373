package crowd

import (
	"errors"
	"net"
	"sync/atomic"
	"testing"
)

// A connection more than may be waits until one is closed, which gives its place back once; who waits is let
// go when the listener is closed.
func TestFurtherConnectionsWait(t *testing.T) {
	inner, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	var open atomic.Int64
	l := Bound(inner, 2, &open)
	type answer struct {
		conn net.Conn
		err  error
	}
	accepted := make(chan answer)
	accept := func() {
		go func() {
			c, err := l.Accept()
			accepted <- answer{c, err}
		}()
	}
	for range 3 {
		c, err := net.Dial("tcp", inner.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
	}
	accept()
	first := <-accepted
	accept()
	<-accepted
	accept()
	select {
	case a := <-accepted:
		t.Fatalf("got a third connection, %v", a)
	default:
	}
	if n := open.Load(); n != 2 {
		t.Errorf("got %d open, want 2", n)
	}
	first.conn.Close()
	first.conn.Close() // its place is free already
	third := <-accepted
	if third.err != nil || open.Load() != 2 {
		t.Errorf("got %v and %d open, want a third connection and 2", third.err, open.Load())
	}
	accept()
	l.Close()
	if a := <-accepted; !errors.Is(a.err, net.ErrClosed) {
		t.Errorf("got %v after the end, want that it is closed", a.err)
	}
}
