package recordfile

import (
	"ripeby/config/keys"
	"ripeby/schedule/record"
)

const (
	unsaid = "not said"
	stage  = "stage"
)

// common are the keys that any entry may have.
var common = []keys.Key{
	{Name: "nr", As: "whole number", Else: "the line is known by its place", Example: "41", Says: "counts up over all months; ripeby gives it"},
	{Name: "at", As: "moment", Example: "2027-03-13 08:10", Says: "when it happened"},
	{Name: "written", As: "moment", Else: "when it happened", Example: "2027-03-13 08:30", Says: "when it was put down"},
	{Name: "who", As: "name", Else: unsaid, Example: "Nell", Says: "who did it"},
	{Name: "note", As: "text", Else: "none", Example: `"soft, whey clear"`, Says: "anything, on any entry or alone"},
	{Name: "once", As: "text", Else: "none", Example: `"k3fa"`, Says: "a word of the device that sent it; the same word is taken once"},
	{Name: "strikes", As: "whole number, or a list", Else: "nothing", Example: "43", Says: "the number of an entry that is taken back"},
}

// subjects are all of them. A target comes before a cheese, which it has with it.
var subjects = []subject{
	{record.OfBatch, name("batch", "AB-270312-1", "which batch, by its id or its lot"), "a batch", nil, batchFacts()},
	{record.OfMilk, name("milk", "Hill Farm cow", "which supply"), "milk",
		[]keys.Key{{Name: "day", As: "date", Example: "2027-03-12", Says: "of which collection"}},
		[]keys.Key{
			{Name: "ordered", As: "volume", Else: unsaid, Example: "24 L", Says: "how much was ordered"},
			{Name: "came", As: "volume", Else: unsaid, Example: "20 L", Says: "how much came; 0 L where none did"},
			lot("the supplier's own number, or the delivery note"), measured(),
		}},
	{record.OfTarget, name("target", "Easter market", "which target"), "a target",
		[]keys.Key{
			{Name: "date", As: "date", Else: "it does not repeat, or the name says it", Example: "2027-03-13", Says: "which, of one that repeats"},
			{Name: "cheese", As: "name", Example: "Ash button", Says: "which cheese of it"},
		},
		[]keys.Key{
			{Name: "took", As: "whole number", Else: "as planned", Example: "8", Says: "pieces that left"},
			{Name: "of", As: "each lot with its pieces", Else: "as planned", Example: "{AB-270312-1: 5, AB-270313-1: 3}", Says: "from which batches they were"},
			{Name: "back", As: "whole number", Else: "none", Example: "2", Says: "pieces that came back; 0 where none did"},
			{Name: "resell", As: "true", Else: "they are not sold again", Example: "true", Says: "what came back is for sale again, as you judge it"},
			{Name: "sold_out", As: "time of day", Else: unsaid, Example: `"11:20"`, Says: "more would have sold"},
			{Name: "to", As: "name", Else: unsaid, Example: "Corner shop", Says: "the business that took them"},
		}},
	{record.OfCheese, name("cheese", "Ash button", "a batch made off the plan; ripeby gives its id"), "a cheese made off the plan", nil, batchFacts()},
	{record.OfPlace, name("place", "kitchen fridge", "which place"), "a place",
		[]keys.Key{{Name: "shelf", As: "name", Else: "the whole place", Example: "top", Says: "which shelf of it"}},
		[]keys.Key{measured(),
			{Name: "closed", As: "true, or until when", Else: "it is not", Example: "true, or closed: {until: 2027-03-13 18:00}", Says: "nothing can stand there from then on", In: &keys.Mapping{Keys: []keys.Key{
				{Name: "until", As: "date or moment", Example: "2027-03-13 18:00", Says: "when it ends; a date is the last day"},
			}}},
			{Name: "open", As: "true", Else: "as before", Example: "true", Says: "it is closed no more"},
		}},
	{record.OfPerson, name("person", "Nell", "who"), "a person", nil,
		[]keys.Key{
			{Name: "away", As: "true, or from when until when", Else: "as before", Example: "true, or away: {until: 2027-03-13 18:00}", Says: "not to be had from then on", In: &keys.Mapping{Keys: []keys.Key{
				{Name: "from", As: "date or moment", Else: "when the entry happened", Example: "2027-03-12", Says: "when it begins"},
				{Name: "until", As: "date or moment", Example: "2027-03-13 18:00", Says: "when it ends; a date is the last day"},
			}}},
			{Name: "here", As: "true", Else: "as before", Example: "true", Says: "back again"},
			{Name: "takes", As: "batch and stage", Else: unsaid, Example: "{batch: AB-270312-1, stage: drain}", Says: "does this work", In: &keys.Mapping{Keys: []keys.Key{
				name("batch", "AB-270312-1", "which batch"), {Name: stage, As: "name", Example: "drain", Says: "which stage"},
			}}},
		}},
	{record.OfRound, keys.Key{Name: "round", As: "date", Example: "2027-03-13", Says: "the round of which day"}, "a round", nil,
		[]keys.Key{
			{Name: "did", As: "true", Else: unsaid, Example: "true", Says: "it was done"},
			{Name: "skipped", As: "true", Else: unsaid, Example: "true", Says: "it was not"},
		}},
	{record.OfPacket, name("new", "rennet", "what was opened"), "a packet that was opened", nil,
		[]keys.Key{lot("the number on it"),
			{Name: "use_by", As: "date", Else: unsaid, Example: "2027-09-30", Says: "the date on it"},
			{Name: "strength", As: "number and unit", Else: unsaid, Example: "200 IMCU/mL", Says: "how strong it is"},
			{Name: "holds", As: "number and unit", Else: unsaid, Example: "50 mL", Says: "how much is in it"},
		}},
}

