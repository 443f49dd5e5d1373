package words

import "ripeby/schedule"

// TakenAsOrdered is said of milk that only the plan before says was ordered.
const TakenAsOrdered = "taken as ordered"

// MilkKnown says how it is known that milk comes.
func MilkKnown(by schedule.KnownBy) string {
	switch by {
	case schedule.KnownCame:
		return "Came"
	case schedule.KnownStanding:
		return "Comes without an order"
	}
	return "Ordered already"
}
