package keys

// Recipe is one file of recipes.
func Recipe() *Mapping {
	return &Mapping{
		Example: "name: Ash button",
		Keys: []Key{
			{Name: "name", As: text, Example: "Ash button", Says: "which cheese"},
			{Name: "code", As: code, Else: "the initials of the name", Example: "AB", Says: "what lot numbers begin with"},
			{Name: "milk", As: text, Else: "milk that is always to hand", Example: "Hill Farm cow", Says: "a supply of the kitchen"},
			{Name: "yield", As: mapping, Says: "how many pieces come from how much milk", In: &Mapping{
				Example: "{pieces: 9, from: 5 L}",
				Keys: []Key{
					{Name: "pieces", As: whole, Example: "8", Says: "so many"},
					{Name: "from", As: volume, Example: "4 L", Says: "from so much"},
				}}},
			{Name: "piece", As: mass, Else: "not said", Example: "75 g", Says: "what one weighs"},
			{Name: "spare", As: whole, Default: "0", Example: "1", Says: "pieces of each batch kept for tasting and breakage"},
			{Name: "batch", As: mapping, Says: "which sizes a batch may have", In: &Mapping{
				Example: "{least: 5 L, most: 15 L, step: 1 L}",
				Keys: []Key{
					{Name: "least", As: volume, Example: "4 L", Says: "the smallest"},
					{Name: "most", As: volume, Example: "12 L", Says: "the largest"},
					{Name: "step", As: volume, Default: "1 L", Example: "500 mL", Says: "it grows by whole steps above the smallest"},
					{Name: "serves", As: whole, Default: "1", Example: "6", Says: "a batch is made only if so many of its pieces have a target; not asked for promised pieces"},
				}}},
			{Name: "mould", As: text, Else: none, Example: "small ring", Says: "which moulds of the kitchen"},
			box("which boxes of the kitchen"),
			{Name: "keeps", As: length, Example: "6 d", Says: "from packing until it must have left; your own estimate"},
			{Name: "cost", As: money, Else: "not said", Example: "2.20", Says: "what a piece costs you to make; no plan goes by it, but how many to bring does"},
			{Name: "label", As: mapping, Else: "the name, the lot and the date stand on its label", Says: "what stands on its label", In: &Mapping{
				Example: `{milk: raw, ingredients: "cow's milk, salt", keep: below 5 °C, weight: 75 g}`,
				Keys: []Key{
					{Name: "milk", As: "raw, pasteurised or thermised", Else: "not said", Example: "raw", Says: "how the milk was treated; raw stands on every label"},
					{Name: "ingredients", As: text, Else: "not said", Example: `"cow's milk, salt, rennet, cultures"`, Says: "what is in it; the word milk is printed in bold, and so is what stands between two asterisks"},
					{Name: "keep", As: text, Else: "not said", Example: "below 5 °C", Says: "how it is kept, after the word Keep"},
					{Name: "weight", As: mass, Else: "what was weighed, else what piece says", Example: "75 g", Says: "of a piece, as the label declares it"},
					{Name: "gtin", As: "8, 12, 13 or 14 digits", Else: "none", Example: `"09521234543213"`, Says: "its GTIN, for those who have one"},
					{Name: "date", As: "use by or best before", Default: "use by", Example: "best before", Says: "what the date of packing plus keeps is called"},
				}}},
			{Name: "stages", As: list, Listed: true, Says: "from make to pack, in order, without a gap", In: stage()},
			{Name: "needs", As: list, Listed: true, Else: none, Says: "what goes in, scaled for each batch; how much is your own to say", In: need()},
			{Name: "measures", As: list, Listed: true, Else: none, Says: "what to look at and write down, with your own limits", In: measure()},
		}}
}

// need is one thing that goes in. Exactly one of the four amounts is written.
func need() *Mapping {
	const other = "another of the four is written"
	return &Mapping{
		Example: "{what: rennet, stage: make, per_litre: 4.5 IMCU, strength: 200 IMCU/mL}",
		Keys: []Key{
			{Name: "what", As: text, Example: "rennet", Says: "what it is, as on the packet that is opened"},
			{Name: "stage", As: text, Example: "make", Says: "with the work of which stage"},
			{Name: "per_litre", As: amount, Else: other, Example: "4.5 IMCU", Says: "so much for each litre of milk"},
			{Name: "per_piece", As: amount, Else: other, Example: "1.2 g", Says: "so much for each piece, spare ones too"},
			{Name: "per_curd", As: amount, Else: other, Example: "1.5 %", Says: "such a share of the curd, by the weight that was said last"},
			{Name: "fixed", As: amount, Else: other, Example: "1 sachet", Says: "so much whatever the batch"},
			{Name: "strength", As: strength, Else: "not said", Example: "200 IMCU/mL", Says: "what the amount goes by; a packet of another strength is scaled for"},
		}}
}

