package ical

import (
	"bytes"
	"maps"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"

	"ripeby/schedule"
)

// todosOf are somebody's tasks of the sample plan, as State has them.
func todosOf(t *testing.T, plan *schedule.Plan, person string, state TodoState) []Todo {
	t.Helper()
	all, err := Todos(kitchenIn(t, "Europe/Dublin"), plan, TodoOptions{Person: person, State: func(*schedule.Batch, int) TodoState { return state }})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// A task says what the event of the same work says, under a UID of its own, and keeps the rules of files; one
// that is done says so in three ways (RFC 5545, 3.8.1.11, 3.8.1.8, 3.8.2.1) and calls nobody.
func TestTodosSayWhatEventsSay(t *testing.T) {
	plan := samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30"))
	events := map[string]readEvent{} // of each one's own calendar, where no title says whose work it is
	for _, person := range []string{"Nell", "Ivo"} {
		maps.Copy(events, eventsSeen(t, made(t, kitchenIn(t, "Europe/Dublin"), plan, Options{Person: person}), bySystem))
	}
	n := 0
	for _, b := range plan.Batches {
		for _, s := range b.Stages {
			if s.Work == 0 {
				continue
			}
			n++
			at := s.Start.Add(7)
			for _, state := range []TodoState{{Shown: true}, {Shown: true, Done: true, At: at}} {
				var todo *Todo
				for _, one := range todosOf(t, plan, s.Who, state) {
					if one.Batch == b.ID && one.Stage == s.Stage {
						todo = &one
					}
				}
				if todo == nil {
					t.Fatalf("%s of %s is no task", s.Stage, b.ID)
				}
				obeysBytes(t, todo.Text)
				cal, err := ical.NewDecoder(bytes.NewReader(todo.Text)).Decode()
				if err != nil {
					t.Fatal(err)
				}
				var task *ical.Component
				for _, c := range cal.Children {
					if c.Name == ical.CompToDo {
						task = c
					}
				}
				event := events[uidOf("work", b.ID, s.Stage)]
				summary, _ := task.Props.Text("SUMMARY")
				place, _ := task.Props.Text("LOCATION")
				start, _ := task.Props.DateTime("DTSTART", time.UTC)
				due, _ := task.Props.DateTime("DUE", time.UTC)
				if summary != event.summary || place != event.location || !start.Equal(s.Start.In(time.UTC)) || !due.Equal(s.Start.Add(s.Work).In(time.UTC)) {
					t.Errorf("got %s at %s, %v to %v; want what the event says", summary, place, start, due)
				}
				if uid := task.Props.Get("UID").Value; uid != todo.UID || uid == uidOf("work", b.ID, s.Stage) {
					t.Errorf("got the UID %s, want one of its own", uid)
				}
				text := string(todo.Text)
				if done := strings.Contains(text, "STATUS:COMPLETED\r\nPERCENT-COMPLETE:100\r\nCOMPLETED:"+at.In(time.UTC).Format(utcTime)); done != state.Done {
					t.Errorf("got done %v, want %v:\n%s", done, state.Done, text)
				}
				if calls := strings.Contains(text, "BEGIN:VALARM"); calls != (!state.Done && !s.Begun) {
					t.Errorf("got an alarm %v of what is done %v", calls, state.Done)
				}
				if strings.Contains(text, "TRANSP") || strings.Contains(text, "DTEND") || strings.Contains(text, "METHOD") {
					t.Errorf("what is of events alone stands in\n%s", text)
				}
			}
		}
	}
	if n == 0 {
		t.Fatal("the sample has no work")
	}
	if all := todosOf(t, plan, "Nobody", TodoState{Shown: true}); len(all) != 0 {
		t.Errorf("somebody without work: got %d tasks", len(all))
	}
	if all := todosOf(t, plan, plan.Batches[0].Stages[0].Who, TodoState{}); len(all) != 0 {
		t.Errorf("what is not shown: got %d tasks", len(all))
	}
}

// Names that have broken calendars break no task.
func TestTodosWithNastyNames(t *testing.T) {
	for _, c := range nastyNames {
		plan := named(samplePlan("Europe/Dublin", momentAt(t, "2027-03-16 07:30")), c.in)
		for _, todo := range todosOf(t, plan, c.in, TodoState{Shown: true}) {
			obeysBytes(t, todo.Text)
			if n := strings.Count(string(todo.Text), "\r\nEND:VTODO"); n != 1 {
				t.Errorf("%s: got %d tasks in one", c.name, n)
			}
		}
	}
}
