package planfile

import (
	"encoding/json"

	"ripeby/schedule"
)

// doseKeys is what goes in at a stage. Where the curd is not weighed, amount is its share and unit is %.
type doseKeys struct {
	What     string      `json:"what"`
	Amount   json.Number `json:"amount"`
	Unit     string      `json:"unit"`
	Rounded  json.Number `json:"rounded"` // 0 where it is less than can be measured
	Strength string      `json:"strength,omitempty"`
	Lot      string      `json:"lot,omitempty"`
}

// usedKeys is what batches that are no longer in the plan took of a packet.
type usedKeys struct {
	What   string      `json:"what"`
	Opened string      `json:"opened"`
	Amount json.Number `json:"amount"`
	Unit   string      `json:"unit"`
}

// dosePlaces is after how many decimals a dose has no further digits.
const dosePlaces = 6

func dose(d schedule.Dose) doseKeys {
	return doseKeys{What: d.What, Amount: decimalOf(d.Amount, dosePlaces), Unit: d.Unit, Rounded: decimalOf(d.Rounded, dosePlaces), Strength: d.Strength, Lot: d.Lot}
}

func (w *writer) used(u schedule.PacketUsed) usedKeys {
	return usedKeys{What: u.What, Opened: w.moment(u.From), Amount: decimalOf(u.Amount, dosePlaces), Unit: u.Unit}
}

// dose reads one; the contract does not ask for what it is rounded to.
func (r *reader) dose(at trail, k doseKeys) schedule.Dose {
	if k.Rounded == "" {
		k.Rounded = k.Amount
	}
	return schedule.Dose{What: r.name(at.key("what"), k.What), Amount: r.decimal(at.key("amount"), k.Amount, dosePlaces), Unit: r.name(at.key("unit"), k.Unit),
		Rounded: r.decimal(at.key("rounded"), k.Rounded, dosePlaces), Strength: k.Strength, Lot: k.Lot}
}

func (r *reader) used(at trail, k usedKeys) schedule.PacketUsed {
	return schedule.PacketUsed{What: r.name(at.key("what"), k.What), From: r.moment(at.key("opened"), k.Opened),
		Amount: r.decimal(at.key("amount"), k.Amount, dosePlaces), Unit: r.name(at.key("unit"), k.Unit)}
}
