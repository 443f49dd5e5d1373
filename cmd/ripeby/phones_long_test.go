//go:build long

package main

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"ripeby/resources"
	"ripeby/schedule/testrun"
)

// How the network between a phone and the server is: as it should be, cut, such that what is asked comes
// through and its answer does not, or such that only what is said comes through for now.
const (
	networkThere = iota
	networkCut
	networkOneWay
	networkNarrow
)

// onNetwork is a server behind a network.
type onNetwork struct {
	http.Handler
	is atomic.Int32
}

func (n *onNetwork) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	switch n.is.Load() {
	case networkOneWay:
		n.Handler.ServeHTTP(httptest.NewRecorder(), r)
		panic(http.ErrAbortHandler)
	case networkCut:
		panic(http.ErrAbortHandler)
	case networkNarrow:
		for r.Method != http.MethodPost && n.is.Load() == networkNarrow && r.Context().Err() == nil {
			time.Sleep(5 * time.Millisecond)
		}
	}
	n.Handler.ServeHTTP(w, r)
}

// phone is somebody's browser, whose clock is as many minutes ahead as the kitchen's was moved.
type phone struct {
	t   *testing.T
	ctx context.Context
	net *onNetwork
}

// phones are browsers that share nothing, each with the page of one person.
func (k *servedPage) phones(people ...string) (all []*phone) {
	t := k.t
	t.Helper()
	program := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			program = found
			break
		}
	}
	if program == "" {
		testrun.Missing(t, "there is no chromium, chromium-browser or google-chrome here")
		return nil
	}
	for _, who := range people {
		ctx, stop := chromedp.NewExecAllocator(t.Context(), append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox,
			chromedp.Flag("disable-dev-shm-usage", true))...)
		t.Cleanup(stop)
		ctx, stop = chromedp.NewContext(ctx)
		t.Cleanup(stop)
		ctx, stop = context.WithTimeout(ctx, 2*time.Minute)
		t.Cleanup(stop)
		p := &phone{t: t, ctx: ctx, net: &onNetwork{Handler: k.server}}
		web := httptest.NewServer(p.net)
		t.Cleanup(func() { web.CloseClientConnections(); web.Close() })
		p.do(chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch), chromedp.Navigate(web.URL+k.at(who)))
		p.becomes(`navigator.serviceWorker.ready.then(() => caches.match(location.href)).then(Boolean)`)
		all = append(all, p)
	}
	return all
}

func (p *phone) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.t.Fatal(err)
	}
}

// becomes waits until something holds on a phone.
func (p *phone) becomes(holds string) {
	p.t.Helper()
	for range 200 {
		is, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool]("Promise.resolve("+holds+").then(Boolean)", chromedp.EvalAwaitPromise))
		if err != nil {
			p.t.Fatal(err)
		}
		if is {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	text, _ := chromedp.Run(p.ctx, chromedp.Evaluate[string](`document.body.innerText`))
	p.t.Fatalf("it never came to this: %s\n%s", holds, text)
}

// taps says something of a stage, with what is filled in.
func (p *phone) taps(stage, button string, filled ...string) {
	p.t.Helper()
	fill := ""
	for i := 0; i+1 < len(filled); i += 2 {
		fill += fmt.Sprintf("f.elements[%q].value = %q; ", filled[i], filled[i+1])
	}
	p.becomes(fmt.Sprintf(`((f) => { if (!f) return false; %s f.querySelector("button[value=%s]").click(); return true })(
		[...document.querySelectorAll("main form.say")].find((f) => f.elements.stage?.value === %q && f.querySelector("button[value=%s]:not(:disabled)")))`, fill, button, stage, button))
}

// waits wants so many things to wait on a phone.
func (p *phone) waits(n int) {
	p.t.Helper()
	if n == 0 {
		p.becomes(`document.getElementById("waiting").hidden`)
		return
	}
	p.becomes(fmt.Sprintf(`document.querySelector("#waiting summary")?.textContent.startsWith("%d wait")`, n))
}

var (
	saidWord = regexp.MustCompile(`, once: "[^"]*"`)
	saidWhen = regexp.MustCompile(`, written: "[^"]*"`)
)

