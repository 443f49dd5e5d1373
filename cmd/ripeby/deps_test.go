package main_test

import (
	"slices"
	"strings"
	"testing"
)

// arrows is the picture of the house. "a, b < c" says that package c may import
// a and b, and whatever those may import. A name stands on a right-hand side
// before it may stand on a left-hand one, so that no circle can be drawn. A name
// alone is a package that imports nothing of ours.
//
// A build that fails here is mended in the code. Drawing a new arrow is a
// decision: it is made in DEVELOPERS.md first.
const arrows = `
	schedule/testrun
	resources
	resources < resources/shelf
	resources < schedule
	schedule < schedule/planfile, schedule/judge, schedule/needs, schedule/record, schedule/dose, schedule/measured
	schedule/needs, resources/shelf < schedule/coldroom
	schedule/record < schedule/readings
	schedule < schedule/settime
	schedule/needs, schedule/record, schedule/settime < schedule/record/follows
	schedule/record/follows < schedule/record/keep
	schedule/needs, schedule/record, schedule/measured < schedule/record/trace
	schedule/record/trace < schedule/demand
	schedule/record/trace, schedule/settime < schedule/learn
	schedule/needs, schedule/settime < schedule/chance
	schedule/record/follows < schedule/record/since

	schedule/cp/steps
	schedule/cp/kernel
	schedule/cp/kernel < schedule/cp/kernel/oracle
	schedule/cp/steps, schedule/cp/kernel < schedule/cp/global
	schedule/cp/problem
	schedule/testrun, schedule/cp/problem < schedule/cp/tiny
	schedule/cp/problem < schedule/cp/usage
	schedule/cp/steps, schedule/cp/problem < schedule/cp/lags
	schedule/cp/lags, schedule/cp/usage < schedule/cp/chain
	schedule/cp/chain < schedule/cp/bound
	schedule/cp/bound < schedule/cp/carry
	schedule/cp/global, schedule/cp/problem < schedule/cp/packing
	schedule/cp/global, schedule/cp/chain < schedule/cp/calm
	schedule/cp/kernel, schedule/cp/chain < schedule/cp/cheapest
	schedule/cp/cheapest, schedule/cp/calm, schedule/cp/packing < schedule/cp/statement
	schedule/cp/kernel, schedule/cp/chain < schedule/cp/lack
	schedule/cp/carry, schedule/cp/lack, schedule/cp/statement < schedule/cp/search
	schedule/cp/search < schedule/cp/explain
	schedule/cp/explain < schedule/cp
	schedule/needs, resources/shelf, schedule/cp < schedule/planner
	schedule/planner < schedule/planner/whatif

	calendar/qr
	calendar/icon
	calendar/address
	calendar/listeners
	calendar/trust
	calendar/crowd
	resources, calendar/address < calendar/thermometer
	resources, calendar/address < calendar/said
	schedule, calendar/address < calendar/seen
	calendar/address < calendar/edition
	resources, calendar/edition < calendar/served
	schedule < calendar/sample
	schedule/measured < calendar/note
	schedule, schedule/coldroom < calendar/words
	calendar/address, calendar/words < calendar/ask
	calendar/words < calendar/layout, calendar/svg, calendar/spreadsheet
	calendar/note, calendar/words < calendar/ical
	calendar/layout, calendar/spreadsheet, schedule/dose, schedule/measured < calendar/week
	calendar/layout, calendar/svg, calendar/spreadsheet < calendar/cold
	calendar/svg < calendar/strips
	calendar/layout, calendar/svg, schedule/readings < calendar/warmth
	calendar/words, calendar/qr < calendar/label
	calendar/cold, calendar/strips < calendar/drawings
	calendar/week, calendar/strips < calendar/standing
	calendar/layout, calendar/spreadsheet, schedule/demand, schedule/chance < calendar/list
	calendar/layout, schedule/record/trace, schedule/measured < calendar/sheet
	calendar/said, calendar/week < calendar/heard
	calendar/ical, calendar/drawings, calendar/heard, calendar/warmth, calendar/standing, calendar/qr, calendar/label, calendar/list, calendar/icon, calendar/said, calendar/seen, calendar/ask, calendar/listeners, calendar/served, calendar/trust, calendar/crowd, schedule/planfile < calendar/feed
	calendar/ical, calendar/said < calendar/dav
	config/keys
	resources < config/fault
	config/fault, config/keys, schedule/record < config/recordfile
	schedule/needs, schedule/planfile, config/recordfile < config
	config < config/orders
	config, schedule/readings < config/readings

	cmd/ripeby/demo
	cmd/internal/authority
	config/orders, config/readings, calendar/feed, calendar/dav, calendar/sheet, calendar/thermometer, schedule/planner/whatif, schedule/judge, schedule/record/keep, schedule/learn, schedule/record/since, cmd/ripeby/demo, cmd/internal/authority < cmd/ripeby
	cmd/internal/generalsolver
	cmd/internal/processor
	cmd/cpbench/psplib
	schedule/cp/global < cmd/cpbench/rules
	cmd/cpbench/psplib, cmd/cpbench/rules, cmd/internal/generalsolver, cmd/internal/processor < cmd/cpbench
	config, schedule/planner, schedule/judge, cmd/internal/generalsolver, cmd/internal/processor < cmd/secondopinion
`

