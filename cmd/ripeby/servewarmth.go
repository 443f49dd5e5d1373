package main

import (
	"errors"
	"os"
	"slices"
	"sync"
	"time"

	"ripeby/calendar/address"
	"ripeby/calendar/feed"
	"ripeby/calendar/spreadsheet"
	"ripeby/calendar/thermometer"
	"ripeby/calendar/warmth"
	kept "ripeby/config/readings"
	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/readings"
	"ripeby/schedule/record"
)

// warmthOf is what thermometers read in a kitchen; nil of the demo, which has none.
func warmthOf(k kitchen) warmth.Source {
	if k.demo {
		return nil
	}
	return &warm{folder: k.folder}
}

// serveThermometers listens to thermometers at a server.
func serveThermometers(s *feed.Server, k kitchen, p *program) {
	if k.demo {
		return
	}
	desk := &thermometers{s, kept.NewKeeper(recordfile.InFolder(k.folder, kept.Folder))}
	s.Thermometers(thermometer.New(desk, thermometer.Options{Now: p.now, Say: p.say}))
}

// thermometers is where a server hands readings to.
type thermometers struct {
	server *feed.Server
	keeper *kept.Keeper
}

// Book has the addresses that there are.
func (t *thermometers) Book() *address.Book { return t.server.Book() }

// Keep writes a reading into the folder readings, by the time zone of the kitchen that is shown.
func (t *thermometers) Keep(place string, at resources.Moment, is resources.MilliCelsius) error {
	problem, _, _ := t.server.Shown()
	if problem == nil {
		return thermometer.ErrLater
	}
	_, err := t.keeper.Keep(kept.Line{At: at, Place: spreadsheet.Cell(place), Is: is}, problem.Kitchen.Zone)
	if errors.Is(err, recordfile.ErrBusy) {
		return thermometer.ErrLater
	}
	return err
}

// warm is what is known of how warm it was in a kitchen folder. What was read for a span is kept for the other
// places and pages of that span.
type warm struct {
	folder string

	mu   sync.Mutex
	last []*warmSpan // the newest first
}

// mostSpans is how many are kept.
const mostSpans = 2

// warmSpan is what is known of one span.
type warmSpan struct {
	span   resources.Span
	zone   string
	read   map[string][]readings.Reading // by the cell of a place
	book   *record.Book
	faults []string
}

// Course is what is known of a place over a span of time, and what of it cannot be read.
func (w *warm) Course(place string, span resources.Span, zone *time.Location) (readings.Course, []string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	at := slices.IndexFunc(w.last, func(s *warmSpan) bool { return s.span == span && s.zone == zone.String() })
	if at < 0 {
		w.last, at = append([]*warmSpan{w.read(span, zone)}, w.last[:min(len(w.last), mostSpans-1)]...), 0
	}
	s := w.last[at]
	all := s.read[place]
	if cell := spreadsheet.Cell(place); cell != place {
		all = slices.Concat(all, s.read[cell])
	}
	return readings.Of(span, all, readings.Told(s.book, place)), s.faults
}

// read reads the months of a span, and no other.
func (w *warm) read(span resources.Span, zone *time.Location) *warmSpan {
	s := &warmSpan{span: span, zone: zone.String(), read: map[string][]readings.Reading{}}
	done, err := recordfile.SharedIn(w.folder, kept.Folder)
	if err != nil {
		done = func() {} // somebody has written for seconds: a line that is half there counts for nothing
	}
	lines, faults := kept.Read(os.DirFS(w.folder), zone, span)
	done()
	for _, l := range lines {
		s.read[l.Place] = append(s.read[l.Place], readings.Reading{At: l.At, Is: l.Is})
	}
	for _, f := range faults {
		s.faults = append(s.faults, f.Error())
	}
	s.book, err = recordSince(w.folder, span.From.DateIn(zone), zone)
	if err != nil {
		s.faults = append(s.faults, "what people measured cannot be read: "+err.Error())
	}
	return s
}

// recordSince is the record of the months from a day's on, which hold all that was said of that day and later.
func recordSince(folder string, day resources.Date, zone *time.Location) (*record.Book, error) {
	done, err := recordfile.Shared(folder)
	if err != nil {
		return record.NewBook(nil), err
	}
	defer done()
	disk := recordfile.OnDisk(folder)
	names, err := disk.Names()
	var entries []record.Entry
	for _, name := range recordfile.InOrder(names) {
		if !recordfile.OfMonth(name) || name[:7] < day.String()[:7] {
			continue
		}
		text, bad := disk.Read(name, recordfile.MaxBytes)
		if err = errors.Join(err, bad); bad == nil {
			entries = append(entries, recordfile.Read(recordfile.Below(name), text, zone).Entries...)
		}
	}
	return record.NewBook(entries), err
}