// batchFacts are what may be said of a batch.
func batchFacts() []keys.Key {
	return []keys.Key{
		{Name: "began", As: stage, Else: unsaid, Example: "make", Says: "its work began then"},
		{Name: "did", As: stage, Else: unsaid, Example: "make", Says: "its work was done then"},
		{Name: "not_yet", As: stage, Else: unsaid, Example: "drain", Says: "looked at, and not ready for this stage"},
		{Name: "look", As: "elapsed time", Else: "2 h", Example: "3 h", Says: "look again after so long"},
		{Name: "litres", As: "volume", Else: "as planned", Example: "8 L", Says: "how much milk went in"},
		{Name: "pot", As: "name", Else: "as planned", Example: "tall pot", Says: "the pot that it is in"},
		{Name: "drew", As: "supply and day", Else: "as planned", Example: "{supply: Hill Farm cow, day: 2027-03-12}", Says: "which milk went in", In: &keys.Mapping{Keys: []keys.Key{
			name("supply", "Hill Farm cow", "which supply"), {Name: "day", As: "date", Example: "2027-03-12", Says: "of which collection"},
		}}},
		{Name: "stands", As: "place, and shelf", Else: "as planned", Example: "{place: kitchen fridge, shelf: top}", Says: "where it really is", In: &keys.Mapping{Keys: []keys.Key{
			name("place", "kitchen fridge", "which place"), {Name: "shelf", As: "name", Else: "any", Example: "top", Says: "which shelf"},
		}}},
		{Name: "pieces", As: "whole number", Else: "as made", Example: "14", Says: "what there is of it now, spare included"},
		{Name: "gone", As: "whole number", Else: "none", Example: "3", Says: "pieces eaten, broken, given"},
		{Name: "why", As: "text", Else: unsaid, Example: "eaten", Says: "why"},
		{Name: "weight", As: "mass", Else: unsaid, Example: "1.2 kg", Says: "of all of it"},
		measured(),
		{Name: "lots", As: "list of what with its lot", Else: unsaid, Example: `[{what: rennet, lot: "R-55"}]`, Says: "packets that went in", In: &keys.Mapping{Keys: []keys.Key{
			name("what", "rennet", "what"), {Name: "lot", As: "text", Example: `"R-55"`, Says: "the number on it"},
		}}},
		{Name: "lost", As: "true", Else: "it is not", Example: "true", Says: "it was thrown away, or never began"},
	}
}

func name(key, example, says string) keys.Key {
	return keys.Key{Name: key, As: "name", Example: example, Says: says}
}

func lot(says string) keys.Key {
	return keys.Key{Name: "lot", As: "text", Else: unsaid, Example: `"R-55"`, Says: says}
}

func measured() keys.Key {
	return keys.Key{Name: "measured", As: "list of what with its value", Else: unsaid, Example: "[{what: pH, is: 5.1}]", Says: "as it was read", In: &keys.Mapping{Keys: []keys.Key{
		name("what", "pH", "what"), {Name: "is", As: "text", Example: "5.1", Says: "how much, as it was read"},
	}}}
}
