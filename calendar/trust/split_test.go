package trust

import (
	"errors"
	"io"
	"net"
	"sync"
	"testing"
	"time"
)

// opened is a listener on loopback that is split, until the test ends.
func opened(t *testing.T, patience time.Duration) (secure, plain net.Listener) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	secure, plain = Split(l, func() time.Time { return time.Now().Add(patience) })
	t.Cleanup(func() { secure.Close() })
	return secure, plain
}

// dialled opens a connection and sends something.
func dialled(t *testing.T, at net.Listener, text string) net.Conn {
	t.Helper()
	c, err := net.Dial("tcp", at.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	if err := c.SetDeadline(time.Now().Add(20 * time.Second)); err != nil {
		t.Fatal(err)
	}
	if _, err := io.WriteString(c, text); err != nil {
		t.Fatal(err)
	}
	return c
}

// Who begins as TLS does goes to one side, all others to the other, each with all that was sent.
func TestSplit(t *testing.T) {
	secure, plain := opened(t, 10*time.Second)
	tests := []struct {
		name, text string
		to         net.Listener
	}{
		{"a hello of TLS", "\x16\x03\x01\x02\x00", secure},
		{"its first byte", "\x16", secure},
		{"an alert of TLS", "\x15\x03\x01\x02\x00", plain},
		{"a request", "GET / HTTP/1.1\r\n", plain},
		{"zero", "\x00", plain},
		{"a hello of SSL 2", "\x80\x2e\x01", plain},
	}
	for _, c := range tests {
		dialled(t, secure, c.text)
		got, err := c.to.Accept()
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		text := make([]byte, len(c.text))
		if _, err := io.ReadFull(got, text); err != nil || string(text) != c.text {
			t.Errorf("%s: got %q (%v), want %q", c.name, text, err, c.text)
		}
		got.Close()
	}
}

// waiting is how many connections nothing has come of yet.
func waiting(of net.Listener) int {
	s := of.(*side)
	s.mu.Lock()
	defer s.mu.Unlock()
	return len(s.waiting)
}

// Whoever sends nothing holds up nobody, and is hung up on.
func TestSplitOfSilence(t *testing.T) {
	secure, plain := opened(t, 2*time.Second)
	var hungUp sync.WaitGroup
	begin := time.Now()
	for range 20 {
		c := dialled(t, secure, "")
		hungUp.Go(func() {
			if _, err := c.Read(make([]byte, 1)); !errors.Is(err, io.EOF) {
				t.Errorf("got %v, want the end", err)
			}
		})
	}
	dialled(t, secure, "GET")
	got, err := plain.Accept()
	if err != nil {
		t.Fatal(err)
	}
	got.Close()
	if waiting(plain) == 0 {
		t.Error("another was taken only when all silent ones were gone")
	}
	hungUp.Wait()
	if took := time.Since(begin); took > 15*time.Second {
		t.Errorf("hung up after %v, want soon after 2 s", took)
	}
	if left := waiting(plain); left > 0 {
		t.Errorf("%d are still waited for", left)
	}
}

// Closing either side ends all: who accepts, who waits to be sorted, and who was sorted and not taken.
func TestSplitCloses(t *testing.T) {
	for which := range 2 {
		secure, plain := opened(t, time.Minute)
		silent, untaken := dialled(t, secure, ""), dialled(t, secure, "GET")
		for end := time.Now().Add(20 * time.Second); waiting(secure) != 1 && time.Now().Before(end); {
			time.Sleep(time.Millisecond) // until both came, one is waited for and the other is sorted
		}
		ended := make(chan error, 1)
		go func() { _, err := secure.Accept(); ended <- err }()
		if err := []net.Listener{secure, plain}[which].Close(); err != nil {
			t.Error(err)
		}
		for _, c := range []net.Conn{silent, untaken} {
			if _, err := c.Read(make([]byte, 1)); err == nil {
				t.Error("a connection is still open")
			}
		}
		if err := <-ended; !errors.Is(err, net.ErrClosed) {
			t.Errorf("got %v, want %v", err, net.ErrClosed)
		}
		if _, err := plain.Accept(); !errors.Is(err, net.ErrClosed) {
			t.Errorf("got %v, want %v", err, net.ErrClosed)
		}
		if c, err := net.Dial("tcp", secure.Addr().String()); err == nil {
			c.Close()
			t.Error("the door is still open")
		}
	}
}

// failing is a listener that has no room for a while.
type failing struct {
	net.Listener
	mu   sync.Mutex
	left int
}

var errFull = errors.New("too many files")

func (f *failing) Accept() (net.Conn, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.left > 0 {
		f.left--
		return nil, errFull
	}
	return f.Listener.Accept()
}

// What passes by itself is told, and ends nothing.
func TestSplitTellsFaults(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	secure, _ := Split(&failing{Listener: l, left: 2}, func() time.Time { return time.Now().Add(time.Minute) })
	defer secure.Close()
	dialled(t, secure, "\x16")
	for range 2 {
		if _, err := secure.Accept(); !errors.Is(err, errFull) {
			t.Errorf("got %v, want %v", err, errFull)
		}
	}
	c, err := secure.Accept()
	if err != nil {
		t.Fatal(err)
	}
	c.Close()
}