// The reasons are printed with a breach, so that whoever meets one knows what it
// is for.
const (
	whyPure   = "the domain is plain types: what it does must be the same on every machine, with no file, page or network"
	whyRepeat = "the engine counts integers and repeats itself: with a clock, a file or chance without a written seed two runs could differ"
	whyChance = "the same input gives the same bytes: chance is for search with a written seed, for addresses, and for the keys of https"
	whyApart  = "what judges must not share a mistake with what it judges"
	whyLeaf   = "what there is does not depend on what is done with it"
	whyBytes  = "where bytes go is said in cmd alone"
	whyHTTP   = "HTTP lives in calendar/feed, what is told without https in calendar/trust, what is laid over it for calendar programs in calendar/dav, and what thermometers post in calendar/thermometer"
	whyTests  = "this module is for tests only: the program must not carry it"
	whyOne    = "a library is used from one place, so that it can be replaced in one place"
)

// rooms are the packages of calendar that turn a plan into bytes, and what they stand
// on: all but the server and what only tests reach.
var rooms = []string{"calendar/note", "calendar/words", "calendar/layout", "calendar/svg",
	"calendar/ical", "calendar/week", "calendar/cold", "calendar/strips", "calendar/drawings", "calendar/standing", "calendar/qr", "calendar/icon", "calendar/address", "calendar/said", "calendar/heard", "calendar/seen", "calendar/ask", "calendar/listeners", "calendar/edition", "calendar/served", "calendar/trust", "calendar/crowd", "calendar/label", "calendar/list", "calendar/sheet", "calendar/spreadsheet", "calendar/warmth", "calendar/thermometer"}

// besides are all rooms but some.
func besides(some ...string) []string {
	return slices.DeleteFunc(slices.Clone(rooms), func(room string) bool { return slices.Contains(some, room) })
}

