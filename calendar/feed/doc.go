// Package feed serves a kitchen's plan to phones, calendars to subscribe to and a page, and hands on
// what is said on the page. It watches the kitchen through a small interface, has the plan made again
// when something changed, and has words written down; it knows neither the planner nor the folder's
// files.
//
// # Flow
//
//	kitchen (folder, planner)  --watch.go-->  board  --handlers-->  phones
//
// One goroutine watches; it alone makes a new [board] and puts it in place of the
// old one, whole. Handlers only read the board that is there, so nobody ever sees
// half a plan, and readers never wait for the planner. Only what was said is put on it by whoever
// heard it (server.go).
//
// # Addresses
//
// Each calendar, and the page, has an address of its own that holds 130 random
// bits and is all that is needed to read it. Addresses are kept beside the plan in
// a file for its owner alone (calendar/address). One that was taken back answers 410, which
// switches a calendar off for good in some clients; an unknown one 404.
//
//	/f/TOKEN.ics         a calendar
//	/s/KEY/batch/ID      the sheet of a batch that a calendar names, and nothing else of it
//	/p/TOKEN/            the page, and what is below it
//	/w/TOKEN/            the same for one person who may write there
//	/w/TOKEN/say         what its forms are sent to (POST)
//	/w/TOKEN/ask/ID      a question and its answer; /w/TOKEN/ask where one is asked
//	/w/TOKEN/ask/say     what is asked is sent to (POST)
//	/p|w/TOKEN/live      tells a page that is looked at of changes
//	/dav/…               tasks for calendar programs, and /.well-known/caldav (calendar/dav)
//	/t/TOKEN             what a place's thermometer posts to (calendar/thermometer); nothing is read there
//	/p|w/TOKEN/keep.json says which pages a phone keeps, and manifest.webmanifest what the page is to it
//	/assets/NAME         what the page is drawn with
//	/trust               how a phone trusts the authority of the server's https (calendar/trust)
//	/health  /version  /robots.txt
//
// # What is said on the page
//
// Each person has an address of their own to write at, apart from those to read at: nothing that is
// subscribed to holds it. A form is sealed with that address and with how much had been said when it
// was drawn (calendar/said); its seal is the word that goes into the record with the entry. So what is
// tapped twice, sent again after a lost answer, or sent from the page that one went back to is written
// once, and what another site sends is not written at all. The kitchen writes it down as ripeby record
// does, and the answer leads back to the page (303). The board has what was said at once, before a plan
// is made of it, by whoever it was said and wherever.
//
// # What is asked on the page
//
// A question is put to a desk (calendar/ask) that works on one at a time, apart from requests: the answer to
// its form leads to a page of the question (303), which is drawn for each request and looks again every two
// seconds with a script, and by a link without. Nothing on a page that is read at makes the machine work.
//
// # What clients do with an answer
//
// An empty 200 and a 404 wipe the tasks from a phone, a 500 stops some until they
// are restarted. So the last good bytes are served when a calendar cannot be made,
// each calendar has a strong ETag over its bytes, and a Last-Modified that is kept
// beside the plan and moves even when a task is only gone (calendar/edition).
//
// # The page
//
// Weeks, jobs, sheets and cold places come from calendar/week and calendar/cold as
// plain values, made of the same rows and notes as their tables; templates (assets)
// decide nothing. Drawings are images at addresses of their own (calendar/drawings), because they carry a
// style sheet, which the page's policy stops: the answer with a drawing lets its style
// sheet in by its digest. Everything works without a script. With one, the page is told of changes while it is
// looked at (live.go), and asks for itself every 30 seconds besides. A service worker, below the page's address so that it speaks for nothing
// else, keeps the coming week (offline.go says which pages), gives what it kept when the server is out of reach, and
// marks it as old. What is said waits on the phone until the server has it (assets/queue.js): it is kept before it is
// sent, sent in order, and let go when the server's own answer says that it is written; what is refused is shown.
// What is drawn is kept for the minute that it shows (calendar/served): a page of the demo or of 29
// batches takes 0.1 to 3.9 ms to draw, and 0.1 ms where it is kept (200 requests each).
//
// Reading order: kitchen.go (what is watched), board.go,
// watch.go, fault.go, then server.go (from request to answer), guard.go (what is refused),
// subscription.go, route.go (the page's parts) with view.go, today.go and warned.go
// (what they are drawn from), page.go and draw.go (templates, files), forms.go,
// tell.go and writing.go (what is said), asking.go (what is asked), tasks.go (what calendar programs and
// thermometers ask with goes on to calendar/dav and calendar/thermometer), offline.go (what a phone keeps), live.go (pages are told of changes),
// and limits.go.
package feed
