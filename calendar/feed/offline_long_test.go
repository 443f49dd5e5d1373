//go:build long

package feed

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"ripeby/calendar/said"
)

// How the network between a phone and the server is.
const (
	online  = iota // as it should be
	away           // nothing comes through
	answers        // what is asked comes through, and its answer does not
)

// cut is a server behind a network that may be cut. A browser's own "offline" does not reach a service
// worker, so it is cut where the server is.
type cut struct {
	http.Handler
	network atomic.Int32
}

func (c *cut) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	switch c.network.Load() {
	case answers:
		c.Handler.ServeHTTP(httptest.NewRecorder(), r)
		fallthrough
	case away:
		panic(http.ErrAbortHandler)
	}
	c.Handler.ServeHTTP(w, r)
}

// cutInBrowser is a kitchen that Nell writes to over a network that may be cut.
func cutInBrowser(t *testing.T) (ctx context.Context, s *stand, l *listening, c *cut, address string) {
	t.Helper()
	ctx = browser(t)
	s, l, _ = writingInBrowser(t)
	c = &cut{Handler: s}
	web := httptest.NewServer(c)
	t.Cleanup(func() { gone(web) })
	return ctx, s, l, c, web.URL + s.writes(t, "Nell").Path()
}

const again = `dispatchEvent(new Event("online")), 0`

// queued runs a script with a queue of its own, q, and log, what was posted.
const queued = `(async () => {
	const { Queue } = await import("/assets/queue.js");
	const q = new Queue("test " + Math.random()), log = [];
	const say = (of) => q.keep({ of });
	const waits = async () => (await q.all()).map((i) => i.of + (i.refused === undefined ? "" : "!")).join(" ");
`

// The queue by itself: in order, once each; at the first that cannot be sent it stops and that one stays the
// first; what is refused is kept and does not hold up the rest; what is said meanwhile is sent after; two
// runs are one; another address has a queue of its own; and it is on the disk.
func TestQueueInABrowser(t *testing.T) {
	ctx, _, _, _, address := cutInBrowser(t)
	do(t, ctx, chromedp.Navigate(address))
	for name, x := range map[string]struct{ script, want string }{
		"in order": {`for (const of of ["a", "b", "c"]) await say(of);
			const ended = await q.send(async (i) => { log.push(i.of); return "written"; });
			return ended + ": " + log.join(" ") + "; " + await waits();`, "done: a b c; "},
		"it stops at the first that has no answer": {`for (const of of ["a", "b", "c"]) await say(of);
			const ended = await q.send(async (i) => { log.push(i.of); if (i.of === "b") throw new Error("no network"); return "written"; });
			const then = await waits();
			await q.send(async (i) => { log.push(i.of); return "written"; });
			return ended + ": " + then + "; " + log.join(" ") + "; " + await waits();`, "away: b c; a b b c; "},
		"later": {`await say("a"); await say("b");
			return await q.send(async (i) => { log.push(i.of); return "later"; }) + ": " + log.join(" ") + "; " + await waits();`, "later: a; a b"},
		"somebody else's answer": {`await say("a");
			return await q.send(async () => null) + ": " + await waits();`, "later: a"},
		"refused": {`await say("a"); await say("b");
			await q.send(async (i) => i.of === "a" ? { refused: "no" } : "written");
			const kept = (await q.all())[0].refused;
			await q.send(async (i) => { log.push(i.of); return "written"; });
			return kept + ": " + await waits() + "; " + log.join(" ");`, "no: a!; "},
		"said meanwhile": {`await say("a");
			await q.send(async (i) => { log.push(i.of); if (i.of === "a") await say("b"); return "written"; });
			return log.join(" ") + "; " + await waits();`, "a b; "},
		"two runs": {`await say("a"); await say("b");
			const post = async (i) => { log.push(i.of); await new Promise((r) => setTimeout(r, 20)); return "written"; };
			const other = new Queue(q.address);
			await Promise.all([q.send(post), q.send(post), other.send(post)]);
			return log.join(" ") + "; " + await waits();`, "a b; "},
		"dropped": {`const id = await say("a"); await say("b"); await q.drop(id);
			await q.send(async (i) => { log.push(i.of); return "written"; });
			return log.join(" ");`, "b"},
		"another address": {`await say("a"); const other = new Queue("other");
			return (await other.all()).length + ": " + await waits();`, "0: a"},
		"on the disk": {`await say("a"); return (await new Queue(q.address).all()).map((i) => i.of).join(" ");`, "a"},
	} {
		if got := tell[string](t, ctx, queued+x.script+"})()"); got != x.want {
			t.Errorf("%s: got %q, want %q", name, got, x.want)
		}
	}
}

