package config

import "ripeby/config/fault"

// How much of a folder is read. Every one of these is far beyond a small
// kitchen's needs; beyond it the folder is refused, with the limit named.
const (
	MaxFileBytes   = 1 << 20       // of one file
	MaxRecipes     = 200           // files in recipes/
	MaxNodes       = 100_000       // YAML values of one file, with every alias written out
	MaxDepth       = 40            // YAML values within values
	MaxEntries     = 2000          // of one list
	MaxNameLength  = fault.MaxName // characters of one name
	MaxCodeLength  = 12            // characters of a recipe's code
	MaxCount       = 10_000        // of one kind of kit, and boxes in one cold place
	MaxPieces      = 100_000       // of one want, batch, or entry of stock
	MaxStages      = 60            // of one recipe
	MaxNeeds       = 60            // of one recipe
	MaxMeasures    = 60            // likewise
	MaxElse        = 200           // characters of what a recipe says where something lies outside
	MaxBatchSizes  = 10_000        // of one recipe: (most - least) / step + 1
	MaxTargets     = 2000          // when every repetition is written out
	MaxHorizonDays = 731           // from the planning start to the last target
	MaxPastDays    = 1500          // from what has begun or was packed to the planning start
	MaxLabelText   = 400           // characters of one text on a label
	MaxFaults      = fault.Max     // that are listed; a last one says how many more there are
)
