//go:build long

package feed

import (
	"fmt"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"ripeby/calendar/said"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/testrun"
)

// listening is a kitchen that takes down what is said, and tells of it.
type listening struct {
	mu    sync.Mutex
	taken []said.Saying
	told  said.Told
}

func (l *listening) all() []said.Saying {
	l.mu.Lock()
	defer l.mu.Unlock()
	return append([]said.Saying(nil), l.taken...)
}

// writingInBrowser serves a plan on loopback to who writes, and gives Nell's address.
func writingInBrowser(t *testing.T) (s *stand, l *listening, address string) {
	t.Helper()
	made := pageMade(t)
	made.Plan.Batches[1].Stages[0].Measures = []schedule.Measure{ // of the make that is on
		{What: "curd temperature", Stage: "make", From: resources.Reading{Num: 25, Den: 1, Unit: resources.Celsius}, To: resources.Reading{Num: 27, Den: 1, Unit: resources.Celsius}, Else: "warm it slowly"},
		{What: "smell of the whey", Stage: "make"}}
	s, l = pageStood(t, made), &listening{}
	at := resources.MomentOf(pageNow)
	l.told = said.Told{Last: 3, Lately: []said.Word{{Nr: 3, At: at.Add(-60), Who: "Nell", Text: "round, did", Last: true}},
		Answer: []said.Question{{Batch: "BH-270310-1", Cheese: "Bramble hoop", Stage: "make", Start: at.Add(-900), Ends: at.Add(-840), Who: "Nell"}}}
	s.kitchen.change(func(k *kitchenAt) {
		told := l.told
		k.told = &told
		k.say = func(x said.Saying) (said.Heard, error) {
			l.mu.Lock()
			defer l.mu.Unlock()
			l.taken = append(l.taken, x)
			next := *k.told
			next.Last++
			if x.Verb == "did" {
				next.Lately = append(next.Lately, said.Word{Nr: next.Last, At: at, Who: x.Who, Text: "did", Batch: x.Words[0], Did: x.Words[1], Last: true})
			}
			k.told = &next
			return said.Heard{Nr: next.Last}, nil
		}
	})
	s.hear()
	web := httptest.NewServer(s)
	t.Cleanup(func() { gone(web) })
	return s, l, web.URL + s.writes(t, "Nell").Path()
}

// The page to write at and the one for somebody alone, on a phone, a tablet and a desk, light and dark:
// what is on begins within 150 px where a phone is 360 wide, what is to be touched is large, nothing
// stands out, and axe-core finds nothing.
func TestWritingInABrowser(t *testing.T) {
	ctx := browser(t)
	s, _, address := writingInBrowser(t)
	axe, err := os.ReadFile(os.Getenv(axeFile))
	if err != nil {
		testrun.Without(t, "axe-core is not asked: "+axeFile+" does not name its axe.min.js")
	}
	read := strings.Replace(address, s.writes(t, "Nell").Path(), s.address(t, "page").Path(), 1)
	besideTasks(s)
	for name, at := range map[string]string{"write": address, "tell": address + "tell", "for": read + "for/Nell", "read": read, "tasks": address + "calendars"} {
		for _, width := range []int64{320, 360, 768, 1280} {
			for _, scheme := range []string{"light", "dark"} {
				name := fmt.Sprintf("%s-%d-%s", name, width, scheme)
				see(t, ctx, width, scheme, "screen")
				do(t, ctx, chromedp.Navigate(at))
				if strings.HasPrefix(name, "t") {
					// no job is on there
				} else if top := tell[float64](t, ctx, `document.querySelector(".job h4").getBoundingClientRect().top`); width == 360 && !strings.HasPrefix(name, "read") && top > 150 {
					t.Errorf("%s: what is on begins at %.0f px, want it within 150", name, top)
				}
				shoot(t, ctx, name)
				tell[int](t, ctx, `document.querySelectorAll("details").forEach(d => { d.open = true }), 0`)
				if wide := tell[string](t, ctx, fmt.Sprintf(overflowing, width)); wide != "" {
					t.Errorf("%s: %s", name, wide)
				}
				if low := tell[string](t, ctx, strings.Replace(small, `"a, summary"`, `"a, summary, button, main input:not([type=hidden]), main select"`, 1)); low != "" {
					t.Errorf("%s: lower than 44 px: %s", name, low)
				}
				if axe != nil {
					askAxe(t, ctx, name, string(axe))
				}
			}
		}
	}
	see(t, ctx, 1000, "light", "print")
	do(t, ctx, chromedp.Navigate(address))
	if shown := tell[string](t, ctx, strings.Replace(onScreenOnly, ".jump", ".jump, .line, button, input", 1)); shown != "" {
		t.Errorf("paper shows what only a screen can use: %q", shown)
	}
}

