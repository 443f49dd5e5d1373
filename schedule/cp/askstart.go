package cp

import "ripeby/schedule/cp/global"

// addStarts keeps a start at moments at which one of its workers can do the work.
func (k *asked) addStarts(sl *slot, i int) {
	starts := sl.chains.starts[i]
	ways := make([]global.Way, len(starts))
	for w := range ways {
		ways[w] = global.Way{If: k.yes, Sets: starts[w]}
		if len(sl.who[i]) > 0 {
			ways[w].If = sl.who[i][w]
		}
	}
	global.AddAllowed(k.k, sl.start[i], sl.size, ways, sl.present())
}
