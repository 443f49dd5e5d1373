package feed

import (
	"strings"
	"testing"

	"ripeby/calendar/list"
	"ripeby/resources"
)

// The list of a target leads to the delivery note for a business, which prints with a style of its own and
// leads back; what is not known leads nowhere.
func TestDeliveryNoteOnThePage(t *testing.T) {
	made := pageMade(t)
	made.Problem.Kitchen.Businesses = []resources.Business{{Name: "Shop \"<b>\"", Address: "2 Quay Row"}, {Name: "unread"}}
	s := pageStood(t, made)
	root := s.address(t, "page").Path()
	at := list.Coming(made.Problem, made.Plan, nil, made.Problem.From.DateIn(made.Problem.Kitchen.Zone))[0].Key
	to := list.Receivers(&made.Problem.Kitchen, list.Target{})
	note := root + "note/" + at + "/" + to[0].Key
	for _, c := range []struct {
		path   string
		status int
		want   string
	}{
		{root + "list/" + at, 200, `<a href="` + note + `">Delivery note for <bdi>Shop &#34;&lt;b&gt;&#34;</bdi></a>`},
		{note, 200, "<dt>To</dt><dd><bdi>Shop &#34;&lt;b&gt;&#34;</bdi><br><bdi>2 Quay Row</bdi>"},
		{note, 200, `<a href="` + root + "list/" + at + `">Back to the list</a>`},
		{root + "note/" + at + "/" + to[1].Key, 200, "There is nothing to print yet: the record cannot be read just now."},
		{root + "note/" + at, 404, "Not in the plan"}, {root + "note", 404, "Not in the plan"}, {note + "/x", 404, "Not in the plan"}, {root + "note/x/" + to[0].Key, 404, "Not in the plan"},
	} {
		w := s.ask("GET", c.path)
		if w.Code != c.status || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s: got %d, want %d and %s in\n%s", c.path, w.Code, c.status, c.want, w.Body)
		}
	}
	if got := header(s.ask("GET", note), "Content-Security-Policy"); !strings.Contains(got, "default-src 'none'; style-src 'sha256-") || strings.Contains(got, "unsafe") {
		t.Errorf("got policy %s", got)
	}
}
