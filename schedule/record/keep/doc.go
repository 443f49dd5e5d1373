// Package keep says what is kept of each batch that has begun, beside the record: what the plan
// knew of it, with what nobody said marked as assumed. A plan forgets a batch when nothing of it
// is to come; what was made stays.
//
//	plan before ─┐
//	record      ─┼─► follows.Life ─┐
//	new plan    ─┘                 ├─► schedule.KeptBatch ─► record/batches/ID.json
//	what was kept before ──────────┘        (planned starts, what left long ago)
//
// It is pure, and to do it twice gives the same: what was kept before is asked only for what no
// plan knows any more, and nothing is ever planned from it.
//
// Reading order: keep.go (which batches), stages.go, shares.go, carries.go, recipe.go.
package keep
