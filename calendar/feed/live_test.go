package feed

import (
	"bufio"
	"context"
	"net/http"
	"ripeby/calendar/listeners"
	"ripeby/calendar/said"
	"strings"
	"testing"
	"time"
)

// listen opens a stream of changes, and gives what comes of it a line a time; the channel is closed
// when the stream ends.
func listen(t *testing.T, url string) (status int, lines <-chan string, leave func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	r, err := http.NewRequestWithContext(ctx, "GET", url, nil)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	out := make(chan string, 100)
	go func() {
		defer close(out)
		defer answer.Body.Close()
		for s := bufio.NewScanner(answer.Body); s.Scan(); {
			if s.Text() != "" {
				out <- s.Text()
			}
		}
	}()
	return answer.StatusCode, out, cancel
}

// heardWithin wants a line that begins in some way, in time; "" for the end.
func heardWithin(t *testing.T, lines <-chan string, want string) {
	t.Helper()
	after := time.After(5 * time.Second)
	for {
		select {
		case line, on := <-lines:
			switch {
			case !on && want == "", on && want != "" && strings.HasPrefix(line, want):
				return
			case !on:
				t.Fatalf("the stream ended before %q", want)
			}
		case <-after:
			t.Fatalf("%q never came", want)
		}
	}
}

// A page is told of each change at once, until its address is taken back or the server stops.
func TestListening(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	addr, stop := listenedTo(t, s)
	status, lines, _ := listen(t, "http://"+addr+s.writes(t, "Nell").Path()+"live")
	if status != 200 {
		t.Fatalf("got %d, want a stream", status)
	}
	heardWithin(t, lines, ": listening")
	s.kitchen.change(func(k *kitchenAt) { k.told = &said.Told{Last: 1} })
	s.hear()
	heardWithin(t, lines, "data: changed")
	s.show(sampleMade(t, 1))
	heardWithin(t, lines, "data: changed")
	_, others, _ := listen(t, "http://"+addr+s.address(t, "page").Path()+"live")
	heardWithin(t, others, ": listening")
	book, _ := s.board.Load().book.Renew("Nell")
	s.watch.redraw(book, s.board.Load().made)
	heardWithin(t, lines, "")
	heardWithin(t, others, "data: changed")
	began := time.Now()
	stop()
	heardWithin(t, others, "")
	if took := time.Since(began); took > s.limits.stop/2 {
		t.Errorf("stopping took %v with a page that listens", took)
	}
	if w := s.ask("GET", "/p/"+s.address(t, "everything").Token+"/live"); w.Code != 404 {
		t.Errorf("a calendar's address: got %d, want 404", w.Code)
	}
}

// So many pages are told and no more; who leaves makes room, and all others are answered meanwhile.
func TestManyListen(t *testing.T) {
	s := stood(t, sampleMade(t, 2))
	addr, _ := listenedTo(t, s)
	url := "http://" + addr + s.address(t, "page").Path()
	var leave []func()
	for i := range listeners.Most {
		status, lines, end := listen(t, url+"live")
		if status != 200 {
			t.Fatalf("the %d-th: got %d, want a stream", i+1, status)
		}
		heardWithin(t, lines, ": listening")
		leave = append(leave, end)
	}
	if status, _, _ := listen(t, url+"live"); status != 503 {
		t.Errorf("one more: got %d, want 503", status)
	}
	if s.crowded() {
		t.Error("pages that listen are counted as a crowd")
	}
	answer, err := http.Get(url)
	if err != nil || answer.StatusCode != 200 {
		t.Fatalf("the page: got %v, %v", answer, err)
	}
	answer.Body.Close()
	leave[0]()
	eventually(t, "room for one more", func() bool { return s.listeners.Count() < listeners.Most })
	if status, _, _ := listen(t, url+"live"); status != 200 {
		t.Errorf("when one has left: got %d, want a stream", status)
	}
}
