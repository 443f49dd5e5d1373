package feed

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"ripeby/calendar/said"
	"ripeby/resources"
)

const (
	tapping  = 50              // people who say something
	tapEvery = 2 * time.Second // each of them, as often as anybody may
)

// Fifty people say something every second while two hundred subscribers poll: each word is heard once,
// nobody who polls sees an error, and in a trial (-load 30s) 99 of 100 of their answers take at most
// twice as long as without, and what a busy machine's scheduler takes besides.
func TestLoadWhilePeopleTap(t *testing.T) {
	lasting := *load / 2
	if lasting == 0 {
		lasting = time.Second
	}
	s, taken := spoken(t)
	made := sampleMade(t, 60)
	for i := range tapping {
		made.Problem.Kitchen.People = append(made.Problem.Kitchen.People, resources.Person{Name: fmt.Sprint("helper ", i)})
	}
	s.show(made)
	began := time.Now()
	s.opt.Now = func() time.Time { return sampleNow.Add(time.Since(began)) }
	var mu sync.Mutex
	heard := map[string]int{}
	s.kitchen.change(func(k *kitchenAt) {
		k.say = func(x said.Saying) (said.Heard, error) {
			mu.Lock()
			defer mu.Unlock()
			heard[x.Once]++
			return said.Heard{Nr: len(heard)}, nil
		}
	})
	addr, _ := listenedTo(t, s)
	var paths []string
	for _, a := range s.board.Load().book.Addresses {
		if a.Kind.IsCalendar() {
			paths = append(paths, "http://"+addr+a.Path())
		}
	}
	without := pollFrom(t, lasting, paths)
	stop := make(chan bool)
	var people sync.WaitGroup
	var sent sync.Map
	client := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
		Transport: &http.Transport{MaxIdleConnsPerHost: tapping}}
	for i := range tapping {
		people.Go(func() {
			at := s.writes(t, fmt.Sprint("helper ", i))
			time.Sleep(tapEvery * time.Duration(i) / tapping)
			for n := 0; ; n++ {
				about := said.About{Batch: "BH-1", Stage: "make", After: i*1_000_000 + n}
				form := url.Values{"say": {"did"}, "batch": {about.Batch}, "stage": {about.Stage}, "after": {strconv.Itoa(about.After)}, "key": {about.Key(at)}}
				answer, err := client.Post("http://"+addr+at.Path()+"say", "application/x-www-form-urlencoded", strings.NewReader(form.Encode()))
				if err != nil || answer.StatusCode != http.StatusSeeOther {
					t.Errorf("a tap: got %v, %v", answer, err)
					return
				}
				answer.Body.Close()
				sent.Store(about.Key(at)+"-did", true)
				select {
				case <-stop:
					return
				case <-time.After(tapEvery + tapEvery/20):
				}
			}
		})
	}
	with := pollFrom(t, lasting, paths)
	close(stop)
	people.Wait()
	words := 0
	sent.Range(func(once, _ any) bool {
		if words++; heard[once.(string)] != 1 {
			t.Errorf("a word was heard %d times, want once", heard[once.(string)])
		}
		return true
	})
	t.Logf("%d words of %d people; half of the polls within %v, 99 of 100 within %v; without the people %v, %v", words, tapping, with.P50, with.P99, without.P50, without.P99)
	if len(with.Errors)+len(without.Errors)+len(*taken) > 0 || words < tapping/2 {
		t.Errorf("got %d words, %v, %v", words, with.Errors, without.Errors)
	}
	if most := max(2*without.P99, answerMost); *load > 0 && with.P99 > most {
		t.Errorf("99 of 100 answers within %v while people tap, want within %v", with.P99, most)
	}
}