// forbidden lists imports that packages must not have even where the picture is
// silent: everything outside the module, and a few inside it whose reason is
// worth a sentence. A name ending in /... means everything below it too.
var forbidden = []struct {
	why     string
	who     []string
	imports []string
}{
	{whyApart, []string{"schedule/judge"},
		[]string{"ripeby/schedule/planner/...", "ripeby/schedule/cp/...", "ripeby/schedule/needs", "ripeby/resources/shelf"}},
	{whyApart, []string{"schedule/planner/...", "schedule/needs"}, []string{"ripeby/schedule/judge"}},
	{whyApart, []string{"cmd/secondopinion"}, []string{"ripeby/schedule/cp/...", "ripeby/resources/shelf"}},
	{whyPure, []string{"resources/...", "schedule/..."},
		[]string{"net/...", "github.com/arran4/golang-ical", "github.com/spf13/...", "github.com/olekukonko/...", "go.yaml.in/..."}},
	{whyPure, []string{"resources/...", "schedule/..."}, []string{"os/...", "log/...", "flag"}},
	{whyLeaf, []string{"resources"}, []string{"ripeby/..."}},
	{whyBytes, []string{"calendar/..."}, []string{"os/..."}},
	{whyHTTP, append([]string{"config/..."}, besides("calendar/trust", "calendar/served", "calendar/thermometer")...), []string{"net/http"}},
	{whyTests, []string{"..."}, []string{"github.com/goccy/...", "pgregory.net/rapid", "github.com/rogpeppe/go-internal/...", "testing/...",
		"github.com/chromedp/...", "ripeby/schedule/cp/tiny", "ripeby/schedule/cp/kernel/oracle", "ripeby/calendar/sample", "ripeby/schedule/testrun"}},
	{whyOne, []string{"config/..."}, []string{"github.com/arran4/golang-ical", "github.com/olekukonko/...", "github.com/spf13/cobra"}},
	{whyOne, []string{"calendar/..."}, []string{"github.com/spf13/...", "go.yaml.in/..."}},
	{whyOne, append(besides("calendar/ical"), "calendar/feed", "calendar/dav", "cmd/..."), []string{"github.com/arran4/golang-ical"}},
	{whyOne, append(besides("calendar/layout", "calendar/words"), "calendar/feed", "calendar/dav", "cmd/..."), // words asks it how wide a text is
		[]string{"github.com/olekukonko/..."}},
	{whyOne, append(besides("calendar/qr"), "calendar/feed", "calendar/dav", "cmd/...", "config/..."), []string{"github.com/piglig/go-qr"}},
	{whyOne, append(slices.Clone(rooms), "calendar/feed", "cmd/...", "config/...", "resources/...", "schedule/..."), []string{"github.com/emersion/..."}}, // calendar/dav reads with it what programs send
	{whyHTTP, []string{"cmd/..."}, []string{"net/http/..."}},
}

// engine is all that the engine may import from outside itself: a list of what it may
// not would always leave something out, as a list with math/rand did with
// math/rand/v2.
var engine = struct{ who, imports []string }{
	[]string{"schedule/cp/..."},
	[]string{"ripeby/schedule/cp/...", "cmp", "context", "errors", "fmt", "iter", "maps", "math", "math/bits", "reflect", "slices", "sort", "strings"},
}

// forTests are packages that only tests reach: they may import what tests do, and no
// program may import them.
var forTests = []string{"schedule/testrun", "schedule/cp/tiny", "schedule/cp/kernel/oracle", "calendar/sample"}

// chance lists who may draw by chance and of what: search with a seed that is
// written down (style_repeat_test.go), and addresses and keys that nobody may guess.
var chance = []struct{ imports, may []string }{
	{[]string{"math/rand/v2"}, []string{"schedule/cp/search", "schedule/chance", "cmd/..."}},
	{[]string{"crypto/rand"}, []string{"calendar/address", "cmd/internal/authority"}},
	{[]string{"math/rand/...", "crypto/rand/...", "hash/maphash"}, nil},
}

// refused gives the reasons why a package may not import a path.
func refused(pkg, path string) []string {
	if slices.Contains(forTests, pkg) {
		return nil
	}
	var why []string
	for _, rule := range forbidden {
		if matchesAny(rule.who, pkg) && matchesAny(rule.imports, path) {
			why = append(why, rule.why)
		}
	}
	drawn := slices.IndexFunc(chance, func(c struct{ imports, may []string }) bool { return matchesAny(c.imports, path) })
	lot := drawn >= 0
	if lot && !matchesAny(chance[drawn].may, pkg) {
		why = append(why, whyChance)
	}
	if matchesAny(engine.who, pkg) && !lot && !matchesAny(engine.imports, path) {
		why = append(why, whyRepeat)
	}
	return why
}

// TestRoomsAreListed has every new room of calendar fall under the rules for rooms.
func TestRoomsAreListed(t *testing.T) {
	drawn := readArrows(t, arrows)
	for pkg := range drawn {
		other := pkg == "calendar/feed" || pkg == "calendar/dav" || slices.Contains(forTests, pkg)
		if strings.HasPrefix(pkg, "calendar") && !other && !slices.Contains(rooms, pkg) {
			t.Errorf("%s is drawn but is none of the rooms of deps_test.go", pkg)
		}
	}
	for _, room := range rooms {
		if _, ok := drawn[room]; !ok {
			t.Errorf("%s is listed as a room, but not drawn", room)
		}
	}
}

