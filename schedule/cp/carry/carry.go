package carry

import (
	"ripeby/schedule/cp/bound"
	"ripeby/schedule/cp/chain"
)

// Carrier puts the jobs under way of a schedule in force.
type Carrier struct {
	*chain.Schedule
	Relax *bound.Relaxation // what is known of each alone
}