// Without network a tap waits on the phone, is shown as waiting, and is sent when the network is back: in
// order, once, and with how long ago it was made, though the page was closed meanwhile.
func TestTapsWaitForTheNetwork(t *testing.T) {
	ctx, _, l, c, address := cutInBrowser(t)
	see(t, ctx, 360, "light", "screen")
	do(t, ctx, chromedp.Navigate(address))
	tell[bool](t, ctx, `navigator.serviceWorker.ready.then(() => true)`)
	becomes(t, ctx, `caches.keys().then((k) => k.length > 0 && caches.match(location.href).then(Boolean))`)
	c.network.Store(away)
	tell[int](t, ctx, `document.querySelector(".present button[value=did]").click(), 0`)
	becomes(t, ctx, `document.querySelector("#waiting summary")?.textContent === "1 waits to be sent"`)
	becomes(t, ctx, `document.querySelector("#offline").textContent.includes("No connection")`)
	if said := tell[string](t, ctx, `document.querySelector(".present .kept")?.textContent ?? ""`); !strings.HasPrefix(said, "Kept on this phone at ") {
		t.Errorf("the job says %q, want that it waits", said)
	}
	if open := tell[bool](t, ctx, `document.querySelector(".present > .say button[value=did]").disabled === false`); open {
		t.Error("it may be tapped once more")
	}
	tell[int](t, ctx, `(f => { f.elements.note.value = "it hums"; f.querySelector("button[value=note]").click() })(document.querySelector(".present .more form")), 0`)
	becomes(t, ctx, `document.querySelector("#waiting summary")?.textContent === "2 wait to be sent"`)
	shoot(t, ctx, "waiting-360")
	tell[int](t, ctx, `document.querySelector("#waiting details").open = true, 0`)
	if low := tell[string](t, ctx, strings.Replace(small, `"a, summary"`, `"#waiting summary, #waiting button"`, 1)); low != "" {
		t.Errorf("lower than 44 px: %s", low)
	}
	shoot(t, ctx, "waiting-open-360")
	do(t, ctx, chromedp.Navigate("about:blank"), chromedp.Navigate(address)) // closed and opened again, without network
	becomes(t, ctx, `document.querySelector("#waiting summary")?.textContent === "2 wait to be sent"`)
	if n := len(l.all()); n != 0 {
		t.Fatalf("got %d words without a network", n)
	}
	// The first try's answer is lost on its way: it is sent again, and its word is the same.
	c.network.Store(answers)
	tell[int](t, ctx, again)
	eventually(t, "the first word to come through", func() bool { return len(l.all()) > 0 })
	c.network.Store(online)
	tell[int](t, ctx, again)
	becomes(t, ctx, `document.querySelector("#waiting").hidden && document.body.textContent.includes("(done 08:20, Nell)")`)
	all := l.all()
	all = slices.CompactFunc(all, func(a, b said.Saying) bool { return a.Once == b.Once })
	if len(all) != 2 || all[0].Verb != "did" || all[1].Verb != "note" || all[1].Words[0] != "it hums" || all[0].At != "" {
		t.Errorf("got %+v, want it done and then the note", all)
	}
}

// How long something waited is told by the phone's own clock at both ends, however wrong that is.
func TestTapsTellHowLongTheyWaited(t *testing.T) {
	ctx, _, l, c, address := cutInBrowser(t)
	do(t, ctx, chromedp.Navigate(address))
	c.network.Store(away)
	tell[int](t, ctx, `Date.now = ((now) => () => now() - 86_400_000)(Date.now), document.querySelector(".present button[value=did]").click(), 0`)
	becomes(t, ctx, `Boolean(document.querySelector("#waiting summary"))`)
	tell[int](t, ctx, `Date.now = ((now) => () => now() + 3_000_000)(Date.now), 0`) // 50 minutes later
	c.network.Store(online)
	tell[int](t, ctx, again)
	eventually(t, "the word to come through", func() bool { return len(l.all()) > 0 })
	if ago := l.all()[0].Ago; ago < 50 || ago > 51 {
		t.Errorf("got %d minutes ago, want 50", ago)
	}
}

