package main

import (
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/measured"
)

// recordVerb is one way of saying something: ripeby record did AB-270312-1 drain. Its words
// and its options are keys of an entry (config/recordfile), in that order.
type recordVerb struct {
	name  string
	short string
	words []string // the keys of its words; one that ends in ? may be left out
	fixed [2]string
	flags []string // the keys of its options
	like  string   // an example
	asked []string // what is to be measured of its batch, by name
}

// batchFlags are what may be said of a batch beside the word that begins it.
var batchFlags = []string{"pieces", "litres", "measured", "lots", "weight", "gone", "why", "pot", "drew", "place", "shelf"}

// recordVerbs are all of them.
var recordVerbs = []recordVerb{
	{name: "did", short: "A stage's work is done", words: []string{"batch", "did"}, flags: batchFlags, like: `did AB-270312-1 drain --pieces 14 --measured "pH 4.5"`},
	{name: "began", short: "A stage's work has begun", words: []string{"batch", "began"}, flags: batchFlags, like: `began AB-270312-1 make --litres "7.5 L" --lots "rennet R-55"`},
	{name: "not_yet", short: "The hold before a stage is not over", words: []string{"batch", "not_yet"}, flags: append([]string{"look"}, batchFlags...), like: `not_yet AB-270312-1 drain --look "3 h" --measured "pH 5.1"`},
	{name: "pieces", short: "How many pieces there are of a batch", words: []string{"batch", "pieces"}, flags: batchFlags[2:], like: `pieces AB-270312-1 14`},
	{name: "gone", short: "Pieces that were eaten, broken or given away", words: []string{"batch", "gone"}, flags: []string{"why"}, like: `gone AB-270312-1 3 --why eaten`},
	{name: "weight", short: "What all of a batch weighs", words: []string{"batch", "weight"}, flags: []string{"measured"}, like: `weight AB-270312-1 "1.2 kg"`},
	{name: "measured", short: "What was measured of a batch or in a cold place", words: []string{"batch", "measured"}, like: `measured "kitchen fridge" "temperature 5 °C"`},
	{name: "stands", short: "Where a batch really stands", words: []string{"batch", "place", "shelf?"}, like: `stands AB-270312-1 "kitchen fridge" top`},
	{name: "lost", short: "A batch failed, or never began", words: []string{"batch"}, fixed: [2]string{"lost", "true"}, flags: []string{"why"}, like: `lost AB-270312-1 --why "it smelled wrong"`},
	{name: "ordered", short: "Milk was ordered", words: []string{"milk", "day", "ordered"}, like: `ordered "Hill Farm cow" 2027-03-19 "24 L"`},
	{name: "came", short: "Milk came", words: []string{"milk", "day", "came"}, flags: []string{"lot", "measured"}, like: `came "Hill Farm cow" today "20 L" --lot "note 118"`},
	{name: "took", short: "Pieces left for a target", words: []string{"target", "cheese", "took"}, flags: []string{"of", "to"}, like: `took "Easter market" "Ash button" 8 --of "AB-270312-1 5" --of "AB-270313-1 3"`},
	{name: "back", short: "Pieces came back from a target", words: []string{"target", "cheese", "back"}, flags: []string{"of", "resell", "to"}, like: `back "Easter market" "Ash button" 2`},
	{name: "sold_out", short: "A target had sold all of a cheese", words: []string{"target", "cheese", "sold_out"}, flags: []string{"to"}, like: `sold_out "Easter market" "Ash button" 11:20`},
	{name: "closed", short: "A cold place or a shelf is closed", words: []string{"place", "shelf?"}, flags: []string{"until", "measured"}, like: `closed "kitchen fridge" top --until "2027-03-14 18:00"`},
	{name: "open", short: "It is open again", words: []string{"place", "shelf?"}, fixed: [2]string{"open", "true"}, flags: []string{"measured"}, like: `open "kitchen fridge" top`},
	{name: "away", short: "Somebody is away", words: []string{"person"}, flags: []string{"from", "until"}, like: `away Nell --until 2027-03-14`},
	{name: "here", short: "Somebody is here again", words: []string{"person"}, fixed: [2]string{"here", "true"}, like: `here Nell`},
	{name: "takes", short: "Somebody takes the work of a stage", words: []string{"person", "batch", "stage"}, like: `takes Finn AB-270312-1 drain`},
	{name: "round", short: "The round was done, or skipped", words: []string{"round?"}, flags: []string{"skipped"}, like: `round today --skipped`},
	{name: "new", short: "A packet or bottle was opened", words: []string{"new"}, flags: []string{"lot", "use_by", "strength", "holds"}, like: `new rennet --lot R-56 --strength "200 IMCU/mL" --holds "50 mL"`},
	{name: "note", short: "Anything else, of a batch or alone", words: []string{"note"}, flags: []string{"batch"}, like: `note "the fridge hums" --who Finn`},
	{name: "strike", short: "Take back an entry by its number", words: []string{"strikes"}, like: `strike 43`},
}

