package keys

// Begun is begun.yaml.
func Begun() *Mapping {
	return &Mapping{
		Example: "begun: []",
		Keys: []Key{
			{Name: "begun", As: list, Listed: true, Else: none, Says: "batches under way", In: &Mapping{
				Example: "{id: AB-270312-1, cheese: Ash button, litres: 8, stages: {make: 2027-03-12 07:30}}",
				Keys: []Key{
					{Name: "id", As: text, Example: "AB-270312-1", Says: "as in the plan that began it"},
					{Name: "cheese", As: text, Example: "Ash button", Says: "by its recipe's name"},
					{Name: "litres", As: litres, Example: "8", Says: "how much milk went in"},
					{Name: "stages", As: "each stage with its moment", Says: "the stages that have begun, and when", In: &Mapping{
						Example: "{make: 2027-03-12 07:30, set: 2027-03-12 08:30}",
						Any:     &Key{Name: "make", As: moment, Example: "2027-03-12 07:30", Says: "when this stage began"},
					}},
					{Name: "pieces", As: whole, Else: "all that was made", Example: "14", Says: "what is left of it"},
					{Name: "has", As: mapping, Else: "there is no choice", Says: "the kit and the place that it has, where there is a choice", In: &Mapping{
						Example: "{pot: tall pot, at: kitchen fridge}",
						Keys: []Key{
							{Name: "pot", As: text, Else: "not said", Example: "tall pot", Says: "which pot"},
							{Name: "at", As: text, Else: "not said", Example: "kitchen fridge", Says: "where the stage that runs is"},
						}}},
				}}},
			{Name: "as_of", As: moment, Else: "when a plan first read an entry as it stands", Example: "2027-03-13 09:00", Says: "this is how things stood then"},
			{Name: "stock", As: list, Listed: true, Else: none, Says: "packed cheese that is there", In: &Mapping{
				Example: "{cheese: Ash button, pieces: 12, packed: 2027-03-18 19:00, at: kitchen fridge}",
				Keys: []Key{
					{Name: "cheese", As: text, Example: "Ash button", Says: "by its recipe's name"},
					{Name: "pieces", As: whole, Example: "12", Says: "how many"},
					{Name: "packed", As: moment, Example: "2027-03-18 19:00", Says: "when it was packed, from which on it keeps"},
					{Name: "at", As: text, Else: "the only place that its recipe allows", Example: "kitchen fridge", Says: "where it stands"},
					{Name: "boxes", As: whole, Else: "as many as its pieces need", Example: "2", Says: "how many boxes it is in"},
					{Name: "lot", As: text, Else: "it cannot be spoken of by the record", Example: `AB-270305-1`, Says: "what stands on its label, by which the record speaks of it"},
				}}},
			{Name: "ordered", As: list, Listed: true, Else: none, Says: "milk that was ordered", In: &Mapping{
				Example: "{milk: Hill Farm cow, day: 2027-03-19, litres: 24}",
				Keys: []Key{
					{Name: "milk", As: text, Example: "Hill Farm cow", Says: "which supply"},
					{Name: "day", As: date, Example: "2027-03-19", Says: "of which collection"},
					{Name: "litres", As: litres, Example: "24", Says: "how much; 0 where none was ordered"},
				}}},
			{Name: "lost", As: texts, Else: none, Example: "[AB-270305-2]", Says: "batches that never began or were thrown away"},
		}}
}
