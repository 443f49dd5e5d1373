package dav

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strconv"
	"strings"

	"ripeby/calendar/address"
)

// File is the name under which is kept what programs have seen of the tasks.
const File = "tasks.json"

const journalFormat = "ripeby/tasks/1"

// How far back programs may go on from, for each person. What is older they are told, and fetch all once.
const (
	mostStates = 256 // that a token may name
	mostGone   = 512 // members that are not there any more
)

// journal is what programs have seen of the tasks, for each person. Each state has a number; every member
// has that of the state in which it last changed, so that what has changed since a state is what has a
// higher one.
type journal struct {
	store  address.Store
	people map[string]*seen // by what stands for them in paths
}

// seen is what programs have seen of one person's tasks.
type seen struct {
	States  []state          `json:"states"` // the newest last
	Members map[string]entry `json:"members"`
}

// state is one state of a collection. Its print is of all members and their tags: a number alone could mean
// another state, where an old copy of the file was put back.
type state struct {
	Nr    int    `json:"nr"`
	Print string `json:"print"`
}

// entry is one member.
type entry struct {
	Tag  string `json:"tag"`            // of its text
	Nr   int    `json:"nr"`             // the state in which it last changed
	Turn int    `json:"turn,omitempty"` // how often it was put back
	Gone bool   `json:"gone,omitempty"`
}

// journalKeys are the keys of the file.
type journalKeys struct {
	Format string           `json:"format"`
	People map[string]*seen `json:"people"`
}

// readJournal reads what is kept. Where that cannot be read it is empty, and the error says why.
func readJournal(store address.Store) (*journal, error) {
	j := &journal{store: store, people: map[string]*seen{}}
	text, err := store.Read(File)
	if errors.Is(err, fs.ErrNotExist) {
		return j, nil
	}
	if err != nil {
		return j, err
	}
	var k journalKeys
	if err := json.Unmarshal(text, &k); err != nil || k.Format != journalFormat {
		return j, fmt.Errorf("%s, which holds what programs have seen of the tasks, is damaged; they fetch all once more", File)
	}
	for id, s := range k.People {
		if s != nil && s.whole() {
			j.people[id] = s
		}
	}
	return j, nil
}

// whole reports whether what was read can be gone on from: the states in order, and no member after the last.
func (s *seen) whole() bool {
	if len(s.States) == 0 || s.Members == nil || !slices.IsSortedFunc(s.States, func(a, b state) int { return cmp.Compare(a.Nr, b.Nr) }) {
		return false
	}
	for _, m := range s.Members {
		if m.Nr > s.last().Nr {
			return false
		}
	}
	return true
}

// keep writes the file.
func (j *journal) keep() error {
	text, err := json.Marshal(journalKeys{journalFormat, j.people})
	if err != nil {
		return err
	}
	return j.store.Write(File, append(text, '\n'))
}

// last is the newest state.
func (s *seen) last() state { return s.States[len(s.States)-1] }

// see takes over what there is now, the tags of texts by the members' names, and that one of them was put back,
// "" for none, and reports whether that is a new state. What was given before does not change.
func (j *journal) see(id string, tags map[string]string, back string) (s *seen, isNew bool) {
	s = &seen{Members: map[string]entry{}}
	if before := j.people[id]; before != nil {
		s.States, s.Members = slices.Clone(before.States), maps.Clone(before.Members)
	}
	next := 1
	if len(s.States) > 0 {
		next = s.last().Nr + 1
	}
	isNew = len(s.States) == 0
	for name, tag := range tags {
		m, known := s.Members[name]
		if known && !m.Gone && m.Tag == tag && name != back {
			continue
		}
		if name == back {
			m.Turn++
		}
		s.Members[name] = entry{Tag: tag, Nr: next, Turn: m.Turn}
		isNew = true
	}
	for name, m := range s.Members {
		if _, there := tags[name]; !there && !m.Gone {
			m.Gone, m.Nr = true, next
			s.Members[name] = m
			isNew = true
		}
	}
	if !isNew {
		return j.people[id], false
	}
	s.States = append(s.States, state{next, s.print()})
	s.forget()
	j.people[id] = s
	return s, true
}

// print is of all members that are there.
func (s *seen) print() string {
	h := sha256.New()
	for _, name := range s.names() {
		if m := s.Members[name]; !m.Gone {
			fmt.Fprintf(h, "%s %s\n", name, m.etag())
		}
	}
	return hex.EncodeToString(h.Sum(nil)[:12])
}

// names are those of all members, by the state in which each last changed.
func (s *seen) names() []string {
	var all []string
	for name := range s.Members {
		all = append(all, name)
	}
	slices.SortFunc(all, func(a, b string) int {
		return cmp.Or(cmp.Compare(s.Members[a].Nr, s.Members[b].Nr), cmp.Compare(a, b))
	})
	return all
}

// there are the names of the members that are there, in that order.
func (s *seen) there() []string {
	return slices.DeleteFunc(s.names(), func(name string) bool { return s.Members[name].Gone })
}

// forget leaves out the oldest states, and what went before them.
func (s *seen) forget() {
	if n := len(s.States) - mostStates; n > 0 {
		s.States = slices.Delete(s.States, 0, n)
	}
	gone := slices.DeleteFunc(s.names(), func(name string) bool { return !s.Members[name].Gone })
	for i, name := range gone {
		nr := s.Members[name].Nr
		if nr > s.States[0].Nr && len(gone)-i <= mostGone {
			return
		}
		// A token of before it went would not be told of it.
		delete(s.Members, name)
		s.States = slices.DeleteFunc(s.States, func(st state) bool { return st.Nr < nr })
	}
}

// etag is a member's tag as it is sent (RFC 9110, 8.8.3). What was put back has another one than before, though its text is the
// same, so that the program that changed it fetches it.
func (m entry) etag() string { return `"` + m.Tag + "-" + strconv.Itoa(m.Turn) + `"` }

// tagOf is the tag of a text.
func tagOf(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:12])
}

// tokenBegin is how tokens begin: they are addresses by their form (RFC 6578, 4).
const tokenBegin = "urn:ripeby:tasks:"

// token names a state. One that ends with a member's name stands for so much of it as was sent.
func (st state) token(upTo string) string {
	text := tokenBegin + strconv.Itoa(st.Nr) + ":" + st.Print
	if upTo != "" {
		text += ":" + upTo
	}
	return text
}

// since reads a token: of which state it is, and up to which member. It is not ok where that is not known any more.
func (s *seen) since(token string) (nr int, upTo string, ok bool) {
	rest, ours := strings.CutPrefix(token, tokenBegin)
	parts := strings.Split(rest, ":")
	if !ours || len(parts) < 2 || len(parts) > 3 {
		return 0, "", false
	}
	nr, err := strconv.Atoi(parts[0])
	if err != nil || !slices.Contains(s.States, state{nr, parts[1]}) {
		return 0, "", false
	}
	if len(parts) == 3 {
		upTo = parts[2]
	}
	return nr, upTo, true
}

// changed are the names of the members that changed since, in that order; those of a state of which a part was
// sent that come after that.
func (s *seen) changed(nr int, upTo string) []string {
	return slices.DeleteFunc(s.names(), func(name string) bool {
		m := s.Members[name]
		return m.Nr < nr || m.Nr == nr && (upTo == "" || name <= upTo)
	})
}
