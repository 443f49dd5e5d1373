package keys

// none is what is said of a list or a thing that is not there.
const none = "none"

// Kitchen is kitchen.yaml.
func Kitchen() *Mapping {
	return &Mapping{
		Example: "kitchen: {timezone: Europe/Dublin}",
		Keys: []Key{
			{Name: "kitchen", As: mapping, Says: "what holds for the kitchen as a whole", In: frame()},
			{Name: "people", As: list, Listed: true, Else: none, Says: "who works; who is listed first is asked first", In: person()},
			{Name: "round", As: mapping, Else: none, Says: "the daily look at what is ripening, which is kept free of other work", In: &Mapping{
				Example: `{at: "07:00", for: 20 min}`,
				Keys: []Key{
					{Name: "at", As: clock, Example: `"07:00"`, Says: "when it begins"},
					{Name: "for", As: length, Example: "20 min", Says: "how long it lasts, at most a day"},
				}}},
			{Name: "pots", As: list, Listed: true, Else: none, Says: "one batch fills one pot", In: &Mapping{
				Example: "{name: tall pot, holds: 10 L}",
				Keys: []Key{kitName("tall pot"),
					{Name: "holds", As: volume, Example: "10 L", Says: "the largest batch that it takes"}, count("2"), clean("20 min")}}},
			{Name: "stations", As: list, Listed: true, Else: none, Says: "hooks, presses, boards, tubs: whatever else is counted", In: &Mapping{
				Example: "{name: hook, count: 4, takes: 6 L}",
				Keys: []Key{kitName("hook"), count("4"),
					{Name: "takes", As: "volume, or so many pieces", Else: "one per batch", Example: "6 L", Says: "how much of a batch one of them takes; 3 pieces is written too"}, clean("10 min")}}},
			{Name: "moulds", As: list, Listed: true, Else: none, Says: "one per piece", In: &Mapping{
				Example: "{name: small ring, count: 16}",
				Keys:    []Key{kitName("small ring"), count("16"), clean("30 min")}}},
			{Name: "boxes", As: list, Listed: true, Else: none, Says: "what cheese stands in while it is cold", In: &Mapping{
				Example: "{name: ripening box, count: 8, size: 40 x 30 x 12 cm}",
				Keys: []Key{kitName("ripening box"), count("8"),
					{Name: "size", As: size, Else: "it can stand in places that are counted only", Example: "40 x 30 x 12 cm", Says: "its outside, upright"}, clean("15 min"),
					{Name: "stack", As: "kind, batch or no", Default: "kind", Example: "batch", Says: "whether boxes stand on each other: all of the kind, those of one batch, or none"}}}},
			{Name: "cold", As: list, Listed: true, Else: none, Says: "fridges, caves and cellars, each with shelves or with so many boxes", In: cold()},
			{Name: "businesses", As: list, Listed: true, Else: none, Says: "to whom cheese goes, by whose names the record speaks of them", In: &Mapping{
				Example: `{name: Corner shop, address: "2 Quay Row"}`,
				Keys: []Key{
					{Name: "name", As: text, Example: "Corner shop", Says: "who it is"},
					{Name: "address", As: text, Else: "not said", Example: `"2 Quay Row"`, Says: "where it is"},
				}}},
			{Name: "label", As: mapping, Else: "labels of 60 x 40 mm on A4", Says: "how labels are printed", In: labels()},
			{Name: "milk", As: list, Listed: true, Else: none, Says: "supplies; a recipe that names none uses milk that is always to hand", In: milk()},
		}}
}

func frame() *Mapping {
	return &Mapping{
		Example: "{name: Saltgrass Lane, timezone: Europe/Dublin}",
		Keys: []Key{
			{Name: "name", As: text, Default: "Kitchen", Example: "Saltgrass Lane", Says: "what the plan is headed with"},
			{Name: "timezone", As: "region and city", Example: "Europe/Dublin", Says: "where the kitchen is, by its IANA name"},
			{Name: "step", As: length, Default: "5 min", Example: "10 min", Says: "work begins at whole steps; it divides an hour"},
			{Name: "room", As: "temperature, or a list by date", Default: "21 °C", Example: "20 °C", Says: "how warm the room is in which cheese is made; before the first date as on it", Listed: true, In: &Mapping{
				Example: "{from: 2027-01-01, is: 17 °C}",
				Keys: []Key{
					{Name: "from", As: date, Example: "2027-01-01", Says: "from which day on"},
					{Name: "is", As: temperature, Example: "17 °C", Says: "how warm"},
				}}},
			{Name: "settled", As: length, Default: "2 d", Example: "3 d", Says: "what is planned for so long from now on is not moved without need; 0 h for none"},
			{Name: "unsaid", As: "done or waits", Default: "done", Example: "waits", Says: "what nobody spoke of went as planned, or has not begun"},
			{Name: "alarm", As: length, Default: "15 min", Example: "30 min", Says: "how long before work its alarm goes off in calendars; 0 min at its moment"},
			{Name: "scale", As: amount, Else: "0.01 g below 10 g, 0.1 g below 100 g, else 1 g", Example: "0.1 g", Says: "the smallest step that your scale shows; what goes in is rounded to it"},
			{Name: "ahead", As: weeks, Default: "12 weeks", Example: "20 weeks", Says: "how far ahead targets that repeat without until are planned"},
		}}
}