// A day told from two phones at once, with the network cut in the middle: what was tapped without it is in
// the record once, in the order in which each tapped it and with the moment at which they did, though an
// answer was lost and the pages were closed; and the plan is as if all of it had been typed.
func TestDayToldFromTwoPhones(t *testing.T) {
	k := servedKitchen(t)
	k.now = time.Date(2027, 3, 4, 15, 30, 0, 0, time.UTC)
	both := k.phones("Nell", "Ivo")
	if both == nil {
		return
	}
	nell, ivo := both[0], both[1]
	later := func(minutes int) { // for the kitchen and on both phones
		k.pass(time.Duration(minutes) * time.Minute)
		for _, p := range both {
			p.becomes(fmt.Sprintf(`Date.now = ((now) => () => now() + %d)(Date.now), true`, minutes*60_000))
		}
	}
	cutAll := func(how int32) {
		for _, p := range both {
			p.net.is.Store(how)
		}
	}
	nell.taps("make", "note", "note", "a soft curd")
	ivo.becomes(`document.body.textContent.includes("a soft curd")`) // he sees it
	cutAll(networkCut)
	nell.taps("make", "did")
	nell.waits(1)
	ivo.taps("make", "note", "note", "the room is cold")
	ivo.waits(1)
	later(20)
	nell.taps("pack", "pieces", "pieces", "9")
	nell.taps("pack", "note", "note", "one broke")
	nell.waits(3)
	ivo.taps("pack", "measured", "measured", "pH 4.5")
	ivo.waits(2)
	later(25)
	nell.net.is.Store(networkOneWay) // her first word is written, and she does not hear of it
	nell.becomes(`dispatchEvent(new Event("online"))`)
	k.lineOf(`did: "make"`)
	later(10)
	cutAll(networkThere)
	for _, p := range both {
		p.becomes(`dispatchEvent(new Event("online"))`)
		p.waits(0)
	}
	var of = map[string][]string{}
	for _, line := range k.lines() {
		line = saidWhen.ReplaceAllString(saidWord.ReplaceAllString(line, ""), "")
		who := "Ivo"
		if strings.Contains(line, `who: "Nell"`) {
			who = "Nell"
		}
		of[who] = append(of[who], line[strings.Index(line, "at: "):])
	}
	want := map[string][]string{
		"Nell": {`at: "2027-03-04 15:30", who: "Nell", batch: "QC-270304-1", note: "a soft curd"}`, `at: "2027-03-04 15:30", who: "Nell", batch: "QC-270304-1", did: "make"}`,
			`at: "2027-03-04 15:50", who: "Nell", batch: "QC-270304-1", pieces: 9}`, `at: "2027-03-04 15:50", who: "Nell", batch: "QC-270304-1", note: "one broke"}`},
		"Ivo": {`at: "2027-03-04 15:30", who: "Ivo", batch: "QC-270304-1", note: "the room is cold"}`, `at: "2027-03-04 15:50", who: "Ivo", batch: "QC-270304-1", measured: [{what: "pH", is: "4.5"}]}`},
	}
	for who, lines := range want {
		if got := strings.Join(of[who], "\n"); got != strings.Join(lines, "\n") {
			t.Errorf("%s: got the record\n%s\nwant\n%s", who, got, strings.Join(lines, "\n"))
		}
	}
	k.asIfTyped(map[string][]string{
		"a soft curd": {"note", "a soft curd", "--batch", "QC-270304-1", "--at", "2027-03-04 15:30", "--who", "Nell"}, "did:": {"did", "QC-270304-1", "make", "--at", "2027-03-04 15:30", "--who", "Nell"},
		"pieces:": {"pieces", "QC-270304-1", "9", "--at", "2027-03-04 15:50", "--who", "Nell"}, "one broke": {"note", "one broke", "--batch", "QC-270304-1", "--at", "2027-03-04 15:50", "--who", "Nell"},
		"is cold": {"note", "the room is cold", "--batch", "QC-270304-1", "--at", "2027-03-04 15:30", "--who", "Ivo"}, "measured:": {"measured", "QC-270304-1", "pH 4.5", "--at", "2027-03-04 15:50", "--who", "Ivo"}})
}

// What is tapped while the page is still being brought up to date after the last tap goes at once.
func TestSecondTapDoesNotWaitForThePage(t *testing.T) {
	k := servedKitchen(t)
	k.now = time.Date(2027, 3, 4, 15, 30, 0, 0, time.UTC)
	one := k.phones("Nell")
	if one == nil {
		return
	}
	nell := one[0]
	nell.net.is.Store(networkNarrow)
	nell.taps("make", "note", "note", "a soft curd")
	k.lineOf("a soft curd")
	nell.taps("make", "note", "note", "one more ladle")
	k.lineOf("one more ladle")
	nell.net.is.Store(networkThere)
	nell.waits(0)
	nell.becomes(`document.body.textContent.includes("one more ladle")`)
}

// lineOf waits for a line of the record.
func (k *servedPage) lineOf(text string) {
	k.t.Helper()
	for range 200 {
		if strings.Contains(strings.Join(k.lines(), "\n"), text) {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	k.t.Fatalf("got the record\n%s\nwant a line with %s", strings.Join(k.lines(), "\n"), text)
}

// asIfTyped plans the kitchen, and another of which the same was typed in the same order, and wants the same
// plan. words are what is typed for a line of the record, by what that line holds.
func (k *servedPage) asIfTyped(words map[string][]string) {
	k.t.Helper()
	other := filepath.Join(k.t.TempDir(), "typed")
	if err := os.CopyFS(other, os.DirFS(k.folder)); err != nil {
		k.t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(other, "record", "2027-03.yaml")); err != nil {
		k.t.Fatal(err)
	}
	for _, line := range k.lines() {
		for holds, w := range words {
			if !strings.Contains(line, holds) {
				continue
			}
			if got := runWith(k.t.Context(), func(p *program) { p.now = k.clock }, append([]string{"record", "-C", other}, w...)...); got.code != exitMet {
				k.t.Fatal(got.err)
			}
		}
	}
	var plans []string
	for _, folder := range []string{k.folder, other} {
		from := resources.MomentOf(k.now).In(time.UTC).Format("2006-01-02 15:04")
		if got := runWith(k.t.Context(), nil, "plan", "-C", folder, "--from", from); got.code != exitMet && got.code != exitShort {
			k.t.Fatal(got.code, got.err)
		}
		text, err := os.ReadFile(filepath.Join(folder, "plan", "plan.json"))
		if err != nil {
			k.t.Fatal(err)
		}
		plans = append(plans, string(text))
	}
	if plans[0] != plans[1] {
		k.t.Errorf("got the plan\n%s\nwant, as of what was typed,\n%s", plans[0], plans[1])
	}
}
