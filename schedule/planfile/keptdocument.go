package planfile

import "encoding/json"

// BatchSchema names the format in which a batch that has begun is kept. Its keys are those of
// plan.json where the same thing is meant, and are only ever added.
const BatchSchema = "ripeby/batch/1"

type keptKeys struct {
	Schema   string          `json:"schema"`
	Kitchen  string          `json:"kitchen"`
	TimeZone string          `json:"timezone"`
	ID       string          `json:"id"`
	Lot      *string         `json:"lot"`
	Cheese   string          `json:"cheese"`
	Lost     bool            `json:"lost,omitempty"`
	OffPlan  *lineKeys       `json:"off_plan,omitempty"`
	Litres   json.Number     `json:"litres"`
	Pieces   int             `json:"pieces"`
	Spare    int             `json:"spare"`
	Counted  *countKeys      `json:"counted,omitempty"`
	Milk     *keptMilkKeys   `json:"milk"`
	UseBy    *string         `json:"use_by"`
	Assumed  []string        `json:"assumed"`
	Stages   []keptStageKeys `json:"stages"`
	For      []keptShareKeys `json:"for"`
	Carries  []keptCarryKeys `json:"carries,omitempty"`
	Recipe   *keptRecipeKeys `json:"recipe"`
}

// lineKeys is the line of the record by which a batch was made off the plan.
type lineKeys struct {
	Nr int    `json:"nr,omitempty"`
	At string `json:"at"`
}

type keptMilkKeys struct {
	milkKeys
	Day string `json:"day"`
}

type countKeys struct {
	Pieces int    `json:"pieces"`
	At     string `json:"at"`
}

// keptStageKeys is a stage: assumed is true for what has begun and nobody has said.
type keptStageKeys struct {
	Stage   string    `json:"stage"`
	Begun   bool      `json:"begun"`
	Assumed bool      `json:"assumed"`
	Said    *string   `json:"said"`
	Start   string    `json:"start"`
	Planned *string   `json:"planned"`
	Work    int64     `json:"work"`
	Who     *string   `json:"who"`
	Hold    int64     `json:"hold"`
	Ends    string    `json:"ends"`
	At      string    `json:"at"`
	Uses    []useKeys `json:"uses"`

	Needs    []doseKeys    `json:"needs,omitempty"`
	Measures []measureKeys `json:"measures,omitempty"`
}

type keptCarryKeys struct {
	Stage string `json:"stage"`
	Start string `json:"start"`
	Who   string `json:"who"`
	From  string `json:"from"`
	To    string `json:"to"`
}

// keptShareKeys is a share: left is null until its moment has come.
type keptShareKeys struct {
	shareKeys
	Left    *int `json:"left"`
	Assumed bool `json:"assumed,omitempty"`
}

type keptRecipeKeys struct {
	Name   string           `json:"name"`
	Code   string           `json:"code"`
	Milk   *string          `json:"milk"`
	Yield  yieldKeys        `json:"yield"`
	Piece  int64            `json:"piece_mg,omitempty"`
	Spare  int              `json:"spare"`
	Keeps  int64            `json:"keeps"`
	Stages []keptLimitsKeys `json:"stages"`
}

type yieldKeys struct {
	Pieces int         `json:"pieces"`
	From   json.Number `json:"from"` // litres
}

// keptLimitsKeys is a hold in minutes; all three are null where the stage has none.
type keptLimitsKeys struct {
	Stage string `json:"stage"`
	Least *int64 `json:"least"`
	Best  *int64 `json:"best"`
	Most  *int64 `json:"most"`
	At    string `json:"at"`

	Ready  *int64       `json:"ready,omitempty"`
	GoesBy *keptByKeys  `json:"goes_by,omitempty"`
	Varies *json.Number `json:"varies,omitempty"`
}

// keptByKeys is how a hold goes by the make room, in degrees Celsius and as a plain factor.
type keptByKeys struct {
	Temperature json.Number `json:"temperature"`
	Times       json.Number `json:"times"`
}
