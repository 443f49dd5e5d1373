// Package listeners holds the pages that are looked at and wait to be told that something has changed: so many
// at a time, each without a word of what it is.
package listeners

import "sync"

// Most is how many pages are told at a time; others look by themselves.
const Most = 64

// Listeners are the pages that are told of changes. The zero value is ready; all methods may be called at any
// time.
type Listeners struct {
	mu  sync.Mutex
	all map[chan struct{}]bool
}

// Add takes a listener in; nil where there are as many as there may be.
func (l *Listeners) Add() chan struct{} {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.all) >= Most {
		return nil
	}
	if l.all == nil {
		l.all = map[chan struct{}]bool{}
	}
	c := make(chan struct{}, 1)
	l.all[c] = true
	return c
}

// Leave lets a listener go.
func (l *Listeners) Leave(c chan struct{}) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.all, c)
}

// Count is how many there are.
func (l *Listeners) Count() int {
	l.mu.Lock()
	defer l.mu.Unlock()
	return len(l.all)
}

// Tell has all of them know that something has changed. Nobody is waited for: who has not yet
// taken the last word is told by that.
func (l *Listeners) Tell() {
	l.mu.Lock()
	defer l.mu.Unlock()
	for c := range l.all {
		select {
		case c <- struct{}{}:
		default:
		}
	}
}
