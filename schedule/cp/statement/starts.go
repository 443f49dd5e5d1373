package statement

import "ripeby/schedule/cp/global"

// addStarts keeps a start at moments at which one of its workers can do the work.
func (k *Statement) addStarts(sl *Slot, i int) {
	starts := sl.chains.Starts[i]
	ways := make([]global.Way, len(starts))
	for w := range ways {
		ways[w] = global.Way{If: k.Yes, Sets: starts[w]}
		if len(sl.Who[i]) > 0 {
			ways[w].If = sl.Who[i][w]
		}
	}
	global.AddAllowed(k.Kernel, sl.Start[i], sl.Size, ways, sl.Present())
}
