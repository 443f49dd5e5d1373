package keys

// The kinds of value. Each is said once, below the keys.
const (
	text        = "text"
	code        = "code"
	whole       = "whole number"
	litres      = "litres as a number"
	money       = "amount of money"
	truth       = "true or false"
	length      = "elapsed time"
	weeks       = "weeks"
	volume      = "volume"
	mass        = "mass"
	temperature = "temperature"
	factor      = "factor"
	percent     = "percent"
	amount      = "amount"
	strength    = "strength"
	reading     = "number and unit"
	size        = "size"
	area        = "width x height"
	distance    = "distance"
	clock       = "time of day"
	moment      = "moment"
	date        = "date"
	weekdays    = "days of the week"
	hours       = "list of days with hours"
	spans       = "list of dates and times"
	texts       = "list of names"
	dates       = "list of dates"
	list        = "list"
	mapping     = "keys and values"
)

// Kind is one way in which a value is written.
type Kind struct{ Name, Written string }

// Kinds are all ways that need saying, in the order in which they are told.
func Kinds() []Kind {
	return []Kind{
		{text, "as it is; in quotation marks where it has a colon, a # or a comma in it"},
		{code, "1 to 12 letters, digits, points and dashes"},
		{litres, "without a unit: 8, 7.5"},
		{money, "in the kitchen's unit: 6.50"},
		{length, "90 min, 24 h, 10 d, 1 d 6 h; a day is 24 hours"},
		{weeks, "week, 12 weeks; by local days"},
		{volume, "4 L, 750 mL, 1 gal (US), 1 gal (imp), 4 qt (US)"},
		{mass, "75 g, 1.2 kg, 8 oz"},
		{temperature, "4 °C, 4 C, 39 °F, 39 F"},
		{factor, "1.18, without a unit; at most three decimals"},
		{percent, "15 %; at most one decimal"},
		{amount, "0.12 g, 1.5 mL, 1/8 tsp, 1 tsp (metric), 3 drops, 4.5 IMCU, 1.25 DCU, 1.5 %, 1 sachet; tsp and tbsp are the US ones, 4.93 and 14.79 mL, tsp (metric) and tbsp (metric) 5 and 15 mL"},
		{strength, "200 IMCU/mL, 25 DCU/sachet"},
		{reading, "4.6 (a pH has no unit), 26 °C, 12 g, 1.5 %, 250 mL, 3 holes"},
		{size, "40 x 30 x 12 cm: width x depth x height; in, too"},
		{area, "60 x 40 mm; cm and in, too"},
		{distance, "7 mm, 0.5 in"},
		{clock, `"06:00" to "24:00", the kitchen's local time`},
		{moment, "2027-03-27 07:00, the kitchen's local time; or with an offset, 2027-03-27T07:00:00Z"},
		{date, "2027-03-27"},
		{weekdays, "tue; tue,fri; mon-fri; daily; or a list of them"},
		{hours, `["mon-fri 06:00-08:00", "sat,sun 07:00-20:00"]; 22:00-02:00 runs past midnight`},
		{spans, "[2027-03-12, {from: 2027-03-20 14:00, until: 2027-03-20 18:00}]; of whole days both are included"},
	}
}
