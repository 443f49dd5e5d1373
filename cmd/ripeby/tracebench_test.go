package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

// BenchmarkTraceFolder reads a folder with a year and with five years of records, 2,000 and 10,000 entries
// and 300 and 1,500 batches that were kept, and traces a lot, and all milk of a supply.
func BenchmarkTraceFolder(b *testing.B) {
	for _, years := range []int{1, 5} {
		folder := yearsOfRecords(b, years)
		for _, word := range []string{"C-7", "Hill Farm cow"} {
			b.Run(fmt.Sprintf("%d years, %s", years, word), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if got := runWith(b.Context(), nil, "trace", "-C", folder, word); got.code != exitMet {
						b.Fatal(got.err)
					}
				}
			})
		}
	}
}

// yearsOfRecords makes a kitchen folder with so many years of records.
func yearsOfRecords(b *testing.B, years int) string {
	folder := b.TempDir()
	write := func(name, text string) {
		path := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	write("kitchen.yaml", "kitchen: {name: Dairy, timezone: Europe/Dublin}\npeople: [{name: Nell, hours: [\"daily 06:00-22:00\"]}]\npots: [{name: pot, holds: 10 L}]\n")
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		b.Fatal(err)
	}
	months := map[string]*strings.Builder{}
	nr := 0
	for i := range years * 300 {
		at := time.Date(2027, 1, 1, 9, 0, 0, 0, time.UTC).AddDate(0, 0, i*365/300)
		id := fmt.Sprintf("C-%d", i)
		start := resources.MomentOf(at)
		kept := schedule.KeptBatch{Kitchen: "Dairy", TimeZone: "Europe/Dublin", ID: id, Lot: id, Cheese: "Quick curd", Litres: 8000, Pieces: 16,
			Stages: []schedule.KeptStage{{Stage: "make", Begun: true, Start: start, Work: 30, Who: "Nell", Ends: start.Add(360), Hold: 330, At: "room", Planned: start},
				{Stage: "pack", Begun: true, Start: start.Add(360), Work: 10, Who: "Nell", Ends: start.Add(370), At: "room", Planned: start.Add(360)}}}
		text, err := planfile.EncodeBatch(&kept, zone)
		if err != nil {
			b.Fatal(err)
		}
		write("record/batches/"+id+".json", string(text))
		month := at.Format("2006-01")
		if months[month] == nil {
			months[month] = &strings.Builder{}
		}
		say := func(more string) {
			nr++
			fmt.Fprintf(months[month], "- {nr: %d, at: %s, who: Nell, %s}\n", nr, at.Format("2006-01-02 15:04"), more)
		}
		day := at.Format(time.DateOnly)
		say("milk: Hill Farm cow, day: " + day + ", came: 12 L, lot: \"H-" + day + "\"")
		say(fmt.Sprintf("batch: %s, did: make, lots: [{what: rennet, lot: \"R-%d\"}], drew: {supply: Hill Farm cow, day: %s}", id, i/50, day))
		say("batch: " + id + ", did: pack, pieces: 14, weight: 1050 g")
		say("target: Stall " + day + ", cheese: Quick curd, took: 8, of: {" + id + ": 8}")
		say("target: Stall " + day + ", cheese: Quick curd, back: 2")
		say("batch: " + id + ", gone: 1, why: tasted")
		if i%3 < 2 {
			say("place: fridge, measured: [{what: temperature, is: 5 °C}]")
		}
	}
	for month, text := range months {
		write("record/"+month+".yaml", text.String())
	}
	return folder
}