// A tap says it, and the page says that it is said; two quick ones send one word, as does the page
// that one goes back to.
func TestTappingInABrowser(t *testing.T) {
	ctx := browser(t)
	_, l, address := writingInBrowser(t)
	see(t, ctx, 360, "light", "screen")
	do(t, ctx, chromedp.Navigate(address))
	const tap = `document.querySelector(".present button[value=did]").click()`
	tell[int](t, ctx, tap+`, `+tap+`, 0`)
	becomes(t, ctx, `Boolean(document.body?.textContent.includes("(done 08:20, Nell)"))`)
	once := map[string]bool{}
	for _, x := range l.all() {
		once[x.Once] = true
		if x.Verb != "did" || x.Words[0] != "BH-270316-1" || x.Words[1] != "make" || x.Who != "Nell" {
			t.Errorf("got %+v", x)
		}
	}
	do(t, ctx, chromedp.Navigate(address+"week"))
	tell[int](t, ctx, `history.back(), 0`)
	becomes(t, ctx, `document.readyState === "complete" && Boolean(document.querySelector(".job"))`)
	if again := tell[bool](t, ctx, `Boolean(document.querySelector(".present button[value=did]"))`); again {
		tell[int](t, ctx, tap+`, 0`)
		time.Sleep(300 * time.Millisecond)
	}
	for _, x := range l.all() {
		once[x.Once] = true
	}
	if len(once) != 1 {
		t.Errorf("got %d words for one job: %v", len(once), once)
	}
}

// What somebody is typing stays while the page comes up to date, and is sent with the button.
func TestTypingInABrowser(t *testing.T) {
	ctx := browser(t)
	s, l, address := writingInBrowser(t)
	do(t, ctx, chromedp.Navigate(address))
	tell[int](t, ctx, `document.querySelector(".present .more").open = true, document.querySelector(".present .more input[name=pieces]").focus(), 0`)
	do(t, ctx, chromedp.KeyEvent("1"), chromedp.KeyEvent("4"))
	changed := pageMade(t)
	changed.Plan.Batches[0].Stages[1].Stage, changed.Print = "wrap", "changed"
	s.show(changed)
	tell[bool](t, ctx, `dispatchEvent(new Event("online"))`)
	tell[int](t, ctx, `document.activeElement.blur(), 0`)
	tell[bool](t, ctx, `dispatchEvent(new Event("online"))`)
	time.Sleep(500 * time.Millisecond)
	if typed := tell[string](t, ctx, `document.querySelector(".present .more input[name=pieces]").value`); typed != "14" {
		t.Errorf("got %q left of what was typed, want 14", typed)
	}
	tell[int](t, ctx, `document.querySelector(".present .more button[value=did]").click(), 0`)
	becomes(t, ctx, `Boolean(document.body?.textContent.includes("(done 08:20, Nell)"))`)
	if all := l.all(); len(all) != 1 || all[0].Options["pieces"] != "14" {
		t.Errorf("got %+v, want it done with 14 pieces", all)
	}
}