// TestImportsFollowTheArrows holds every import of one of our packages by another
// against the picture.
func TestImportsFollowTheArrows(t *testing.T) {
	allowed := readArrows(t, arrows)
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		may, drawn := allowed[f.pkg]
		if !drawn {
			t.Errorf("%s: package %s is not in the picture of deps_test.go: draw it there, with its arrows", f.path, f.pkg)
			continue
		}
		for _, im := range f.ast.Imports {
			path := strings.Trim(im.Path.Value, `"`)
			ours, isOurs := strings.CutPrefix(path, module+"/")
			if isOurs && !may[ours] {
				t.Errorf("%s: %s imports %s: no arrow goes that way", f.at(im.Pos()), f.pkg, path)
			}
		}
	}
}

// TestForbiddenImports holds every import against the list with reasons.
func TestForbiddenImports(t *testing.T) {
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		for _, im := range f.ast.Imports {
			path := strings.Trim(im.Path.Value, `"`)
			for _, why := range refused(f.pkg, path) {
				t.Errorf("%s: %s imports %s: %s", f.at(im.Pos()), f.pkg, path, why)
			}
		}
	}
}

// TestThePictureIsRead guards the reader of the picture itself: a picture that
// were read as empty would allow everything or nothing.
func TestThePictureIsRead(t *testing.T) {
	allowed := readArrows(t, arrows)
	cases := []struct {
		from, to string
		want     bool
	}{
		{"schedule", "resources", true},
		{"resources", "schedule", false},
		{"schedule/planner", "schedule/cp/kernel", true}, // by way of schedule/cp
		{"schedule/planner/whatif", "schedule/planner", true},
		{"schedule/planner", "schedule/planner/whatif", false},
		{"schedule/judge", "resources", true},
		{"schedule/judge", "schedule/planner", false},
		{"schedule/judge", "schedule/needs", false},
		{"schedule/planner", "schedule/needs", true},
		{"schedule/judge", "resources/shelf", false},
		{"schedule/coldroom", "schedule/cp", false},
		{"schedule/cp", "schedule", false},
		{"schedule/cp", "schedule/cp/kernel", true},
		{"schedule/cp/statement", "schedule/cp/search", false},
		{"schedule/cp/statement", "schedule/cp/bound", false},
		{"schedule/cp/bound", "schedule/cp/kernel", false},
		{"schedule/cp/problem", "schedule/cp/usage", false},
		{"schedule/cp/global", "schedule/cp/problem", false},
		{"schedule/cp/search", "schedule/cp/explain", false},
		{"cmd/cpbench", "schedule", false},
		{"cmd/secondopinion", "cmd/cpbench", false},
		{"cmd/secondopinion", "calendar/note", false},
		{"schedule/planner", "calendar/note", false},
		{"calendar/week", "config", false},
		{"config", "calendar/words", false},
		{"calendar/ical", "calendar/words", true},
		{"calendar/words", "calendar/week", false},
		{"calendar/ical", "calendar/layout", false},
		{"calendar/cold", "calendar/week", false},
		{"calendar/strips", "calendar/cold", false},
		{"calendar/strips", "schedule/coldroom", true}, // by way of calendar/words
		{"calendar/week", "calendar/feed", false},
		{"calendar/feed", "calendar/thermometer", false},
		{"calendar/feed", "calendar/dav", false}, // side by side: cmd ties them
		{"calendar/dav", "calendar/feed", false},
		{"cmd/ripeby", "resources", true},
	}
	for _, c := range cases {
		if got := allowed[c.from][c.to]; got != c.want {
			t.Errorf("%s may import %s: got %v, want %v", c.from, c.to, got, c.want)
		}
	}
	patterns := []struct {
		pattern, name string
		want          bool
	}{
		{"os/...", "os", true}, {"os/...", "os/exec", true}, {"os/...", "osmosis", false},
		{"time", "time", true}, {"time", "time/tzdata", false}, {"...", "anything", true},
	}
	for _, c := range patterns {
		if got := matchesAny([]string{c.pattern}, c.name); got != c.want {
			t.Errorf("pattern %q on %q: got %v, want %v", c.pattern, c.name, got, c.want)
		}
	}
}

