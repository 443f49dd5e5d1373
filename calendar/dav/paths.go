package dav

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"strings"
)

// Where things are, all within [Root]. Names of people and batches are in none of the paths: programs do not
// all write odd letters alike.
//
//	/dav/                          says who asks
//	/dav/PERSON/                   the person
//	/dav/PERSON/calendars/         where their collections are
//	/dav/PERSON/calendars/tasks/   the only one: their tasks
//	/dav/PERSON/calendars/tasks/NAME.ics
const (
	homePart  = "calendars/"
	tasksPart = "tasks/"
	memberEnd = ".ics"
)

// idOf is what stands for a name in paths, of letters and digits.
func idOf(name string) string {
	sum := sha256.Sum256([]byte(name))
	return hex.EncodeToString(sum[:8])
}

// memberOf is the name of a task's member, by its UID.
func memberOf(uid string) string {
	sum := sha256.Sum256([]byte(uid))
	return hex.EncodeToString(sum[:12]) + memberEnd
}

func (p *person) principal() string { return Root + p.id + "/" }
func (p *person) home() string      { return p.principal() + homePart }
func (p *person) tasks() string     { return p.home() + tasksPart }

// kind is what there is at a path.
type kind int

const (
	rootKind kind = iota
	principalKind
	homeKind
	tasksKind
	memberKind
)

// place is what a path leads to; member is the name of one.
type place struct {
	kind   kind
	member string
}

// placeOf finds what a path leads to. What is another person's nobody is told of.
func (p *person) placeOf(path string) (place, *fault) {
	collection := strings.TrimSuffix(path, "/") + "/"
	for k, at := range []string{Root, p.principal(), p.home(), p.tasks()} {
		if collection == at {
			return place{kind: kind(k)}, nil
		}
	}
	if rest, ok := strings.CutPrefix(path, p.tasks()); ok && rest != "" && !strings.Contains(rest, "/") {
		return place{memberKind, rest}, nil
	}
	if _, mine := strings.CutPrefix(path, p.principal()); !mine && strings.HasPrefix(path, Root) {
		return place{}, notAllowed(path, "read", "This is not yours, or is not here.")
	}
	return place{}, refused(http.StatusNotFound, "There is nothing at this address.")
}

// pathOf is where a place is.
func (p *person) pathOf(at place) string {
	return []string{Root, p.principal(), p.home(), p.tasks(), p.tasks()}[at.kind] + at.member
}
