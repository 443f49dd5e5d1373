package planfile

import (
	"bytes"
	"encoding/json"
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

// MaxBatchBytes is the size of the largest file of a batch that is read: some hundred times what
// a batch takes.
const MaxBatchBytes = 1 << 20

// DecodeBatch reads what is kept of a batch. Keys that it does not know are passed over. What is
// damaged, of another schema, larger than [MaxBatchBytes], or lacks what a batch cannot do
// without is a [*Fault]; the first one found is given.
func DecodeBatch(text []byte) (*schedule.KeptBatch, error) {
	if len(text) > MaxBatchBytes {
		return nil, &Fault{Got: fmt.Sprintf("the file is %d bytes long", len(text)), Want: fmt.Sprintf("at most %d", MaxBatchBytes)}
	}
	if len(bytes.TrimSpace(text)) == 0 {
		return nil, &Fault{Got: "the file is empty", Want: "a batch"}
	}
	var k keptKeys
	if err := json.Unmarshal(text, &k); err != nil {
		return nil, faultOf(text, err)
	}
	r := reader{text: text}
	b := r.keptBatch(&k)
	if r.fault != nil {
		return nil, r.fault
	}
	return b, nil
}

func (r *reader) keptBatch(k *keptKeys) *schedule.KeptBatch {
	root := trail{}
	if k.Schema != BatchSchema {
		r.fail(root.key("schema"), fmt.Sprintf("is %q", clip(k.Schema)), fmt.Sprintf("%q", BatchSchema))
		return nil
	}
	b := &schedule.KeptBatch{Kitchen: k.Kitchen, TimeZone: r.name(root.key("timezone"), k.TimeZone),
		ID: r.name(root.key("id"), k.ID), Lot: orEmpty(k.Lot), Cheese: r.name(root.key("cheese"), k.Cheese), Lost: k.Lost,
		Litres: r.litres(root.key("litres"), k.Litres), Pieces: r.number(root.key("pieces"), k.Pieces), Spare: r.number(root.key("spare"), k.Spare),
		Assumed: list(root.key("assumed"), k.Assumed, func(_ trail, s string) string { return s })}
	if o, at := k.OffPlan, root.key("off_plan"); o != nil {
		b.OffPlan = &schedule.MadeOffPlan{ID: k.ID, Cheese: k.Cheese, Nr: r.number(at.key("nr"), o.Nr), At: r.moment(at.key("at"), o.At)}
	}
	if c, at := k.Counted, root.key("counted"); c != nil {
		b.Counted = &schedule.Count{Pieces: r.number(at.key("pieces"), c.Pieces), At: r.moment(at.key("at"), c.At)}
	}
	if m, at := k.Milk, root.key("milk"); m != nil {
		b.Milk = &schedule.KeptMilk{Draw: schedule.Draw{Supply: r.name(at.key("supply"), m.Supply), Collect: r.moment(at.key("collect"), m.Collect)},
			Day: r.day(at.key("day"), m.Day)}
	}
	if k.UseBy != nil {
		b.UseBy = r.day(root.key("use_by"), *k.UseBy)
	}
	if len(k.Stages) == 0 {
		r.fail(root.key("stages"), "is empty or missing", "the stages of the batch")
	}
	b.Stages = list(root.key("stages"), k.Stages, r.keptStage)
	b.For = list(root.key("for"), k.For, r.keptShare)
	b.Carries = list(root.key("carries"), k.Carries, func(at trail, c keptCarryKeys) schedule.KeptCarry {
		return schedule.KeptCarry{Stage: r.name(at.key("stage"), c.Stage), Start: r.moment(at.key("start"), c.Start), Who: c.Who,
			From: r.name(at.key("from"), c.From), To: r.name(at.key("to"), c.To)}
	})
	b.Recipe = r.keptRecipe(root.key("recipe"), k.Recipe)
	return b
}

func (r *reader) keptStage(at trail, s keptStageKeys) schedule.KeptStage {
	if s.Said != nil {
		r.oneOf(at.key("said"), *s.Said, schedule.SaidByRecord, schedule.SaidByBegun)
	}
	return schedule.KeptStage{Stage: r.name(at.key("stage"), s.Stage), Begun: s.Begun, Said: orEmpty(s.Said),
		Start: r.moment(at.key("start"), s.Start), Planned: r.known(at.key("planned"), s.Planned),
		Work: r.minutes(at.key("work"), s.Work), Who: orEmpty(s.Who), Hold: r.hold(at.key("hold"), s.Hold), Ends: r.moment(at.key("ends"), s.Ends),
		At: r.name(at.key("at"), s.At), Uses: list(at.key("uses"), s.Uses, r.use), Needs: list(at.key("needs"), s.Needs, r.dose),
		Measures: list(at.key("measures"), s.Measures, func(at trail, k measureKeys) schedule.Measure { return r.measure(at, s.Stage, k) })}
}

func (r *reader) keptShare(at trail, s keptShareKeys) schedule.KeptShare {
	out := schedule.KeptShare{Share: r.share(at, s.shareKeys), Gone: s.Left != nil, Assumed: s.Assumed}
	if s.Left != nil {
		out.Left = r.number(at.key("left"), *s.Left)
	}
	return out
}

func (r *reader) keptRecipe(at trail, k *keptRecipeKeys) *schedule.KeptRecipe {
	if k == nil {
		return nil
	}
	return &schedule.KeptRecipe{Name: r.name(at.key("name"), k.Name), Code: k.Code, Milk: orEmpty(k.Milk),
		Yield: schedule.Yield{Pieces: r.number(at.key("yield").key("pieces"), k.Yield.Pieces), From: r.litres(at.key("yield").key("from"), k.Yield.From)},
		Piece: resources.Milligrams(r.count(at.key("piece_mg"), k.Piece)), Spare: r.number(at.key("spare"), k.Spare), Keeps: r.minutes(at.key("keeps"), k.Keeps),
		Stages: list(at.key("stages"), k.Stages, func(at trail, s keptLimitsKeys) schedule.KeptLimits {
			out := schedule.KeptLimits{Stage: r.name(at.key("stage"), s.Stage), At: s.At}
			if s.Least != nil && s.Most != nil {
				out.Hold = &schedule.Hold{Least: r.minutes(at.key("least"), *s.Least), Most: r.minutes(at.key("most"), *s.Most)}
				if s.Best != nil {
					out.Hold.Best, out.Hold.HasBest = r.minutes(at.key("best"), *s.Best), true
				}
				r.setTime(at, s, out.Hold)
			}
			return out
		})}
}

// setTime reads when a hold is ready, as far as its recipe said that.
func (r *reader) setTime(at trail, s keptLimitsKeys, h *schedule.Hold) {
	if s.Ready != nil {
		h.Ready = r.minutes(at.key("ready"), *s.Ready)
	}
	if by := s.GoesBy; by != nil {
		at := at.key("goes_by")
		h.GoesBy = schedule.GoesBy{
			Temperature: resources.MilliCelsius(r.decimal(at.key("temperature"), by.Temperature, degreePlaces)),
			Times:       resources.Factor(r.decimal(at.key("times"), by.Times, factorPlaces))}
	}
	if s.Varies != nil {
		h.Varies = resources.Factor(r.decimal(at.key("varies"), *s.Varies, factorPlaces))
	}
}
