package main

// chosen is what the solver chose, by the names of kitchen.mzn.
type chosen struct {
	Size []int `json:"size"`
	X    []int `json:"X"`
	W    []int `json:"W"`
	H    []int `json:"H"`
}
