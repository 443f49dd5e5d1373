package address

import (
	"sync"
	"time"
)

// How many things one writing address may say: more than anybody does who works, so that whoever has an
// address that was lost cannot fill the record.
const (
	TapsAMinute = 30
	TapsADay    = 500
)

// Pace counts what each address says.
type Pace struct {
	mu   sync.Mutex
	taps map[string][]time.Time // of a day, by the address's token, the oldest first
}

// Back takes the last one off again: it was not looked at.
func (p *Pace) Back(token string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if n := len(p.taps[token]); n > 0 {
		p.taps[token] = p.taps[token][:n-1]
	}
}

// Wait counts one more, and is 0; or, where there were as many as may be, how long to wait.
func (p *Pace) Wait(token string, now time.Time) time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.taps == nil {
		p.taps = map[string][]time.Time{}
	}
	all := p.taps[token]
	for len(all) > 0 && now.Sub(all[0]) >= 24*time.Hour {
		all = all[1:]
	}
	p.taps[token] = all
	if len(all) >= TapsADay {
		return 24*time.Hour - now.Sub(all[0])
	}
	if n := len(all); n >= TapsAMinute {
		if ago := now.Sub(all[n-TapsAMinute]); ago < time.Minute {
			return time.Minute - ago
		}
	}
	p.taps[token] = append(all, now)
	return 0
}
