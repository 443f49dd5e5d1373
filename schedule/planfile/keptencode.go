package planfile

import (
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// EncodeBatch writes what is kept of a batch, as [Encode] writes a plan: equal batches give equal
// bytes.
func EncodeBatch(b *schedule.KeptBatch, zone *time.Location) ([]byte, error) {
	w := writer{zone: zone}
	k := keptKeys{
		Schema: BatchSchema, Kitchen: b.Kitchen, TimeZone: b.TimeZone, ID: b.ID, Lot: orNull(b.Lot), Cheese: b.Cheese, Lost: b.Lost,
		Litres: decimalOf(int64(b.Litres), litrePlaces), Pieces: b.Pieces, Spare: b.Spare,
		Assumed: each(b.Assumed, func(s string) string { return s }),
		Stages:  each(b.Stages, w.keptStage),
		For:     each(b.For, w.keptShare),
		Recipe:  keptRecipeOf(b.Recipe),
		Carries: each(b.Carries, func(c schedule.KeptCarry) keptCarryKeys {
			return keptCarryKeys{Stage: c.Stage, Start: w.moment(c.Start), Who: c.Who, From: c.From, To: c.To}
		}),
	}
	if o := b.OffPlan; o != nil {
		k.OffPlan = &lineKeys{Nr: o.Nr, At: w.moment(o.At)}
	}
	if c := b.Counted; c != nil {
		k.Counted = &countKeys{Pieces: c.Pieces, At: w.moment(c.At)}
	}
	if b.Milk != nil {
		k.Milk = &keptMilkKeys{milkKeys{Supply: b.Milk.Supply, Collect: w.moment(b.Milk.Collect)}, dayText(b.Milk.Day)}
	}
	if (b.UseBy != resources.Date{}) {
		k.UseBy = orNull(dayText(b.UseBy))
	}
	if w.err != nil {
		return nil, w.err
	}
	return written(k, "the batch "+b.ID)
}

func (w *writer) keptStage(s schedule.KeptStage) keptStageKeys {
	return keptStageKeys{Stage: s.Stage, Begun: s.Begun, Assumed: s.Assumed(), Said: orNull(s.Said),
		Start: w.moment(s.Start), Planned: w.known(s.Planned), Work: int64(s.Work), Who: orNull(s.Who),
		Hold: int64(s.Hold), Ends: w.moment(s.Ends), At: s.At, Uses: each(s.Uses, w.use), Needs: each(s.Needs, dose), Measures: each(s.Measures, measure)}
}

func (w *writer) keptShare(s schedule.KeptShare) keptShareKeys {
	k := keptShareKeys{shareKeys: w.share(s.Share), Assumed: s.Assumed}
	if s.Gone {
		k.Left = &s.Left
	}
	return k
}

func keptRecipeOf(r *schedule.KeptRecipe) *keptRecipeKeys {
	if r == nil {
		return nil
	}
	return &keptRecipeKeys{Name: r.Name, Code: r.Code, Milk: orNull(r.Milk),
		Yield: yieldKeys{Pieces: r.Yield.Pieces, From: decimalOf(int64(r.Yield.From), litrePlaces)},
		Piece: int64(r.Piece), Spare: r.Spare, Keeps: int64(r.Keeps),
		Stages: each(r.Stages, func(s schedule.KeptLimits) keptLimitsKeys {
			k := keptLimitsKeys{Stage: s.Stage, At: s.At}
			if h := s.Hold; h != nil {
				k.Least, k.Most = minutesOf(h.Least), minutesOf(h.Most)
				if h.HasBest {
					k.Best = minutesOf(h.Best)
				}
				k.setTime(h)
			}
			return k
		})}
}

// setTime writes when a hold is ready, as far as its recipe says that.
func (k *keptLimitsKeys) setTime(h *schedule.Hold) {
	if h.Ready > 0 {
		k.Ready = minutesOf(h.Ready)
	}
	if by := h.GoesBy; by != (schedule.GoesBy{}) {
		k.GoesBy = &keptByKeys{Temperature: decimalOf(int64(by.Temperature), degreePlaces), Times: decimalOf(int64(by.Times), factorPlaces)}
	}
	if h.Varies > 0 {
		share := decimalOf(int64(h.Varies), factorPlaces)
		k.Varies = &share
	}
}

func minutesOf(m resources.Minutes) *int64 {
	n := int64(m)
	return &n
}