// TestForbiddenImportsAreSeen guards the lists themselves, with what has passed one
// by before.
func TestForbiddenImportsAreSeen(t *testing.T) {
	cases := []struct {
		pkg, path string
		want      bool
	}{
		{"schedule/cp/kernel", "math/rand", true},
		{"schedule/cp/kernel", "math/rand/v2", true},
		{"schedule/cp/global", "time", true},
		{"schedule/cp/global", "time/tzdata", true},
		{"schedule/cp/search", "math/rand/v2", false},
		{"schedule/cp", "math/rand/v2", true},
		{"schedule/cp/search", "ripeby/schedule/cp/tiny", true},
		{"schedule/cp/tiny", "testing", false},
		{"schedule/cp", "crypto/rand", true},
		{"schedule/cp", "runtime", true},
		{"schedule/cp", "ripeby/schedule", true},
		{"schedule/cp", "ripeby/schedule/cp/kernel", false},
		{"schedule/cp/aroomofitsown", "os/exec", true},
		{"schedule/planner", "math/rand/v2", true},
		{"schedule/judge", "hash/maphash", true},
		{"schedule/judge", "ripeby/resources/shelf", true},
		{"calendar/week", "math/rand/v2", true},
		{"calendar/week", "net/http", true},
		{"calendar/feed", "net/http", false},
		{"calendar/dav", "net/http", false},
		{"calendar/ical", "net/http", true},
		{"calendar/dav", "github.com/emersion/go-ical", false},
		{"calendar/ical", "github.com/emersion/go-ical", true},
		{"calendar/feed", "github.com/emersion/go-webdav", true},
		{"calendar/dav", "github.com/arran4/golang-ical", true},
		{"calendar/trust", "net/http", false},
		{"calendar/thermometer", "net/http", false},
		{"calendar/warmth", "net/http", true},
		{"calendar/trust", "os", true},
		{"calendar/strips", "os", true},
		{"calendar/ical", "github.com/arran4/golang-ical", false},
		{"calendar/feed", "github.com/arran4/golang-ical", true},
		{"calendar/layout", "github.com/olekukonko/tablewriter", false},
		{"calendar/cold", "github.com/olekukonko/tablewriter", true},
		{"calendar/cold", "github.com/piglig/go-qr", true},
		{"calendar/cold", "ripeby/calendar/sample", true},
		{"calendar/address", "crypto/rand", false},
		{"cmd/internal/authority", "crypto/rand", false},
		{"cmd/ripeby", "crypto/rand", true},
		{"config", "crypto/rand", true},
		{"cmd/cpbench", "math/rand/v2", false},
		{"cmd/cpbench", "math/rand", true},
		{"resources", "time", false},
	}
	for _, c := range cases {
		if got := refused(c.pkg, c.path); (len(got) > 0) != c.want {
			t.Errorf("%s imports %s: got refused %q, want refused %v", c.pkg, c.path, got, c.want)
		}
	}
}

// readArrows turns the picture into: package -> the packages it may import.
func readArrows(t *testing.T, picture string) map[string]map[string]bool {
	t.Helper()
	allowed := map[string]map[string]bool{}
	for _, line := range strings.Split(picture, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		left, right, arrow := strings.Cut(line, "<")
		if !arrow {
			left, right = "", line
		}
		for _, to := range names(right) {
			if allowed[to] == nil {
				allowed[to] = map[string]bool{}
			}
			for _, from := range names(left) {
				if allowed[from] == nil || from == to {
					t.Fatalf("arrows: %q: %s must be drawn on a line above", strings.TrimSpace(line), from)
				}
				allowed[to][from] = true
				for further := range allowed[from] {
					allowed[to][further] = true
				}
			}
			if allowed[to][to] {
				t.Fatalf("arrows: %q closes a circle", strings.TrimSpace(line))
			}
		}
	}
	return allowed
}

func names(list string) []string {
	var out []string
	for _, n := range strings.Split(list, ",") {
		if n = strings.TrimSpace(n); n != "" {
			out = append(out, n)
		}
	}
	return out
}

func matchesAny(patterns []string, name string) bool {
	return slices.ContainsFunc(patterns, func(p string) bool {
		below, all := strings.CutSuffix(p, "...")
		if !all {
			return p == name
		}
		return strings.HasPrefix(name+"/", below)
	})
}
