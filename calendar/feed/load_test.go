package feed

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"ripeby/calendar/edition"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// load is how long the load test runs; 30s is a trial, in which the time of an answer
// is a matter of passing too. It is a shared machine's test otherwise.
var load = flag.Duration("load", 0, "poll for so long with 200 subscribers and want 99 of 100 answers within 20 ms (default 2 s, and times are only told)")

const (
	subscribers = 200
	pollEvery   = 250 * time.Millisecond // of each subscriber: 800 requests a second in all
	answerMost  = 20 * time.Millisecond
	heapMore    = 4 << 20 // how much the server's heap may grow under load
)

// polled is what the subscribers saw.
type polled struct {
	Requests, Full, Unchanged int
	P50, P99, Longest         time.Duration
	Errors                    []string
}

// Two hundred subscribers of another process poll while plans come and go. None sees
// an error or half a calendar, and the server's memory stays as it is.
func TestLoad(t *testing.T) {
	lasting := *load
	if lasting == 0 {
		lasting = 2 * time.Second
	}
	s := stood(t, sampleMade(t, 60))
	addr, _ := listenedTo(t, s)
	var paths []string
	for _, a := range s.board.Load().book.Addresses {
		if a.Kind.IsCalendar() {
			paths = append(paths, "http://"+addr+a.Path())
		}
	}
	plans := []*Made{sampleMade(t, 60), sampleMade(t, 59)}
	stop := make(chan bool)
	var showing sync.WaitGroup
	showing.Go(func() {
		for i := 0; ; i++ {
			select {
			case <-stop:
				return
			case <-time.After(lasting / 4):
				s.clock.move(time.Second)
				s.show(plans[i%2])
			}
		}
	})
	before := heap()
	got := pollFrom(t, lasting, paths)
	close(stop)
	showing.Wait()
	eventually(t, "no connection left", func() bool { return s.open.Load() == 0 })
	more := int64(heap()) - int64(before)
	t.Logf("%d subscribers for %v: %d requests, %d full, %d unchanged; half within %v, 99 of 100 within %v, the longest %v; heap %+d kB",
		subscribers, lasting, got.Requests, got.Full, got.Unchanged, got.P50, got.P99, got.Longest, more/1024)
	if len(got.Errors) > 0 {
		t.Errorf("%d errors, the first: %v", len(got.Errors), got.Errors[0])
	}
	if least := subscribers * int(lasting/pollEvery) / 4; got.Requests < least || got.Full < subscribers || got.Unchanged == 0 {
		t.Errorf("got %d requests, %d full, %d unchanged; want at least %d, %d, 1", got.Requests, got.Full, got.Unchanged, least, subscribers)
	}
	if more > heapMore {
		t.Errorf("the heap grew by %d bytes, want at most %d", more, heapMore)
	}
	if *load > 0 && got.P99 > answerMost {
		t.Errorf("99 of 100 answers within %v, want within %v", got.P99, answerMost)
	}
	if strings.Contains(s.said.String(), "/f/") {
		t.Errorf("it said an address: %s", s.said)
	}
}

// heap is what is in use after everything else is given back.
func heap() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

const pollAsked = "RIPEBY_TEST_POLL"

// pollFrom has another process poll.
func pollFrom(t *testing.T, how time.Duration, paths []string) polled {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^TestPoller$", "-test.timeout="+(how+2*time.Minute).String())
	cmd.Env = append(os.Environ(), pollAsked+"="+how.String()+" "+strings.Join(paths, " "))
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("the subscribers: %v\n%s", err, out)
	}
	var got polled
	_, line, _ := bytes.Cut(out, []byte("polled "))
	if err := json.NewDecoder(bytes.NewReader(line)).Decode(&got); err != nil {
		t.Fatalf("the subscribers: %v\n%s", err, out)
	}
	return got
}

// TestPoller is the other process: it polls and prints what it saw.
func TestPoller(t *testing.T) {
	asked := strings.Fields(os.Getenv(pollAsked))
	if len(asked) < 2 {
		t.Skip("this is the other process of TestLoad")
	}
	how, err := time.ParseDuration(asked[0])
	if err != nil {
		t.Fatal(err)
	}
	var (
		all   polled
		took  []time.Duration
		mu    sync.Mutex
		group sync.WaitGroup
		end   = time.Now().Add(how)
	)
	client := &http.Client{Timeout: 10 * time.Second, Transport: &http.Transport{MaxIdleConnsPerHost: subscribers}}
	for i := range subscribers {
		group.Go(func() {
			time.Sleep(pollEvery * time.Duration(i) / subscribers) // phones do not all ask at once
			tag := ""
			for time.Now().Before(end) {
				begun := time.Now()
				next, full, err := pollOnce(client, asked[1+i%(len(asked)-1)], tag)
				d := time.Since(begun)
				mu.Lock()
				all.Requests++
				took = append(took, d)
				switch {
				case err != nil:
					all.Errors = append(all.Errors, err.Error())
				case full:
					all.Full++
				default:
					all.Unchanged++
				}
				mu.Unlock()
				tag = next
				time.Sleep(pollEvery - d)
			}
		})
	}
	group.Wait()
	slices.Sort(took)
	all.P50, all.P99, all.Longest = took[len(took)/2], took[len(took)*99/100], took[len(took)-1]
	text, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	fmt.Printf("polled %s\n", text)
}

// pollOnce asks as a phone does. A full answer must be whole: its tag is made from
// its bytes.
func pollOnce(client *http.Client, path, tag string) (next string, full bool, err error) {
	r, err := http.NewRequest("GET", path, nil)
	if err != nil {
		return tag, false, err
	}
	if tag != "" {
		r.Header.Set("If-None-Match", tag)
	}
	answer, err := client.Do(r)
	if err != nil {
		return tag, false, err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		return tag, false, err
	}
	got := answer.Header.Get("ETag")
	switch {
	case answer.StatusCode == http.StatusNotModified && got == tag && len(body) == 0:
		return tag, false, nil
	case answer.StatusCode == http.StatusOK && got == edition.TagOf(body) && bytes.HasSuffix(body, []byte("END:VCALENDAR\r\n")):
		return got, true, nil
	}
	return tag, false, fmt.Errorf("status %d, tag %s, %d bytes", answer.StatusCode, got, len(body))
}
