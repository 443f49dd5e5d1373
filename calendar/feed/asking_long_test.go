//go:build long

package feed

import (
	"context"
	"fmt"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"ripeby/resources"
	"ripeby/schedule/testrun"
)

// asksInBrowser serves a plan on loopback to who writes and asks, and gives Nell's address.
func asksInBrowser(t *testing.T) (s *stand, o *oracle, address string) {
	t.Helper()
	made := pageMade(t)
	made.Problem.Kitchen.Boxes = []resources.Box{{Name: "ripening box"}}
	s, o = asksStood(t, made, pageNow)
	web := httptest.NewServer(s)
	t.Cleanup(func() { gone(web) })
	s.site.Root = web.URL
	return s, o, web.URL + s.writes(t, "Nell").Path()
}

// fill fills in the form that asks whether more can be promised, and sends it.
func fill(t *testing.T, ctx context.Context, pieces string) {
	t.Helper()
	tell[int](t, ctx, fmt.Sprintf(`(f => { f.elements.pieces.value = %q; f.elements["by-day"].value = "2027-03-27"; f.elements["by-time"].value = "07:00";
		f.elements.name.value = "Lane café"; f.querySelector("button").click() })(document.querySelector("form:has(input[value=fits])")), 0`, pieces))
}

// The pages on which something is asked and answered, on a phone, a tablet and a desk, light and dark:
// nothing stands out, what is touched is large, and axe-core finds nothing.
func TestAskingPagesInABrowser(t *testing.T) {
	ctx := browser(t)
	s, o, address := asksInBrowser(t)
	axe, err := os.ReadFile(os.Getenv(axeFile))
	if err != nil {
		testrun.Without(t, "axe-core is not asked: "+axeFile+" does not name its axe.min.js")
	}
	nell := s.writes(t, "Nell")
	page := s.ask("GET", nell.Path()+"ask").Body.String()
	asks := func(verb string, fields ...string) string {
		s.clock.move(11e9) // so many questions in a minute
		at := header(s.send(nell.Path()+"ask/say", filled(askForm(page, verb), fields...).Encode()), "Location")
		for range 500 { // so few wait for their turn
			if o.held() || !strings.Contains(s.ask("GET", at).Body.String(), "data-soon") {
				break
			}
			time.Sleep(10 * time.Millisecond)
		}
		return strings.TrimPrefix(at, nell.Path())
	}
	parts := map[string]string{"ask": "ask"}
	parts["fits"] = asks("fits", tenByDay...)
	parts["not"] = asks("fits", append(tenByDay, "pieces=30")...)
	parts["why"] = asks("why")
	parts["freer"] = asks("freer")
	parts["refused"] = asks("fits", append(tenByDay, "cheese=Blue")...)
	promised := asks("fits", append(tenByDay, "name=Lane café")...)
	s.send(nell.Path()+"ask/say", askForm(s.until(t, nell.Path()+promised, "Promise it"), "promise").Encode())
	parts["promised"], parts["gone"] = promised, "ask/1-1"
	for _, part := range parts {
		s.until(t, nell.Path()+part, "</footer>")
	}
	o.mu.Lock()
	o.wait = make(chan struct{})
	o.mu.Unlock()
	defer close(o.wait)
	parts["working"] = asks("fits", append(tenByDay, "pieces=11")...)
	s.until(t, nell.Path()+parts["working"], "Being worked out")
	parts["now"] = ""
	for name, part := range parts {
		for _, width := range []int64{320, 360, 768, 1280} {
			for _, scheme := range []string{"light", "dark"} {
				name := fmt.Sprintf("asking-%s-%d-%s", name, width, scheme)
				see(t, ctx, width, scheme, "screen")
				do(t, ctx, chromedp.Navigate(address+part))
				shoot(t, ctx, name)
				if wide := tell[string](t, ctx, fmt.Sprintf(overflowing, width)); wide != "" {
					t.Errorf("%s: %s", name, wide)
				}
				if low := tell[string](t, ctx, strings.Replace(small, `"a, summary"`, `"a, summary, button, main select, main input:not([type=hidden])"`, 1)); low != "" {
					t.Errorf("%s: lower than 44 px: %s", name, low)
				}
				if axe != nil {
					askAxe(t, ctx, name, string(axe))
				}
			}
		}
		see(t, ctx, 1000, "light", "print")
		if shown := tell[string](t, ctx, strings.Replace(onScreenOnly, ".jump", ".jump, button, main input, main select", 1)); shown != "" {
			t.Errorf("%s on paper shows what only a screen can use: %q", name, shown)
		}
	}
}

