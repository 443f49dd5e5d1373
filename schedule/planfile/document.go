package planfile

import "encoding/json"

// Schema names the format that is written. A file of schemaBefore is read too, as an earlier
// plan; one with any other schema is not.
const (
	Schema       = "ripeby/plan/2"
	schemaBefore = "ripeby/plan/1"
)

// The types below mirror plan.json key for key, in the order of the file. A
// pointer stands where the contract says null.

type document struct {
	Schema   string       `json:"schema"`
	Kitchen  string       `json:"kitchen"`
	TimeZone string       `json:"timezone"`
	From     string       `json:"from"`
	Outcome  string       `json:"outcome"`
	Score    scoreKeys    `json:"score"`
	Proof    proofKeys    `json:"proof"`
	Batches  []batchKeys  `json:"batches"`
	Stock    []stockKeys  `json:"stock"`
	Targets  []targetKeys `json:"targets"`
	Rounds   []roundKeys  `json:"rounds"`
	Milk     []jobKeys    `json:"milk,omitempty"`
	Changes  []changeKeys `json:"changes"`
	Warnings []noteKeys   `json:"warnings"`

	Cautions   []cautionKeys `json:"cautions"`
	LastNumber []numberKeys  `json:"last_number"`

	OffPlan   []offPlanKeys   `json:"off_plan,omitempty"`
	BegunAsOf []begunAsOfKeys `json:"begun_as_of,omitempty"`
	MadeOf    *madeOfKeys     `json:"made_of,omitempty"`
	Looks     []lookKeys      `json:"looks,omitempty"`
	Past      []batchKeys     `json:"past,omitempty"`
	PastStock []stockKeys     `json:"past_stock,omitempty"`
	Carries   []carryKeys     `json:"carries,omitempty"`
	Titles    *titlesKeys     `json:"titles,omitempty"`
	Used      []usedKeys      `json:"packets_used,omitempty"`
}

// titlesKeys is what the titles of events tell in the calendar for everything; none where they tell what they
// always did.
type titlesKeys struct {
	Named    bool   `json:"named"`
	Sequence int    `json:"sequence,omitempty"`
	Revised  string `json:"revised,omitempty"`
}

// carryKeys is cheese carried out of a closed place: a stage of a batch, or an entry of stock, which
// has no name.
type carryKeys struct {
	Batch    string         `json:"batch,omitempty"`
	Stage    string         `json:"stage,omitempty"`
	Stock    *int           `json:"stock,omitempty"`
	Start    string         `json:"start"`
	Minutes  int64          `json:"minutes"`
	Who      string         `json:"who"`
	From     string         `json:"from"`
	To       string         `json:"to"`
	Since    string         `json:"since"`
	Stood    []standingKeys `json:"stood,omitempty"`
	Sequence int            `json:"sequence"`
	Revised  string         `json:"revised"`
}

type lookKeys struct {
	Batch   string `json:"batch"`
	Stage   string `json:"stage"`
	Start   string `json:"start"`
	Minutes int64  `json:"minutes"`
	Who     string `json:"who"`
	Asked   string `json:"asked"`
}

// offPlanKeys is a batch that was made off the plan, and the line of the record that says so.
type offPlanKeys struct {
	ID     string `json:"id"`
	Cheese string `json:"cheese"`
	Nr     int    `json:"nr,omitempty"`
	At     string `json:"at"`
}

type begunAsOfKeys struct {
	ID    string `json:"id"`
	AsOf  string `json:"as_of"`
	Entry string `json:"entry"`
}

type madeOfKeys struct {
	Entry  int         `json:"entry"`
	Lines  []string    `json:"lines,omitempty"`
	Things []thingKeys `json:"things"`
	Packed []packKeys  `json:"packed,omitempty"`
}

type thingKeys struct {
	What  string `json:"what"`
	Entry string `json:"entry"`
}

type packKeys struct {
	Target  string `json:"target"`
	By      string `json:"by"`
	Minutes int64  `json:"minutes"`
}

type scoreKeys struct {
	PromisedShort int64       `json:"promised_short"`
	Late          int64       `json:"late"`
	Short         int64       `json:"short"`
	Batches       int         `json:"batches"`
	Moved         int         `json:"moved"`
	Litres        json.Number `json:"litres"`
	Bother        int64       `json:"bother"`
	MakeStarts    int64       `json:"make_starts"`
}

type proofKeys struct {
	Best  bool      `json:"best"`
	Level string    `json:"level"`
	Bound scoreKeys `json:"bound"`
}

type batchKeys struct {
	ID     string      `json:"id"`
	Lot    string      `json:"lot,omitempty"`
	Cheese string      `json:"cheese"`
	Begun  bool        `json:"begun,omitempty"`
	Litres json.Number `json:"litres"`
	Pieces int         `json:"pieces"`
	Spare  int         `json:"spare"`
	Gone   int         `json:"gone,omitempty"`
	Made   int         `json:"made,omitempty"`
	Left   []leftKeys  `json:"left,omitempty"`
	Milk   *milkKeys   `json:"milk"`
	Stages []stageKeys `json:"stages"`
	Care   []careKeys  `json:"care"`
	For    []shareKeys `json:"for"`
}

type leftKeys struct {
	Target  string `json:"target"`
	By      string `json:"by"`
	Want    int    `json:"want"`
	Planned int    `json:"planned"`
	Pieces  int    `json:"pieces"`
}