// recordFlagText says what an option is for, its value in `…`.
var recordFlagText = map[string]string{
	"pieces": "`N` pieces there are of it now, spare included", "litres": "made of this `VOLUME` of milk", "weight": "what all of it weighs, a `MASS`",
	"measured": "what was `MEASURED`, such as \"pH 4.5\"; may be given again", "lots": "which packet something came from, such as \"rennet R-55\", a `THING` and its lot;\nmay be given again",
	"gone": "`N` pieces more are gone", "why": "the `REASON`: eaten, broken, given, …", "pot": "the `POT` it is in", "drew": "the `COLLECTION` its milk came from, such as \"Hill Farm cow 2027-03-12\"",
	"place": "the `PLACE` where it really stands", "shelf": "the `SHELF` there", "look": "look again after so `LONG`, such as \"3 h\"", "lot": "the `LOT` on it, or on the delivery note",
	"of": "a `LOT` and how many of it, such as \"AB-270312-1 5\"; may be given again", "to": "the `BUSINESS` that they went to", "resell": "they may be sold again, as your own judgement",
	"from": "from this `MOMENT` or day on (default: now)", "until": "until this `MOMENT`, or to the end of this day", "skipped": "it was not done",
	"use_by": "use by this `DATE`", "strength": "how `STRONG` it is, such as \"200 IMCU/mL\"", "holds": "how `MUCH` is in it, such as \"50 mL\"", "batch": "of this `BATCH`",
}

// repeatable and plainTruth are options that are given again, and that have no value.
func repeatable(key string) bool { return slices.Contains([]string{"measured", "lots", "of"}, key) }

func plainTruth(key string) bool { return key == "resell" || key == "skipped" }

// addFlags adds a verb's options.
func (v *recordVerb) addFlags(f *pflag.FlagSet) {
	for _, key := range v.flags {
		switch {
		case repeatable(key):
			f.StringArray(key, nil, recordFlagText[key])
		case plainTruth(key):
			f.Bool(key, false, recordFlagText[key])
		default:
			f.String(key, "", recordFlagText[key])
		}
	}
}

// usage is the verb with its words: did BATCH STAGE.
func (v *recordVerb) usage() string {
	parts := []string{v.name}
	for _, key := range v.words {
		word := map[string]string{"did": "STAGE", "began": "STAGE", "not_yet": "STAGE", "pieces": "N", "gone": "N", "weight": "MASS", "milk": "SUPPLY",
			"ordered": "VOLUME", "came": "VOLUME", "took": "N", "back": "N", "sold_out": "TIME", "round?": "[DAY]", "measured": "READING...", "new": "WHAT", "note": "TEXT", "strikes": "NR...", "shelf?": "[SHELF]"}[key]
		if word == "" {
			word = strings.ToUpper(key)
		}
		parts = append(parts, word)
	}
	return strings.Join(parts, " ")
}

// endless reports whether a verb takes as many of its last word as there are.
func (v *recordVerb) endless() bool { return v.name == "strike" || v.name == "measured" }

// least is how many words a verb must have.
func (v *recordVerb) least() int {
	return len(slices.DeleteFunc(slices.Clone(v.words), func(key string) bool { return strings.HasSuffix(key, "?") }))
}

