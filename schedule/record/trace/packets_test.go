package trace_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// needing is a batch whose recipe had things go in, each at a stage.
func needing(id string, made int, needs ...[2]string) schedule.KeptBatch {
	b := dew(id, made)
	for _, n := range needs {
		i := slices.IndexFunc(b.Stages, func(s schedule.KeptStage) bool { return s.Stage == n[1] })
		b.Stages[i].Needs = append(b.Stages[i].Needs, schedule.Dose{What: n[0], Amount: 1, Unit: "g"})
	}
	return b
}

func openedAt(at resources.Moment, what, lot string) record.Entry {
	return record.Entry{At: at, Subject: record.Subject{Kind: record.OfPacket, Name: what}, Packet: record.PacketFacts{Lot: lot}}
}

// packetsOf is a batch's packets in short.
func packetsOf(b *trace.Batch) string {
	var out []string
	for _, p := range b.Packets {
		out = append(out, strings.TrimRight(fmt.Sprintf("%s %s %s %s", p.What, p.Lot, p.Known, p.Stage), " "))
	}
	return strings.Join(out, "; ")
}

// TestPacketsByNeeds: what a batch's recipe has go in comes from the packet that was open at that work, and
// both ways agree; what it does not have go in did not, by it.
func TestPacketsByNeeds(t *testing.T) {
	kept := []schedule.KeptBatch{ // made at 8:00, packed the day after at 19:00
		needing("D-270308-1", 8, [2]string{"rennet", "make"}, [2]string{"salt", "pack"}),
		needing("D-270310-1", 10, [2]string{"Rennet", "make"}),
		needing("D-270312-1", 12, [2]string{"culture", "make"}),
		dew("D-270314-1", 14),
	}
	entries := []record.Entry{
		openedAt(day(1, 9, 0), "rennet", "R-1"), openedAt(day(8, 12, 0), "rennet", "R-2"), openedAt(day(9, 12, 0), "salt", "S-1"), openedAt(day(11, 9, 0), "salt", "S-2"),
	}
	for id, want := range map[string]string{
		"D-270308-1": "rennet R-1 assumed make; salt S-1 assumed pack", // R-2 was opened once the make was over
		"D-270310-1": "rennet R-2 assumed make",                        // no salt, whatever was open
		"D-270312-1": "culture  assumed make",                          // and no packet of it
		"D-270314-1": "rennet R-2 assumed; salt S-2 assumed",           // nobody knows what went in
	} {
		if got := packetsOf(ask(t, kept, entries, id).Batches[0]); got != want {
			t.Errorf("%s: got %s, want %s", id, got, want)
		}
	}
	for word, want := range map[string]string{
		"R-1":     "R-1: D-270308-1 beside",
		"R-2":     "R-2: D-270310-1 D-270314-1 beside D-270312-1",
		"S-1":     "S-1: D-270308-1 beside D-270310-1",
		"salt":    "S-1: D-270308-1 beside D-270310-1, S-2: D-270314-1 beside D-270310-1 D-270312-1",
		"Culture": ": D-270312-1 beside no packet",
	} {
		var out []string
		for _, p := range ask(t, kept, entries, word).Packets {
			text := p.Lot + ":"
			for _, u := range p.Batches {
				text += " " + u.Batch.ID
			}
			text += " beside"
			for _, n := range p.Beside {
				text += " " + n.ID
			}
			if p.Unsaid {
				text += " no packet"
			}
			out = append(out, text)
		}
		if got := strings.Join(out, ", "); got != want {
			t.Errorf("%s: got %s, want %s", word, got, want)
		}
	}
}

// TestSaidLotsStandForNeeds: what was said with a batch holds, and nothing of that is assumed; what is to
// come has not gone in.
func TestSaidLotsStandForNeeds(t *testing.T) {
	b := needing("D-270308-1", 8, [2]string{"rennet", "make"}, [2]string{"salt", "pack"})
	b.Stages[1].Begun, b.Stages[1].Said = false, ""
	entries := []record.Entry{openedAt(day(1, 9, 0), "rennet", "R-1"), openedAt(day(1, 9, 0), "salt", "S-1"),
		of(b.ID, day(8, 9, 0), record.BatchFacts{Lots: []record.Packet{{What: "Rennet", Lot: "R-9"}}})}
	if got, want := packetsOf(ask(t, []schedule.KeptBatch{b}, entries, b.ID).Batches[0]), "Rennet R-9 said make"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// TestAPacketAtTwoStages: what goes in twice is told once.
func TestAPacketAtTwoStages(t *testing.T) {
	b := needing("D-270308-1", 8, [2]string{"salt", "make"}, [2]string{"salt", "pack"})
	entries := []record.Entry{openedAt(day(1, 9, 0), "salt", "S-1")}
	if got, want := packetsOf(ask(t, []schedule.KeptBatch{b}, entries, b.ID).Batches[0]), "salt S-1 assumed make"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