type milkKeys struct {
	Supply  string `json:"supply"`
	Collect string `json:"collect"`
}

type stageKeys struct {
	Stage       string         `json:"stage"`
	Begun       bool           `json:"begun,omitempty"`
	Start       string         `json:"start"`
	Work        int64          `json:"work"`
	Who         *string        `json:"who"`
	Hold        int64          `json:"hold"`
	Ends        string         `json:"ends"`
	At          string         `json:"at"`
	Carried     *string        `json:"carried,omitempty"`
	Overdue     *string        `json:"overdue,omitempty"`
	SlipFrom    string         `json:"slip_from"`
	SlipUntil   string         `json:"slip_until"`
	Critical    *bool          `json:"critical"`
	Sequence    int            `json:"sequence"`
	Revised     string         `json:"revised"`
	Revision    int            `json:"revision"`
	RevisedText string         `json:"revised_text"`
	StayNumber  int            `json:"stay_sequence,omitempty"`
	StayRevised *string        `json:"stay_revised,omitempty"`
	Uses        []useKeys      `json:"uses"`
	BoxesAt     []standingKeys `json:"boxes_at"`
	Needs       []doseKeys     `json:"needs,omitempty"`
	Measures    []measureKeys  `json:"measures,omitempty"`
}

type useKeys struct {
	Thing      string `json:"thing"`
	Count      int    `json:"count"`
	From       string `json:"from"`
	Until      string `json:"until"`
	CleanUntil string `json:"clean_until"`
}

// standingKeys is one box. In a counted place all keys but place are left out.
type standingKeys struct {
	Place string       `json:"place"`
	Shelf string       `json:"shelf,omitempty"`
	X     *json.Number `json:"x,omitempty"`
	Y     *json.Number `json:"y,omitempty"`
	Width *json.Number `json:"width,omitempty"`
	Depth *json.Number `json:"depth,omitempty"`
	Layer *int         `json:"layer,omitempty"`
}

type careKeys struct {
	Day     string `json:"day"`
	Do      string `json:"do"`
	Minutes int64  `json:"minutes"`
}

type shareKeys struct {
	Target   string `json:"target"`
	By       string `json:"by"`
	Want     int    `json:"want"`
	Pieces   int    `json:"pieces"`
	Promised int    `json:"promised"`
}

type stockKeys struct {
	Cheese  string         `json:"cheese"`
	Pieces  int            `json:"pieces"`
	Packed  string         `json:"packed"`
	Lot     string         `json:"lot,omitempty"`
	Left    []leftKeys     `json:"left,omitempty"`
	At      string         `json:"at"`
	Written string         `json:"written_at,omitempty"`
	Ends    string         `json:"ends"`
	BoxesAt []standingKeys `json:"boxes_at"`
	For     []shareKeys    `json:"for"`
	Number  int            `json:"sequence,omitempty"`
	Revised *string        `json:"revised,omitempty"`
}

type targetKeys struct {
	Target   string  `json:"target"`
	By       string  `json:"by"`
	Want     *int    `json:"want"`
	Cheese   string  `json:"cheese"`
	Price    int64   `json:"price"`
	Promised bool    `json:"promised"`
	Wanted   int     `json:"wanted"`
	Met      int     `json:"met"`
	Short    int     `json:"short"`
	Because  *string `json:"because"`
	Sequence int     `json:"sequence"`
	Revised  string  `json:"revised"`
}

type roundKeys struct {
	Start    string          `json:"start"`
	Minutes  int64           `json:"minutes"`
	Who      *string         `json:"who"`
	Care     []roundCareKeys `json:"care"`
	Sequence int             `json:"sequence"`
	Revised  string          `json:"revised"`
}

type roundCareKeys struct {
	Batch   string `json:"batch"`
	Do      string `json:"do"`
	Minutes int64  `json:"minutes"`
}

// jobKeys is milk to order or to collect.
type jobKeys struct {
	Do       string      `json:"do"`
	At       string      `json:"at"`
	Supply   string      `json:"supply"`
	Collect  string      `json:"collect"`
	Litres   json.Number `json:"litres"`
	Known    json.Number `json:"known"`
	By       string      `json:"known_by,omitempty"`
	Assumed  bool        `json:"assumed,omitempty"`
	Draws    []drawKeys  `json:"draws"`
	Sequence int         `json:"sequence"`
	Revised  string      `json:"revised"`
}

// The words of jobKeys.Do.
const (
	doOrder   = "order"
	doCollect = "collect"
)

type drawKeys struct {
	Batch  string      `json:"batch"`
	Cheese string      `json:"cheese"`
	Litres json.Number `json:"litres"`
}

type noteKeys struct {
	Code string  `json:"code"`
	Text string  `json:"text"`
	At   *string `json:"at"`
}

type cautionKeys struct {
	Code   string  `json:"code"`
	Cheese string  `json:"cheese"`
	Stage  *string `json:"stage"`
	Text   string  `json:"text"`
}

type numberKeys struct {
	Day  string `json:"day"`
	Last int    `json:"last"`
}

type changeKeys struct {
	Batch   string  `json:"batch"`
	Stage   string  `json:"stage"`
	Was     *string `json:"was"`
	Now     *string `json:"now"`
	WasWho  *string `json:"was_who"`
	NowWho  *string `json:"now_who"`
	Because string  `json:"because"`
}