// pairs puts the words and options of a command line under their keys. day turns today and
// yesterday into dates.
func (v *recordVerb) pairs(args []string, f *pflag.FlagSet, day func(string) string) recordfile.Pairs {
	given := map[string]string{}
	for i, key := range v.words {
		if i < len(args) {
			given[strings.TrimSuffix(key, "?")] = args[i]
		}
	}
	for _, key := range v.flags {
		if !repeatable(key) && f.Changed(key) {
			given[key] = f.Lookup(key).Value.String()
		}
	}
	var p recordfile.Pairs
	put := func(keys ...string) {
		for _, key := range keys {
			p.Text(key, given[key])
		}
	}
	in := func(key string, keys ...string) {
		var inner recordfile.Pairs
		for _, k := range keys {
			inner.Text(strings.TrimPrefix(k, key+"."), given[k])
		}
		p.In(key, inner)
	}
	switch v.name {
	case "strike":
		p.Each("strikes", args)
	case "measured":
		put("batch", "place")
		p.List("measured", v.measuredPairs(args[min(1, len(args)):]))
	case "closed", "away":
		put("place", "shelf", "person")
		if given["until"]+given["from"] == "" {
			p.Text(v.name, "true")
		} else {
			in(v.name, "from", "until")
		}
	case "takes":
		put("person")
		in("takes", "batch", "stage")
	case "round":
		if given["round"] == "" {
			given["round"] = "today"
		}
		p.Text("round", day(given["round"]))
		p.Text(map[bool]string{true: "skipped", false: "did"}[given["skipped"] == "true"], "true")
	case "open":
		put("place", "shelf")
	default:
		if given["day"] != "" {
			given["day"] = day(given["day"])
		}
		put("batch", "milk", "day", "target", "cheese", "person", "new")
		put("began", "did", "not_yet", "look", "litres", "pot")
		if supply, collected := lastWord(given["drew"]); supply != "" {
			given["supply"], given["drew.day"] = supply, collected
			in("drew", "supply", "drew.day")
		} else {
			put("drew")
		}
		in("stands", "place", "shelf")
		put("pieces", "gone", "why", "weight", "ordered", "came", "took", "back", "resell", "sold_out", "to", "lot", "use_by", "strength", "holds", "note")
	}
	p.Text(v.fixed[0], v.fixed[1])
	v.lists(&p, f)
	return p
}

// lists adds the options that may be given again.
func (v *recordVerb) lists(p *recordfile.Pairs, f *pflag.FlagSet) {
	values := func(key string) []string {
		if !slices.Contains(v.flags, key) {
			return nil
		}
		all, _ := f.GetStringArray(key)
		return all
	}
	var lots []recordfile.Pairs
	for _, text := range values("lots") {
		var l recordfile.Pairs
		what, lot := lastWord(text)
		l.Text("what", what)
		l.Text("lot", lot)
		lots = append(lots, l)
	}
	var of recordfile.Pairs
	for _, text := range values("of") {
		of.Named(lastWord(text))
	}
	p.List("measured", v.measuredPairs(values("measured")))
	p.List("lots", lots)
	p.In("of", of)
}

// measuredPairs are what was measured, one a text.
func (v *recordVerb) measuredPairs(texts []string) (all []recordfile.Pairs) {
	for _, text := range texts {
		var m recordfile.Pairs
		what, is := reading(text, v.asked)
		if r, ok := measured.Number(text); ok && v.words[0] == "place" && (r.Unit == resources.Celsius || r.Unit == resources.Fahrenheit) {
			what, is = "temperature", strings.TrimSpace(text) // there is no other to tell by degrees alone
		}
		m.Text("what", what)
		m.Text("is", is)
		all = append(all, m)
	}
	return all
}

// reading cuts what was measured from what it was: "curd temperature 26 °C" before the
// number, "smell fresh" at the first space; and behind what the recipe asks for, "smell of the rind" in all its words.
func reading(text string, asked []string) (what, is string) {
	text = strings.TrimSpace(text)
	for _, name := range asked {
		if len(text) > len(name) && len(name) > len(what) && text[len(name)] == ' ' && strings.EqualFold(text[:len(name)], name) {
			what, is = name, strings.TrimSpace(text[len(name):])
		}
	}
	if what != "" {
		return what, is
	}
	words := strings.Fields(text)
	for i, w := range words {
		if i > 0 && strings.ContainsAny(w[:1], "0123456789-+<>") {
			return strings.Join(words[:i], " "), strings.Join(words[i:], " ")
		}
	}
	what, is, _ = strings.Cut(text, " ")
	return what, strings.TrimSpace(is)
}

// lastWord cuts a text at its last space: "calcium chloride C-1".
func lastWord(text string) (before, last string) {
	text = strings.TrimSpace(text)
	at := strings.LastIndexByte(text, ' ')
	if at < 0 {
		return "", text
	}
	return strings.TrimSpace(text[:at]), text[at+1:]
}