// Without a script the page says it all the same.
func TestTappingWithoutAScript(t *testing.T) {
	ctx := browser(t)
	_, l, address := writingInBrowser(t)
	if _, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	do(t, ctx, chromedp.Navigate(address))
	tell[int](t, ctx, `document.querySelector(".present button[value=did]").click(), 0`) // as a finger would
	for range 100 {
		if len(l.all()) > 0 {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	if all := l.all(); len(all) != 1 || all[0].Verb != "did" {
		t.Errorf("got %+v, want it done", all)
	}
}

// What one says the other sees within two seconds, where they were, and what they were typing is left
// as it is.
func TestOtherSeesInABrowser(t *testing.T) {
	nells := browser(t)
	s, _, address := writingInBrowser(t)
	ivos, stop := chromedp.NewContext(nells)
	t.Cleanup(stop)
	do(t, ivos, chromedp.Navigate(strings.Replace(address, s.writes(t, "Nell").Path(), s.writes(t, "Ivo").Path(), 1)))
	eventually(t, "Ivo's page listens", func() bool { return s.listeners.Count() > 0 })
	tell[int](t, ivos, `document.querySelector(".more").open = true, document.querySelector("summary").focus(), 0`)
	do(t, nells, chromedp.Navigate(address))
	began := time.Now()
	tell[int](t, nells, `document.querySelector(".present button[value=did]").click(), 0`)
	becomes(t, ivos, `Boolean(document.body?.textContent.includes("(done 08:20, Nell)"))`)
	if took := time.Since(began); took > 2*time.Second {
		t.Errorf("Ivo saw it after %v, want within 2 s", took)
	}
	if !tell[bool](t, ivos, `document.querySelector(".more").open && document.activeElement.tagName === "SUMMARY"`) {
		t.Error("what Ivo had unfolded is folded again, or he is elsewhere")
	}
}

// What is unfolded stays so at its own job, though others come before it, and folds with the job; an
// answer to what was refused stays until it is read, with what was typed.
func TestUnfoldedInABrowser(t *testing.T) {
	ctx := browser(t)
	s, l, address := writingInBrowser(t)
	do(t, ctx, chromedp.Navigate(address))
	tell[int](t, ctx, `[...document.querySelectorAll(".more")].find(d => d.textContent.includes("ripen")).open = true, 0`)
	changed := pageMade(t)
	changed.Plan.Batches = append(changed.Plan.Batches[:1:1], append([]schedule.Batch{changed.Plan.Batches[1]}, changed.Plan.Batches[1])...)
	changed.Plan.Batches[1].ID, changed.Print = "BH-270316-0", "changed"
	changed.Plan.Batches[1].Stages = slices.Clone(changed.Plan.Batches[1].Stages)
	changed.Plan.Batches[1].Stages[1].Start -= 60
	s.show(changed)
	tell[bool](t, ctx, `dispatchEvent(new Event("online"))`)
	becomes(t, ctx, `document.body.textContent.includes("BH-270316-0")`)
	open := tell[string](t, ctx, `[...document.querySelectorAll(".more[open] .of")].map(e => e.textContent).join("; ")`)
	if open != "ripen Bramble hoop, BH-270316-1" {
		t.Errorf("got %q unfolded, want what was", open)
	}
	s.kitchen.change(func(k *kitchenAt) {
		k.say = func(said.Saying) (said.Heard, error) {
			return said.Heard{}, &said.Refusal{Lines: []string{"twelve is no number"}}
		}
	})
	tell[int](t, ctx, `(f => { f.elements.pieces.value = "twelve"; f.elements.note.value = "precious words"; f.querySelector("button[value=did]").click() })(document.querySelector(".more[open] form")), 0`)
	becomes(t, ctx, `Boolean(document.body?.textContent.includes("twelve is no number"))`)
	s.show(pageMade(t))
	time.Sleep(time.Second)
	if typed := tell[string](t, ctx, `[...document.querySelectorAll("#waiting input:not([type=hidden])")].map(i => i.value).join(", ")`); typed != "precious words, twelve" {
		t.Errorf("got %q kept of what was typed", typed)
	}
	if n := len(l.all()); n != 0 {
		t.Errorf("got %d words, want none", n)
	}
}
