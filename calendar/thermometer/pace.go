package thermometer

import (
	"sync"
	"time"
)

// postsAMinute is how many times a minute one thermometer may post: more than any needs, and as many as let one
// that kept a week's readings send them in a quarter of an hour.
const postsAMinute = 60

// pace counts what comes to each address in a minute.
type pace struct {
	mu     sync.Mutex
	counts map[string]*minute // by token, of those that are in use
}

type minute struct {
	since time.Time
	posts int
}

// wait counts one more, and is 0; or, where there were as many as may be, how long to wait.
func (p *pace) wait(token string, now time.Time) time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.counts == nil {
		p.counts = map[string]*minute{}
	}
	m := p.counts[token]
	if m == nil || now.Sub(m.since) >= time.Minute || now.Before(m.since) {
		m = &minute{since: now}
		p.counts[token] = m
	}
	if m.posts >= postsAMinute {
		return m.since.Add(time.Minute).Sub(now)
	}
	m.posts++
	return 0
}
