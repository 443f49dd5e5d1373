// Package dav serves each person's hands-on work as tasks to calendar programs that tick them: CalDAV (RFC
// 4791) with sync (RFC 6578), laid over WebDAV (RFC 4918). What is ticked is said in the words of
// calendar/said and handed on, as what is tapped on the page is; the package knows neither the record nor
// the planner, nor the page.
//
// # What a program may do
//
//	OPTIONS, PROPFIND   find the tasks, from /dav/ or /.well-known/caldav on
//	REPORT              ask for them: by a filter, by name, or what has changed since
//	GET                 fetch one
//	PUT                 tick one, or take that back
//
// All else is refused, or put back so that the program fetches what the plan has: another title, another
// time, a new task, one removed. A tick writes did, with the moment that the program has; to take it back
// strikes that, for whoever said it and as long as it is the last word. A tick that is sent again is
// written once: its word is that of the page's form (said.About). Properties are not kept (names, colours):
// each is refused by itself, for some programs give up where the request is.
//
// # Who is let in
//
// The password is the token of somebody's writing address, which is theirs alone; the user's name is not
// looked at. It is taken by https or on this machine only (door.go); over anything else it is never asked
// for. A person sees their own collection, and of others not even that they are there.
//
// # What is there
//
// One collection a person, for tasks alone: their work of the plan that has not begun, what is on or still
// to be answered, and what was said to be done of late. A member's name is a hash, never a name of the
// kitchen's. The text of a task is that of its event (calendar/ical); it has a time zone of its own.
//
// # What programs have seen
//
// Each state of a collection has a number, each member that of the state in which it last changed, kept
// beside the plan in tasks.json for its owner alone: so a program goes on after a restart from where it
// was, and is told too of what has gone. How far back is bounded (journal.go); a token from before that, or from another
// copy of the file, is refused, and the program fetches all. A member that was put back gets another tag
// though its text is the same.
//
// # What the library does
//
// emersion/go-ical reads what is sent, emersion/go-webdav has the shapes of filters and the rules of a
// calendar object. Its server is not what answers: it has no sync, refuses PROPPATCH as a whole, answers
// every PUT with 201, has no place for further properties, writes texts anew in longer lines than may be, and matches
// tasks by no time at all (filter.go says what else). Its client is one of those that the tests go by;
// .ci/tick-tasks.py has three others tick at a real server.
//
// Not answered: times of alarms, the header If, locks, that a property is to come without its value (novalue).
//
// Reading order: desk.go (who is asked), handler.go (from request to answer), door.go, paths.go, shelf.go
// (which tasks there are), journal.go (what programs have seen), props.go and propfind.go (what things
// are), report.go, filter.go and part.go (questions), ticked.go and put.go (what is ticked), element.go and
// answer.go (XML).
package dav
