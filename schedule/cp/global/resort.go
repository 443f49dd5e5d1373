package global

// Resort sorts things by their keys; by insertion, as the order of the call before is
// nearly right, and things of one key stay as they are. Cost: O(things) where it is.
func Resort(things, keys []int32) {
	for i := 1; i < len(things); i++ {
		one := things[i]
		k := i
		for k > 0 && keys[things[k-1]] > keys[one] {
			things[k] = things[k-1]
			k--
		}
		things[k] = one
	}
}
