package resources

// Pot holds one batch from the start of its make until the curd is out of it.
// Count pots of the same kind share a name.
type Pot struct {
	Name  string
	Holds Millilitres
	Count int
	Clean Minutes // not usable for so long after its release
}

// Station is anything else that is counted: hooks, presses, boards, brine tubs.
// At most one of TakesVolume and TakesPieces is set (both 0: one a batch); a
// batch uses ceil(batch / takes) of them.
type Station struct {
	Name        string
	Count       int
	TakesVolume Millilitres
	TakesPieces int
	Clean       Minutes
}

// Mould takes one piece.
type Mould struct {
	Name  string
	Count int
	Clean Minutes
}

// Box is a ripening box, carton or tray. Its outer size is zero when the kitchen
// does not say it: such a box can stand only in a counted cold place.
type Box struct {
	Name  string
	Count int
	Size  Size
	Clean Minutes
	Stack Stacking
}
