package resources

// RoomFrom is how warm the make room is from a day on, until the next that is listed.
type RoomFrom struct {
	From Date
	Is   MilliCelsius
}

// RoomOn is how warm the make room is on a day: by the last day listed that is not after it, before
// all of them as on the first.
func (k *Kitchen) RoomOn(day Date) MilliCelsius {
	is := k.Room
	for _, r := range k.Rooms {
		if !day.Before(r.From) {
			is = r.Is
		}
	}
	return is
}

// WarmestRoom is how warm the make room is when it is warmest.
func (k *Kitchen) WarmestRoom() MilliCelsius {
	is := k.Room
	for _, r := range k.Rooms {
		is = max(is, r.Is)
	}
	return is
}