func person() *Mapping {
	return &Mapping{
		Example: `{name: Nell, hours: ["mon-fri 06:00-08:00"]}`,
		Keys: []Key{
			{Name: "name", As: text, Example: "Nell", Says: "who it is"},
			{Name: "hours", As: hours, Else: "no work can be given", Example: `["mon-fri 06:00-08:00"]`, Says: "when work may be planned; it never happens outside"},
			{Name: "rather_not", As: hours, Else: none, Example: `["mon-fri 06:00-07:00"]`, Says: "hours that are possible, but avoided"},
			{Name: "most_per_day", As: length, Else: "no limit", Example: "6 h", Says: "hands-on work a day, the round included"},
			times("away", "when not to be had"),
		}}
}

func cold() *Mapping {
	return &Mapping{
		Example: "{name: cheese cave, temperature: 11 °C, boxes: 12}",
		Keys: []Key{kitName("cheese cave"),
			{Name: "temperature", As: temperature, Example: "4 °C", Says: "how cold it is"},
			{Name: "shelves", As: list, Listed: true, Else: "boxes says how many", Says: "of a place that is measured", In: &Mapping{
				Example: "{name: top, size: 52 x 36 x 26 cm}",
				Keys: []Key{
					{Name: "name", As: text, Example: "top", Says: "which shelf of the place"},
					{Name: "size", As: size, Example: "52 x 36 x 26 cm", Says: "what is free on it; the height is up to the next shelf"},
					times("taken", "when nothing can stand on it"),
				}}},
			{Name: "boxes", As: whole, Else: "shelves say what it holds", Example: "12", Says: "how many boxes of any kind a place takes that is only counted"},
			times("taken", "when nothing can stand in it"),
		}}
}

func milk() *Mapping {
	return &Mapping{
		Example: `{name: Hill Farm cow, days: [tue, fri], ready: "07:30", keeps: 2 d}`,
		Keys: []Key{
			{Name: "name", As: text, Example: "Hill Farm cow", Says: "which supply"},
			{Name: "days", As: weekdays, Example: "[tue, fri]", Says: "when it is collected"},
			{Name: "ready", As: clock, Example: `"07:30"`, Says: "from when on a make can begin on such a day"},
			{Name: "most", As: volume, Else: "no limit", Example: "40 L", Says: "all litres drawn from one collection"},
			{Name: "standing", As: volume, Else: "nothing comes without an order", Example: "24 L", Says: "how much comes each time without an order"},
			{Name: "keeps", As: length, Example: "2 d", Says: "how long after its collection a make may still begin"},
			{Name: "order", As: length, Default: "0 h", Example: "2 d", Says: "how long ahead it must be ordered"},
			times("closed", "days without a collection"),
		}}
}

func labels() *Mapping {
	return &Mapping{
		Example: `{maker: "Saltgrass Lane, 3 Quay Row", size: 60 x 40 mm, sheet: A4}`,
		Keys: []Key{
			{Name: "maker", As: text, Else: "not said", Example: `"Saltgrass Lane, 3 Quay Row"`, Says: "who made it, as it stands on the label"},
			{Name: "size", As: area, Default: "60 x 40 mm", Example: "60 x 40 mm", Says: "of one label"},
			{Name: "sheet", As: "a paper, roll, or keys and values", Else: "A4", Says: "what they are printed on; A4 alone lays them edge to edge, roll has a page for each", In: &Mapping{
				Example: "{paper: A4, columns: 3, rows: 7, left: 7 mm, top: 5 mm, across: 63.5 mm, down: 41 mm}",
				Keys: []Key{
					{Name: "paper", As: "A4, A5, A6, Letter or a size", Default: "A4", Example: "A4", Says: "the sheet"},
					{Name: "columns", As: whole, Else: "as many as fit", Example: "3", Says: "labels in a row"},
					{Name: "rows", As: whole, Else: "as many as fit", Example: "7", Says: "rows on the sheet"},
					{Name: "left", As: distance, Else: "in the middle", Example: "7 mm", Says: "from the sheet's edge to the first label"},
					{Name: "top", As: distance, Else: "in the middle", Example: "5 mm", Says: "from the sheet's edge to the first label"},
					{Name: "across", As: distance, Else: "edge to edge", Example: "63.5 mm", Says: "from a label's left edge to the next one's"},
					{Name: "down", As: distance, Else: "edge to edge", Example: "41 mm", Says: "from a label's upper edge to the next one's"},
				}}},
			{Name: "lines", As: texts, Else: "name, milk, ingredients, weight, use_by, keep, lot, maker; with a gtin code too", Example: "[name, lot, use_by, weight, keep, maker, code]",
				Says: "what stands on a label, in this order: those, and estimate, packed, code, gs1"},
		}}
}

func kitName(example string) Key {
	return Key{Name: "name", As: text, Example: example, Says: "unlike the name of any other kit or place"}
}

func count(example string) Key {
	return Key{Name: "count", As: whole, Default: "1", Example: example, Says: "how many there are"}
}

func clean(example string) Key {
	return Key{Name: "clean", As: length, Default: "0 min", Example: example, Says: "how long it is not usable after it was emptied"}
}

// times is a list of times, which are whole days or lie between two moments.
func times(name, says string) Key {
	return Key{Name: name, As: spans, Else: none, Example: "[2027-03-12, {from: 2027-03-20 14:00, until: 2027-03-20 18:00}]", Says: says,
		In: &Mapping{
			Example: "{from: 2027-03-12, until: 2027-03-14}",
			Keys: []Key{
				{Name: "from", As: "date or moment", Example: "2027-03-12", Says: "when it begins"},
				{Name: "until", As: "date or moment", Example: "2027-03-14", Says: "when it ends; a date is the last day"},
			}}, Listed: true}
}