// What the server refuses when the network is back is shown with why, and stays through closing the page
// until somebody has left it or put it right.
func TestRefusedTapsAreShown(t *testing.T) {
	ctx, s, l, c, address := cutInBrowser(t)
	see(t, ctx, 320, "light", "screen")
	do(t, ctx, chromedp.Navigate(address))
	c.network.Store(away)
	tell[int](t, ctx, `document.querySelector(".present button[value=did]").click(), 0`)
	becomes(t, ctx, `Boolean(document.querySelector("#waiting summary"))`)
	s.kitchen.change(func(k *kitchenAt) {
		k.say = func(said.Saying) (said.Heard, error) {
			return said.Heard{}, &said.Refusal{Said: true, Lines: []string{"It was said already: Ivo at 08:10"}}
		}
	})
	c.network.Store(online)
	tell[int](t, ctx, again)
	const shown = `document.querySelector("#waiting .refused")?.textContent.includes("It was said already: Ivo at 08:10") ?? false`
	becomes(t, ctx, shown)
	shoot(t, ctx, "refused-320")
	do(t, ctx, chromedp.Navigate(address))
	becomes(t, ctx, shown)
	tell[int](t, ctx, `[...document.querySelectorAll("#waiting button")].find((b) => b.textContent.startsWith("Leave it")).click(), 0`)
	becomes(t, ctx, `document.querySelector("#waiting").hidden`)
	do(t, ctx, chromedp.Navigate(address))
	if left := tell[bool](t, ctx, `new Promise((r) => setTimeout(() => r(!document.querySelector("#waiting").hidden), 300))`); left || len(l.all()) != 0 {
		t.Error("what was left is shown again, or was written")
	}
}

// After an address was taken back the phone shows what it kept and could not send, and has nothing else of the
// page any more.
func TestWaitingTapsOfAnAddressTakenBack(t *testing.T) {
	ctx, s, l, c, address := cutInBrowser(t)
	do(t, ctx, chromedp.Navigate(address))
	tell[bool](t, ctx, `navigator.serviceWorker.ready.then(() => true)`)
	c.network.Store(away)
	tell[int](t, ctx, `document.querySelector(".present button[value=did]").click(), 0`)
	becomes(t, ctx, `Boolean(document.querySelector("#waiting summary"))`)
	book, _ := s.board.Load().book.Renew("Nell")
	book, _ = book.Complete([]string{"Nell", "Ivo"})
	s.watch.redraw(book, s.board.Load().made)
	c.network.Store(online)
	tell[int](t, ctx, again)
	becomes(t, ctx, `document.querySelector("#waiting .refused")?.textContent.includes("taken back") ?? false`)
	becomes(t, ctx, `document.getElementById("offline").textContent.includes("taken back")`)
	becomes(t, ctx, `caches.match(location.href).then((kept) => !kept)`)
	if n := len(l.all()); n != 0 {
		t.Errorf("got %d words at an address that was taken back", n)
	}
}

// A server that has to do with something else, or cannot write just now, gets it later; somebody else's
// answer, such as that of a network that wants a password first, counts as none.
func TestTapsThatAreNotTakenNow(t *testing.T) {
	ctx, s, l, _, _ := cutInBrowser(t)
	var portal atomic.Bool
	web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if portal.Load() && r.Method == http.MethodPost {
			http.Redirect(w, r, "/pay", http.StatusSeeOther)
			return
		}
		s.ServeHTTP(w, r)
	}))
	t.Cleanup(func() { gone(web) })
	var busy atomic.Bool
	busy.Store(true)
	s.kitchen.change(func(k *kitchenAt) {
		say := k.say
		k.say = func(x said.Saying) (said.Heard, error) {
			if busy.Load() {
				return said.Heard{}, errors.New("the disk is full")
			}
			return say(x)
		}
	})
	do(t, ctx, chromedp.Navigate(web.URL+s.writes(t, "Nell").Path()))
	tell[int](t, ctx, `document.querySelector(".present button[value=did]").click(), 0`)
	const waits = `document.querySelector("#waiting summary")?.textContent === "1 waits to be sent"`
	becomes(t, ctx, waits)
	busy.Store(false)
	portal.Store(true)
	tell[int](t, ctx, again)
	becomes(t, ctx, waits)
	portal.Store(false)
	tell[int](t, ctx, again)
	becomes(t, ctx, `document.querySelector("#waiting").hidden`)
	if n := len(l.all()); n != 1 {
		t.Errorf("got %d words, want 1", n)
	}
}

