package judge

// checkSize: a new batch has between least and most litres, in whole steps above
// the least.
func checkSize(h *hearing) {
	for _, l := range h.lots {
		if l.past != nil || l.recipe == nil {
			continue
		}
		size := l.recipe.Batch
		over := l.batch.Litres - size.Least
		whole := over == 0 || size.Step > 0 && over%size.Step == 0
		if over < 0 || l.batch.Litres > size.Most || !whole {
			h.failLot("batch-size", l, "got %d mL, want %d to %d in steps of %d", l.batch.Litres, size.Least, size.Most, size.Step)
		}
	}
}

// checkPieces: a new batch has all the pieces that its milk gives; the spare is
// the recipe's.
func checkPieces(h *hearing) {
	for _, l := range h.lots {
		if l.recipe == nil {
			continue
		}
		if want := made(l.recipe, l.batch.Litres); l.past == nil && l.batch.Pieces != want {
			h.failLot("pieces", l, "got %d pieces, want %d from %d mL", l.batch.Pieces, want, l.batch.Litres)
		}
		if l.batch.Spare != l.recipe.Spare {
			h.failLot("spare", l, "got %d spare, want %d", l.batch.Spare, l.recipe.Spare)
		}
	}
}
