package sheet

import (
	"strings"

	"ripeby/calendar/words"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

// goesIn is what goes into the batch at a stage: how much, as it can be measured, and of which packet; with a box to
// tick and a place for the packet where that is still open.
func (m *maker) goesIn(s *stage) (items []Item) {
	open := s.known != trace.Said && s.known != trace.Assumed
	for i := range s.needs {
		d := s.needs[i]
		lot, guess := m.packetOf(&d, open)
		d.Lot = ""
		// The weight of the curd is to be written in: its place is the only one in an amount.
		parts := strings.Split(words.Dose(&d), "____")
		parts[0] = m.pen.Name(d.What) + " " + parts[0]
		last := &parts[len(parts)-1]
		if d.Strength != "" {
			*last += ", of " + m.pen.Name(d.Strength)
		}
		switch {
		case lot != "":
			*last += ", packet " + m.pen.Name(lot)
			if guess {
				*last += assumed
			}
		default:
			*last += ", packet "
			parts = append(parts, "")
		}
		items = append(items, Item{Box: open, Parts: parts, kind: dosed})
	}
	return items
}

// sameThing is a thing's name as it is compared: Rennet is rennet.
func sameThing(what string) string { return strings.ToLower(strings.TrimSpace(what)) }

// packetOf is the packet that something came or comes from: as was said with the batch, else the one that was open.
func (m *maker) packetOf(d *schedule.Dose, open bool) (lot string, guess bool) {
	var said, may []string
	if m.Told != nil {
		for _, k := range m.Told.Packets {
			switch {
			case sameThing(k.What) != sameThing(d.What) || k.Lot == "":
			case k.Known == trace.Said:
				said = append(said, k.Lot)
			default:
				may = append(may, k.Lot)
			}
		}
	}
	lots := may
	switch {
	case len(said) > 0:
		lots = said
	case d.Lot != "":
		lots, guess = []string{d.Lot}, !open
	case open: // which one it will be is not known
		return "", false
	default:
		guess = true
	}
	for _, l := range lots {
		m.packets[sameThing(d.What)+"\x00"+l] = true
	}
	return strings.Join(lots, " or "), guess
}

// otherPackets are those that nothing of what goes in by the plan names.
func (m *maker) otherPackets() (items []Item) {
	if m.Told == nil {
		return nil
	}
	for _, k := range m.Told.Packets {
		if k.By == nil || m.packets[sameThing(k.What)+"\x00"+k.Lot] { // of no packet: it stands among what goes in
			continue
		}
		text := m.pen.Name(k.What) + ": "
		if k.Lot == "" {
			text += "its lot was not said"
		} else {
			text += "lot " + m.pen.Name(k.Lot)
		}
		if k.Known == trace.Assumed {
			text += assumed
		}
		items = append(items, plain(other, text))
	}
	return items
}
