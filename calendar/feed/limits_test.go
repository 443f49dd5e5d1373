package feed

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"
)

// served serves a stand on loopback until the test ends; stop gives what Serve did.
func served(t *testing.T, s *stand) (addr string, stop func() error) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, l, s.secure) }()
	ended := false
	stop = func() error {
		cancel()
		if ended {
			return nil
		}
		ended = true
		return <-done
	}
	t.Cleanup(func() { _ = stop() })
	return l.Addr().String(), stop
}

// dialled opens a connection that the test ends.
func dialled(t *testing.T, addr string) net.Conn {
	t.Helper()
	c, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	if err := c.SetDeadline(time.Now().Add(20 * time.Second)); err != nil {
		t.Fatal(err)
	}
	return c
}

// raw sends bytes and gives the status of each answer until the server hangs up.
func raw(t *testing.T, addr, request string) (statuses []int) {
	t.Helper()
	c := dialled(t, addr)
	go func() { _, _ = io.WriteString(c, request) }() // the server may hang up first
	r := bufio.NewReader(c)
	for {
		answer, err := http.ReadResponse(r, nil)
		if err != nil {
			return statuses
		}
		body, err := io.ReadAll(answer.Body)
		if err == nil && strings.Contains(string(body), "VCALENDAR") {
			statuses = append(statuses, -answer.StatusCode) // never wanted here
		} else {
			statuses = append(statuses, answer.StatusCode)
		}
		if answer.Close {
			return statuses
		}
	}
}

// What is no proper request is refused and its connection closed; none gets a
// calendar, even with a good address.
func TestMalformedRequests(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	s.limits.header, s.limits.read, s.limits.idle = 2*time.Second, 2*time.Second, 300*time.Millisecond
	addr, _ := served(t, s)
	path := s.address(t, "Nell").Path()
	get := "GET " + path + " HTTP/1.1\r\n"
	host := "Host: " + addr + "\r\n"
	tests := []struct {
		name, request string
		want          string // statuses, one after another
	}{
		{"nothing that is HTTP", "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n", "[400]"},
		{"no path", "GET\r\n\r\n", "[400]"},
		{"no version", "GET " + path + "\r\n\r\n", "[400]"},
		{"another version", "GET " + path + " HTTP/9.9\r\n" + host + "\r\n", "[505]"},
		{"no host", get + "\r\n", "[400]"},
		{"two hosts", get + host + "Host: evil.example\r\n\r\n", "[400]"},
		{"another host", get + "Host: evil.example\r\n\r\n", "[421]"},
		{"another host in the target", "GET http://evil.example" + path + " HTTP/1.1\r\n" + host + "\r\n", "[421]"},
		{"a host with a path", get + "Host: 127.0.0.1/evil.example\r\n\r\n", "[400]"},
		{"a header with a space", get + host + "Bad Header: x\r\n\r\n", "[400]"},
		{"a header with NUL", get + host + "Bad: a\x00b\r\n\r\n", "[400]"},
		{"a long header", get + host + "Long: " + strings.Repeat("x", 64<<10) + "\r\n\r\n", "[431]"},
		{"many headers", get + host + strings.Repeat("A: b\r\n", 20000) + "\r\n", "[431]"},
		{"a long path", "GET /f/" + strings.Repeat("x", 64<<10) + ".ics HTTP/1.1\r\n" + host + "\r\n", "[431]"},
		{"a body", get + host + "Content-Length: 5\r\n\r\nhello", "[413]"},
		{"a body of lies", get + host + "Content-Length: 999999999999\r\n\r\n", "[413]"},
		{"a body in pieces", get + host + "Transfer-Encoding: chunked\r\n\r\n5\r\nhello\r\n0\r\n\r\n", "[413]"},
		{"a body in two ways", get + host + "Content-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET / HTTP/1.1\r\n" + host + "\r\n", "[413]"},
		{"two lengths", get + host + "Content-Length: 5\r\nContent-Length: 6\r\n\r\nhello", "[400]"},
		{"a negative length", get + host + "Content-Length: -5\r\n\r\n", "[400]"},
		{"a way of sending that is none", get + host + "Transfer-Encoding: sideways\r\n\r\n", "[501]"},
		{"a tunnel", "CONNECT evil.example:443 HTTP/1.1\r\nHost: evil.example:443\r\n\r\n", "[405]"},
		{"the server itself", "OPTIONS * HTTP/1.1\r\n" + host + "\r\n", "[405]"},
		{"an upgrade", "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", "[405]"},
		{"a path that climbs", "GET /assets/../../addresses.json HTTP/1.1\r\n" + host + "Connection: close\r\n\r\n", "[404]"},
		{"a path that climbs, escaped", "GET /assets/%2e%2e%2faddresses.json HTTP/1.1\r\n" + host + "Connection: close\r\n\r\n", "[404]"},
		{"a path that is not escaped right", "GET /%zz HTTP/1.1\r\n" + host + "\r\n", "[400]"},
		{"no slash", "GET health HTTP/1.1\r\n" + host + "\r\n", "[400]"},
	}
	for _, c := range tests {
		got := raw(t, addr, c.request)
		if fmt.Sprint(got) != c.want {
			t.Errorf("%s: got %v, want %s and the connection closed", c.name, got, c.want)
		}
	}
	if got := raw(t, addr, get+host+"Connection: close\r\n\r\n"); fmt.Sprint(got) != "[-200]" {
		t.Errorf("after all that: got %v, want a calendar", got)
	}
	if said := s.said.String(); said != "" {
		t.Errorf("it said %q, want nothing: those who ask do not choose what is logged", said)
	}
}