// Without network all of the coming week is there, though nobody looked at it: sheets, cold places and their
// maps; and a plan that changes is kept anew.
func TestComingWeekIsKept(t *testing.T) {
	ctx, s, _, c, address := cutInBrowser(t)
	do(t, ctx, chromedp.Navigate(address))
	kept := `caches.match(new URL("` + keepAt + `", location.origin + document.body.dataset.root)).then((a) => a?.text() ?? "")`
	becomes(t, ctx, kept+`.then((t) => t.includes("BH-270316-1"))`)
	changed := pageMade(t)
	changed.Plan.Batches[1].Stages[1].Stage, changed.Print = "wrap", "changed"
	s.show(changed)
	becomes(t, ctx, kept+`.then((t) => t.includes("\"changed\""))`)
	c.network.Store(away)
	for path, want := range map[string]string{"batch/BH-270316-1": "wrap", "cold/2027-03-18": "Cold", "week": "The week", "status": "How the plan stands"} {
		do(t, ctx, chromedp.Navigate(address+path))
		if text := tell[string](t, ctx, `document.body.innerText`); !strings.Contains(text, want) || !strings.Contains(text, "No connection") {
			t.Errorf("without network %s shows %q, want %q", path, text, want)
		}
		if broken := tell[int](t, ctx, `[...document.images].filter((i) => i.complete && i.naturalWidth === 0).length`); broken > 0 {
			t.Errorf("without network %s lacks %d pictures", path, broken)
		}
	}
}

// The page can be put on a phone's first screen: what it says of itself is what a browser takes.
func TestManifestInABrowser(t *testing.T) {
	ctx, _, _, _, address := cutInBrowser(t)
	do(t, ctx, chromedp.Navigate(address))
	says := tell[string](t, ctx, `fetch(document.querySelector("link[rel=manifest]").href).then((a) => a.json()).then(async (m) => {
		const icons = await Promise.all(m.icons.map(async (i) => (await createImageBitmap(await (await fetch(i.src)).blob()).catch(() => ({ width: "any" }))).width));
		return [m.start_url === location.pathname, m.scope === location.pathname, m.display, m.short_name, icons.join(" ")].join("; ");
	})`)
	if !strings.HasPrefix(says, "true; true; standalone; Nell, ") || !strings.HasSuffix(says, "; 192 512 512 any") {
		t.Errorf("the manifest says %q", says)
	}
}

// Each button has a name of its own for who does not see where it stands, and says what it is about.
func TestButtonsHaveNames(t *testing.T) {
	ctx, _, _, _, address := cutInBrowser(t)
	for _, path := range []string{"", "tell"} {
		do(t, ctx, chromedp.Navigate(address+path))
		names := tell[string](t, ctx, `[...document.querySelectorAll("main button")].map((b) => b.textContent.trim() + "|" + (b.closest("section, .answer")?.getAttribute("aria-labelledby") ?? "")).join("\n")`)
		seen := map[string]bool{}
		for _, name := range strings.Split(names, "\n") {
			if seen[name] || !strings.Contains(name, ": ") {
				t.Errorf("%q: the button %q is there twice, or does not say what it is about", path, name)
			}
			seen[name] = true
		}
		if len(seen) < 4 {
			t.Errorf("%q has %d buttons: nothing is tested", path, len(seen))
		}
	}
}

// With a slow network a tap is shown as waiting until it is written, and the page that there is stays to be used.
func TestSlowNetwork(t *testing.T) {
	ctx, s, l, _, _ := cutInBrowser(t)
	var slow atomic.Bool
	web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if slow.Load() {
			time.Sleep(1500 * time.Millisecond)
		}
		s.ServeHTTP(w, r)
	}))
	t.Cleanup(func() { gone(web) })
	do(t, ctx, chromedp.Navigate(web.URL+s.writes(t, "Nell").Path()))
	slow.Store(true)
	tell[int](t, ctx, `document.querySelector(".present button[value=did]").click(), 0`)
	becomes(t, ctx, `document.querySelector("#waiting summary")?.textContent === "1 waits to be sent"`)
	tell[int](t, ctx, `(f => { f.elements.note.value = "it hums"; f.querySelector("button[value=note]").click() })(document.querySelector(".present .more form")), 0`)
	becomes(t, ctx, `document.querySelector("#waiting").hidden && document.body.textContent.includes("(done 08:20, Nell)")`)
	if all := l.all(); len(all) != 2 || all[0].Verb != "did" || all[1].Verb != "note" || all[0].Ago != 0 {
		t.Errorf("got %+v, want it done and then the note", all)
	}
}
