package dav

import (
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/emersion/go-ical"
	"github.com/emersion/go-webdav"
	"github.com/emersion/go-webdav/caldav"

	"ripeby/schedule"
)

// A client that nobody here wrote finds, lists, asks, ticks and takes back over real HTTP.
func TestTheLibrarysClient(t *testing.T) {
	d := stood(t)
	server := httptest.NewServer(d.Handler)
	defer server.Close()
	as := webdav.HTTPClientWithBasicAuth(&http.Client{Timeout: 10 * time.Second}, "Nell", nell.Token)
	client, err := caldav.NewClient(as, server.URL+Root)
	if err != nil {
		t.Fatal(err)
	}
	principal, err := client.FindCurrentUserPrincipal(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	home, err := client.FindCalendarHomeSet(t.Context(), principal)
	if err != nil {
		t.Fatal(err)
	}
	found, err := client.FindCalendars(t.Context(), home)
	if err != nil || len(found) != 1 || len(found[0].SupportedComponentSet) != 1 || found[0].SupportedComponentSet[0] != ical.CompToDo || found[0].MaxResourceSize != mostBody {
		t.Fatalf("got %+v, %v; want one collection for tasks", found, err)
	}
	whole := caldav.CalendarCompRequest{Name: ical.CompCalendar, AllProps: true, AllComps: true}
	ask := func() []caldav.CalendarObject {
		t.Helper()
		all, err := client.QueryCalendar(t.Context(), found[0].Path, &caldav.CalendarQuery{CompRequest: whole,
			CompFilter: caldav.CompFilter{Name: ical.CompCalendar, Comps: []caldav.CompFilter{{Name: ical.CompToDo}}}})
		if err != nil {
			t.Fatal(err)
		}
		return all
	}
	all := ask()
	if len(all) != 3 {
		t.Fatalf("got %d tasks, want 3", len(all))
	}
	one := all[0]
	var paths []string
	for _, o := range all {
		paths = append(paths, o.Path)
	}
	if got, err := client.MultiGetCalendar(t.Context(), found[0].Path, &caldav.CalendarMultiGet{Paths: paths, CompRequest: whole}); err != nil || len(got) != 3 {
		t.Errorf("all by name: got %d, %v", len(got), err)
	}
	task := taskOf(one.Data)
	task.Props.SetText(ical.PropStatus, "COMPLETED")
	if put, err := client.PutCalendarObject(t.Context(), one.Path, one.Data); err != nil || put.ETag != "" {
		t.Fatalf("ticked: got %+v, %v", put, err)
	}
	done := 0
	var ticked caldav.CalendarObject
	for _, o := range ask() {
		if valueOf(taskOf(o.Data), ical.PropStatus) == completed {
			done++
			ticked = o
		}
	}
	if done != 1 || ticked.Path != one.Path || ticked.ETag == one.ETag || len(d.kitchen.heard) != 1 {
		t.Fatalf("got %d done and %v said, want one", done, d.kitchen.heard)
	}
	task = taskOf(ticked.Data)
	task.Props.SetText(ical.PropStatus, "NEEDS-ACTION")
	task.Props.Del(completed)
	if _, err := client.PutCalendarObject(t.Context(), one.Path, ticked.Data); err != nil || len(d.kitchen.heard) != 2 {
		t.Fatalf("taken back: got %v, %v said", err, d.kitchen.heard)
	}
	d.kitchen.change(func(p *schedule.Plan) { p.Batches = p.Batches[1:] })
	left := ask()
	if len(left) != 2 {
		t.Fatalf("after a batch was dropped: got %d tasks, want 2", len(left))
	}
	for _, path := range paths {
		there := path == left[0].Path || path == left[1].Path
		if _, err := client.GetCalendarObject(t.Context(), path); (err == nil) != there {
			t.Errorf("got %v of a task, want it there: %v", err, there)
		}
	}
	if err := client.RemoveAll(t.Context(), left[0].Path); err == nil {
		t.Error("a task was removed")
	}
}
