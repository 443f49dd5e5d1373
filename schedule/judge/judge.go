package judge

import (
	"fmt"
	"strings"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Violation is one breach of the contract. Rule is a stable code; Batch, Stage
// and Thing say where, each "" when it does not apply; At is 0 when the breach
// belongs to no moment; Text says what, got and want in the maker's words.
type Violation struct {
	Rule  string
	Batch string
	Stage string
	Thing string
	At    resources.Moment
	Text  string
}

// String gives the violation on one line, its moment in UTC.
func (v Violation) String() string {
	var b strings.Builder
	b.WriteString(v.Rule)
	for _, s := range []string{v.Batch, v.Stage, v.Thing} {
		if s != "" {
			b.WriteString(" " + s)
		}
	}
	if v.At != 0 {
		b.WriteString(" at " + time.Unix(int64(v.At)*60, 0).UTC().Format(time.RFC3339))
	}
	b.WriteString(": " + v.Text)
	return b.String()
}

// Check gives all violations of the plan, in a fixed order: rule by rule, batch
// by batch. None means that the plan holds, its score included. A plan with
// moments more than [Reach] from its start is judged on that alone.
func Check(p *schedule.Problem, plan *schedule.Plan) []Violation {
	if p == nil || plan == nil {
		return []Violation{{Rule: "no-plan", Text: "got no plan or no problem, want both"}}
	}
	if far := outOfReach(p, plan); far != nil {
		return far
	}
	h := newHearing(p, plan)
	for _, rule := range rules() {
		rule(h)
	}
	return h.found
}

// rules lists every rule in the order in which breaches are told.
func rules() []func(*hearing) {
	return []func(*hearing){
		checkHeader, checkIDs, checkNumbers, checkLost,
		checkBegunPresent, checkBegunBatch, checkBegunStages, checkBegunBoxes,
		checkCourse, checkStuck, checkChain, checkStart, checkWork, checkHold, checkRoom, checkOverrun, checkPatience, checkLastHold,
		checkSize, checkPieces,
		checkWho, checkHours, checkOverlap, checkRoundFree, checkMostPerDay,
		checkRuns, checkKitCounts,
		checkPlace, checkStays, checkTaken, checkCounted,
		checkBoxes, checkShelves,
		checkMilk, checkCollections,
		checkCare, checkRounds, checkLooks, checkLooksFree, checkCarries, checkCarriesFree, checkCarried, checkOverdue,
		checkShares, checkSellable, checkServes, checkWants,
		checkStock, checkRemembered, checkResults, checkOutcome,
		checkSlip, checkCritical, checkHistory, checkChanges, checkWarnings,
		checkScore, checkProof,
	}
}

// Reach is how far from the planning start a plan's moments may lie, in minutes:
// twenty years. It keeps a damaged plan from being judged day by day for ever.
const Reach = 20 * 366 * resources.Day

// outOfReach gives a violation for each stage with a moment beyond [Reach].
func outOfReach(p *schedule.Problem, plan *schedule.Plan) []Violation {
	var found []Violation
	near := func(m resources.Moment) bool {
		return p.From-resources.Moment(Reach) <= m && m <= p.From+resources.Moment(Reach)
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for k := range b.Stages {
			t := &b.Stages[k]
			if near(t.Start) && near(t.Ends) && 0 <= t.Work && t.Work <= Reach && -Reach <= t.Hold && t.Hold <= Reach {
				continue
			}
			found = append(found, Violation{Rule: "out-of-reach", Batch: b.ID, Stage: t.Stage,
				Text: fmt.Sprintf("got a stage of %d + %d minutes from %d to %d, want moments within twenty years of the planning start and no work below 0",
					t.Work, t.Hold, t.Start, t.Ends)})
		}
	}
	return found
}