// From the question to the promise: how far it is comes by itself and is read out, the answer too; promised
// it says so, and two quick taps write once. What somebody chooses meanwhile elsewhere stays.
func TestAskingInABrowser(t *testing.T) {
	ctx := browser(t)
	s, o, address := asksInBrowser(t)
	o.wait = make(chan struct{})
	see(t, ctx, 360, "light", "screen")
	do(t, ctx, chromedp.Navigate(address+"ask"))
	fill(t, ctx, "10")
	becomes(t, ctx, `Boolean(document.getElementById("told")?.textContent.startsWith("Being worked out: trying change 1 of 2"))`)
	if role := tell[string](t, ctx, `document.getElementById("told").getAttribute("role")`); role != "status" {
		t.Errorf("how far it is has the role %q, want it read out politely", role)
	}
	close(o.wait)
	becomes(t, ctx, `document.getElementById("main").textContent.includes("fit if 1 task moves")`)
	becomes(t, ctx, `document.getElementById("told").textContent === "Answered"`)
	const tap = `document.querySelector("form:has(input[value=promise]) button").click()`
	tell[int](t, ctx, tap+`, `+tap+`, 0`)
	becomes(t, ctx, `Boolean(document.getElementById("main")?.textContent.includes("Promised."))`)
	if _, wrote := o.count(); wrote != 1 {
		t.Errorf("got %d promises of two taps, want 1", wrote)
	}
	do(t, ctx, chromedp.Navigate(address+"ask"))
	tell[int](t, ctx, `document.querySelector("select[name=with]").selectedIndex = 1, 0`)
	changed := pageMade(t)
	changed.Plan.Targets[0].Target, changed.Print = "Another market", "changed"
	s.kitchen.change(func(k *kitchenAt) { k.kept = changed })
	tell[bool](t, ctx, `dispatchEvent(new Event("online"))`)
	do(t, ctx, chromedp.Sleep(300e6))
	if at := tell[int](t, ctx, `document.querySelector("select[name=with]").selectedIndex`); at != 1 {
		t.Errorf("got choice %d after the page came up to date, want what was chosen", at)
	}
}

// Without a script: the question's page is looked at again by a link, and stopped by a button.
func TestStoppingWithoutAScript(t *testing.T) {
	ctx := browser(t)
	_, o, address := asksInBrowser(t)
	o.wait = make(chan struct{})
	if _, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	do(t, ctx, chromedp.Navigate(address+"ask"))
	fill(t, ctx, "10")
	const says = `Boolean(document.getElementById("main")?.textContent.includes(%q))`
	// taps waits for the page that a tap leads to.
	taps := func(what string) {
		tell[int](t, ctx, `window.before = true, `+what+`.click(), 0`)
		becomes(t, ctx, `!window.before && document.readyState === "complete"`)
	}
	// looks looks again until the page says something.
	looks := func(text string) {
		for range 20 {
			if tell[bool](t, ctx, fmt.Sprintf(says, text)) {
				return
			}
			taps(`[...document.querySelectorAll(".jump a")].find(a => a.textContent === "Look again")`)
		}
		t.Fatalf("the page never says %q", text)
	}
	button := func(verb string) string {
		return `document.querySelector("form:has(input[value=` + verb + `]) button")`
	}
	becomes(t, ctx, fmt.Sprintf(says, "Look again")+` && document.readyState === "complete"`)
	taps(`[...document.querySelectorAll(".jump a")].find(a => a.textContent === "Look again")`)
	looks("Being worked out: trying change 1 of 2")
	taps(button("stop"))
	looks("Stopped, without an answer")
	close(o.wait)
	tell[int](t, ctx, `window.before = true, 0`)
	fill(t, ctx, "10")
	becomes(t, ctx, `!window.before && document.readyState === "complete"`)
	looks("Promise it")
	taps(button("promise"))
	looks("Promised.")
	if _, wrote := o.count(); wrote != 1 {
		t.Errorf("got %d promises, want 1", wrote)
	}
}
