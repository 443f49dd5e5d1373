package recordfile

import (
	"slices"
	"strings"

	"ripeby/schedule/record"
)

// common are the keys that any entry may have.
var common = []string{"nr", "at", "written", "who", "note", "once", "strikes"}

// batchFacts are what may be said of a batch.
var batchFacts = []string{"began", "did", "not_yet", "look", "litres", "pot", "drew", "stands", "pieces", "gone", "why", "weight",
	"measured", "lots", "lost"}

// subject is one kind of subject: the key that names it, the keys that say more exactly
// which, and what may be said of it.
type subject struct {
	kind  record.Kind
	key   string
	what  string // in a sentence
	which []string
	facts []string
}

// subjects are all of them. A target comes before a cheese, which it has with it.
var subjects = []subject{
	{record.OfBatch, "batch", "a batch", nil, batchFacts},
	{record.OfMilk, "milk", "milk", []string{"day"}, []string{"ordered", "came", "lot", "measured"}},
	{record.OfTarget, "target", "a target", []string{"date", "cheese"}, []string{"took", "of", "back", "resell", "sold_out", "to"}},
	{record.OfCheese, "cheese", "a cheese made off the plan", nil, batchFacts},
	{record.OfPlace, "place", "a place", []string{"shelf"}, []string{"measured", "closed", "open"}},
	{record.OfPerson, "person", "a person", nil, []string{"away", "here", "takes"}},
	{record.OfRound, "round", "a round", nil, []string{"did", "skipped"}},
	{record.OfPacket, "new", "a packet that was opened", nil, []string{"lot", "use_by", "strength", "holds"}},
}

// keys are all that an entry about the subject may have.
func (s *subject) keys() []string {
	return slices.Concat(common[:4], []string{s.key}, s.which, s.facts, common[4:])
}

// known reports whether some entry may have the key.
func known(key string) bool {
	return slices.Contains(common, key) || slices.ContainsFunc(subjects, func(s subject) bool {
		return s.key == key || slices.Contains(s.which, key) || slices.Contains(s.facts, key)
	})
}

// allKeys are the keys of all subjects, each once.
func allKeys() []string {
	all := slices.Clone(common)
	for _, s := range subjects {
		for _, key := range s.keys() {
			if !slices.Contains(all, key) {
				all = append(all, key)
			}
		}
	}
	return all
}

// saidOf names the subjects of which a fact may be said: "a target".
func saidOf(key string) string {
	var of []string
	for _, s := range subjects {
		if slices.Contains(s.facts, key) || slices.Contains(s.which, key) {
			of = append(of, s.what)
		}
	}
	return strings.Join(of, " or ")
}

// exampleOf is one way of writing a key's value.
func exampleOf(key string) string {
	return map[string]string{
		"nr": "41", "at": "2027-03-13 08:10", "written": "2027-03-13 08:30", "who": "Nell", "note": `"soft, whey clear"`, "once": `"k3fa"`, "strikes": "43",
		"batch": "AB-270312-1", "cheese": "Ash button", "milk": "Hill Farm cow", "day": "2027-03-12", "target": "Easter market", "date": "2027-03-13",
		"place": "kitchen fridge", "shelf": "top", "person": "Nell", "round": "2027-03-13", "new": "rennet",
		"began": "make", "did": "make", "not_yet": "drain", "look": "3 h", "litres": "8 L", "pot": "tall pot", "drew": "{supply: Hill Farm cow, day: 2027-03-12}",
		"stands": "{place: kitchen fridge, shelf: top}", "pieces": "14", "gone": "3", "why": "eaten", "weight": "1.2 kg", "lost": "true",
		"measured": "[{what: pH, is: 5.1}]", "lots": `[{what: rennet, lot: "R-55"}]`, "ordered": "24 L", "came": "20 L", "lot": `"R-55"`,
		"took": "8", "of": "{AB-270312-1: 5, AB-270313-1: 3}", "back": "2", "resell": "true", "sold_out": `"11:20"`, "to": "Corner shop",
		"closed": "true, or closed: {until: 2027-03-13 18:00}", "open": "true", "away": "true, or away: {until: 2027-03-13 18:00}", "here": "true",
		"takes": "{batch: AB-270312-1, stage: drain}", "skipped": "true", "use_by": "2027-09-30", "strength": "200 IMCU/mL", "holds": "50 mL",
		"supply": "Hill Farm cow", "stage": "drain", "until": "2027-03-13 18:00", "from": "2027-03-12", "what": "pH", "is": "5.1",
	}[key]
}
