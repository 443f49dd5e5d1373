package main

import (
	"fmt"
	"os"
	"path/filepath"

	"ripeby/schedule"
	"ripeby/schedule/record/follows"
	"ripeby/schedule/record/keep"
)

// batchesKept works out what is to be kept of batches when a plan is put in force; nil where the
// plan does not go into the kitchen's own folder, or there is no kitchen folder. Files that
// cannot be read are told, and left as they are.
func (k kitchen) batchesKept(out output, where *follows.Position, plan *schedule.Plan, mind func(string)) (*batchChange, error) {
	if k.demo || !k.owns(out) {
		return nil, nil
	}
	c := &batchChange{folder: batchFolder{k.folder}}
	texts, bad := map[string][]byte{}, map[string]bool{}
	read := func(id string) *schedule.KeptBatch {
		text, b, err := c.folder.read(batchFile(id))
		texts[id], bad[id] = text, err != nil
		if err != nil {
			mind("mind that " + err.Error())
		}
		return b
	}
	kept := keep.Batches(where, plan, read)
	for i := range kept.Batches {
		b := &kept.Batches[i]
		if bad[b.ID] {
			continue
		}
		if err := c.add(b, texts[b.ID], where.Problem.Kitchen.Zone); err != nil {
			return nil, err
		}
	}
	for _, id := range kept.Never {
		c.drop = append(c.drop, batchFile(id))
	}
	for _, id := range kept.Taken {
		mind(fmt.Sprintf("mind that %s was the number of another batch before, whose file %s/%s is left as it is: give this one another number in begun.yaml",
			id, batchesBelow, batchFile(id)))
	}
	return c, nil
}

// owns reports whether plans of an output are the kitchen's own: those in the folder plan in the
// kitchen folder, by whatever path.
func (k kitchen) owns(out output) bool {
	own := filepath.Join(k.folder, "plan")
	a, errA := filepath.Abs(own)
	b, errB := filepath.Abs(out.dir)
	if errA == nil && errB == nil && a == b {
		return true
	}
	x, errX := os.Stat(own)
	y, errY := os.Stat(out.dir)
	return errX == nil && errY == nil && os.SameFile(x, y)
}