// measure is one thing to look at and write down.
func measure() *Mapping {
	return &Mapping{
		Example: `{what: pH, stage: drain, from: 4.4, to: 4.7, else: "wait an hour and look again"}`,
		Keys: []Key{
			{Name: "what", As: text, Example: "pH", Says: "what it is, as it is said with what was measured"},
			{Name: "stage", As: text, Example: "drain", Says: "with the work of which stage"},
			{Name: "from", As: reading, Else: "no limit", Example: "4.4", Says: "what is less lies outside, and is shown so"},
			{Name: "to", As: reading, Else: "no limit", Example: "4.7", Says: "what is more likewise"},
			{Name: "else", As: text, Else: "nothing", Example: `"wait an hour and look again"`, Says: "what is shown with what lies outside; your own words"},
		}}
}

func box(says string) Key {
	return Key{Name: "box", As: mapping, Else: none, Says: says, In: &Mapping{
		Example: "{name: ripening box, takes: 8}",
		Keys: []Key{
			{Name: "name", As: text, Example: "ripening box", Says: "which kind"},
			{Name: "takes", As: whole, Example: "8", Says: "how many pieces one holds"},
		}}}
}

func stage() *Mapping {
	other := box("another kind of box from here on")
	other.Else = "the recipe's own"
	return &Mapping{
		Example: "{stage: make, hands: {fixed: 40 min}, uses: [pot]}",
		Keys: []Key{
			{Name: "stage", As: text, Example: "make", Says: "what it is called"},
			{Name: "hands", As: "elapsed time, or keys and values", Else: "no work, so nobody is needed", Says: "the work that it begins with; 30 min alone is the same whatever the batch", In: &Mapping{
				Example: "{fixed: 40 min, per_litre: 2 min}",
				Keys: []Key{
					{Name: "fixed", As: length, Default: "0 min", Example: "40 min", Says: "whatever the batch"},
					{Name: "per_litre", As: length, Default: "0 min", Example: "2 min", Says: "for each litre"},
					{Name: "per_piece", As: length, Default: "0 min", Example: "1 min", Says: "for each piece"},
				}}},
			{Name: "hold", As: mapping, Else: "the next stage follows at once", Says: "the wait after the work; the last stage without one keeps cheese until it leaves", In: &Mapping{
				Example: "{least: 18 h, best: 22 h, most: 28 h}",
				Keys: []Key{
					{Name: "least", As: length, Default: "0 h", Example: "18 h", Says: "not shorter"},
					{Name: "best", As: length, Else: "any is as good", Example: "22 h", Says: "where the cheese is best"},
					{Name: "most", As: length, Example: "28 h", Says: "not longer"},
					{Name: "ready", As: length, Else: "nothing is learned of it, and looks go by 2 h", Example: "21 h", Says: "after how long it is ready in half of all batches; ripeby learn compares your own looks with it, and a look after one that was too early goes by it"},
					{Name: "goes_by", As: mapping, Else: "what is said is for the room as it is", Says: "how the hold goes by the make room, from 15 to 30 °C", In: &Mapping{
						Example: "{temperature: 21 °C, times: 1.18}",
						Keys: []Key{
							{Name: "temperature", As: temperature, Example: "21 °C", Says: "how warm the room is for which ready is said"},
							{Name: "times", As: factor, Default: "1", Example: "1.18", Says: "so many times as long it takes in this kitchen; ripeby learn --write writes it"},
						}}},
					{Name: "varies", As: percent, Else: "15 %", Example: "12 %", Says: "how much one batch is slower or faster than another, as a standard deviation; from 1 % to 60 %"},
				}}},
			{Name: "at", As: "room, a place, or temperatures", Default: "room", Example: "2-6 °C", Says: "where it is; any cold place whose temperature lies between two"},
			{Name: "uses", As: texts, Else: none, Example: "[pot]", Says: "pot, mould, box, or a pot or station by its name"},
			{Name: "fresh", As: texts, Else: none, Example: "[box]", Says: "of uses, what is taken clean here and not kept from the stage before"},
			other,
			{Name: "care", As: mapping, Else: none, Says: "what is done now and then while the hold lasts, in the round", In: &Mapping{
				Example: "{do: turn, every: 2 d, hands: 5 min}",
				Keys: []Key{
					{Name: "do", As: text, Example: "turn", Says: "what"},
					{Name: "every", As: length, Example: "2 d", Says: "every so many whole days"},
					{Name: "hands", As: length, Default: "0 min", Example: "5 min", Says: "how long it takes for a batch"},
				}}},
			{Name: "who", As: texts, Else: "anybody", Example: "[Nell]", Says: "who may do the work"},
		}}
}
