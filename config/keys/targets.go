package keys

// Targets is targets.yaml.
func Targets() *Mapping {
	const example = "{name: Easter market, by: 2027-03-27 07:00, want: [{cheese: Ash button, pieces: 24}]}"
	return &Mapping{
		Example: "targets: [" + example + "]",
		Keys: []Key{{Name: "targets", As: list, Listed: true, Else: none, Says: "markets, holidays, orders", In: &Mapping{
			Example: example,
			Keys: []Key{
				{Name: "name", As: text, Example: "Easter market", Says: "which; a target that repeats has its date after its name"},
				{Name: "by", As: "moment, or a feast", Example: "2027-03-27 07:00", Says: "when it leaves the kitchen, packed", In: &Mapping{
					Example: `2027-03-27 07:00, or {feast: easter, days: -2, time: "15:00"}`,
					Keys: []Key{
						{Name: "feast", As: "easter or orthodox easter", Example: "easter", Says: "in place of a date"},
						{Name: "days", As: whole, Default: "0", Example: "-2", Says: "so many days after it; before it with a minus"},
						{Name: "time", As: clock, Example: `"15:00"`, Says: "when on that day"},
					}}},
				{Name: "every", As: weeks, Else: "once", Example: "week", Says: "how often it comes again"},
				{Name: "until", As: date, Else: "one that repeats is planned as far as ahead says", Example: "2027-04-24", Says: "the last day on which it may be held"},
				{Name: "except", As: dates, Else: none, Example: "[2027-04-03]", Says: "days on which it is not held"},
				{Name: "packed", As: length, Default: "0 h", Example: "12 h", Says: "how long before it leaves packing must be done"},
				{Name: "want", As: list, Listed: true, Else: "it wants no cheese", Says: "what leaves with it", In: &Mapping{
					Example: "{cheese: Ash button, pieces: 24}",
					Keys: []Key{
						{Name: "cheese", As: text, Example: "Ash button", Says: "by its recipe's name"},
						{Name: "pieces", As: whole, Example: "24", Says: "how many"},
						{Name: "price", As: money, Default: "1", Example: "6.50", Says: "what a piece is worth to you; what is worth more is met first"},
						{Name: "promised", As: truth, Default: "false", Example: "true", Says: "met before all that is not promised"},
					}}},
			}}}}}
}