// A client that sends its request slowly, or never, is hung up on; others are
// answered meanwhile.
func TestSlowClients(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	s.limits.header, s.limits.read, s.limits.idle = 300*time.Millisecond, 300*time.Millisecond, 300*time.Millisecond
	addr, _ := served(t, s)
	drip := func(c net.Conn) { // a byte at a time, so that something always comes
		for {
			if _, err := io.WriteString(c, "x"); err != nil {
				return
			}
			time.Sleep(20 * time.Millisecond)
		}
	}
	begun := time.Now()
	hungUp := make(chan time.Duration)
	const each = 10
	for range each {
		for _, beginning := range []string{"", "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: "} {
			c := dialled(t, addr)
			_, _ = io.WriteString(c, beginning)
			if beginning != "" {
				go drip(c)
			}
			go func() {
				_, _ = io.Copy(io.Discard, c)
				hungUp <- time.Since(begun)
			}()
		}
	}
	if got := raw(t, addr, "GET /health HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n"); fmt.Sprint(got) != "[200]" {
		t.Errorf("meanwhile: got %v, want 200", got)
	}
	for range 2 * each {
		if after := <-hungUp; after > 10*time.Second {
			t.Errorf("hung up after %v, want soon after 300 ms", after)
		}
	}
	eventually(t, "no connection left", func() bool { return s.open.Load() == 0 })
}

// As many connections as may be are answered; further ones wait until one is gone.
// When most places are taken, none is kept for later.
func TestBoundedConnections(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	s.limits.connections, s.limits.crowd = 4, 3
	addr, _ := served(t, s)
	ask := func(c net.Conn) (*http.Response, error) {
		if _, err := io.WriteString(c, "GET /health HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"); err != nil {
			return nil, err
		}
		return http.ReadResponse(bufio.NewReader(c), nil)
	}
	first := dialled(t, addr)
	if r, err := ask(first); err != nil || r.Close {
		t.Fatalf("the first: %v, closed %v; want it kept", err, r.Close)
	}
	var silent []net.Conn
	for range 3 {
		silent = append(silent, dialled(t, addr))
	}
	eventually(t, "four connections", func() bool { return s.open.Load() == 4 })
	fifth := dialled(t, addr)
	if err := fifth.SetReadDeadline(time.Now().Add(150 * time.Millisecond)); err != nil {
		t.Fatal(err)
	}
	var timeout net.Error
	if _, err := ask(fifth); !errors.As(err, &timeout) || !timeout.Timeout() {
		t.Errorf("the fifth: got %v, want it to wait", err)
	}
	silent[0].Close()
	if err := fifth.SetReadDeadline(time.Now().Add(10 * time.Second)); err != nil {
		t.Fatal(err)
	}
	if r, err := http.ReadResponse(bufio.NewReader(fifth), nil); err != nil || r.StatusCode != 200 || !r.Close {
		t.Errorf("the fifth when one is gone: got %v, want 200 and no keeping", err)
	}
}

// Stopping ends at once for connections that wait, and soon for those that do not
// end by themselves.
func TestServeStops(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	s.limits.stop = 200 * time.Millisecond
	addr, stop := served(t, s)
	idle := dialled(t, addr)
	if _, err := io.WriteString(idle, "GET /health HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"); err != nil {
		t.Fatal(err)
	}
	if _, err := http.ReadResponse(bufio.NewReader(idle), nil); err != nil {
		t.Fatal(err)
	}
	half := dialled(t, addr)
	if _, err := io.WriteString(half, "GET /health HT"); err != nil {
		t.Fatal(err)
	}
	eventually(t, "two connections", func() bool { return s.open.Load() == 2 })
	begun := time.Now()
	if err := stop(); err != nil {
		t.Errorf("got %v, want a good end", err)
	}
	if took := time.Since(begun); took > 5*time.Second {
		t.Errorf("it took %v, want about 200 ms", took)
	}
	if _, err := net.Dial("tcp", addr); err == nil {
		t.Error("the door is still open")
	}
}
