package resources_test

import (
	"fmt"
	"time"

	"ripeby/resources"
)

// Nell works nights around the change to summer time. What the wall shows, and
// what passes:
//
//	wall      21   22   23   00   01 ┊ 03   04   05      Saturday to Sunday
//	                                 ┊ 02:00-03:00 does not come
//	hours          ├────────────────────────┤            22:00-04:00
//	away                ├────┤                           23:00-24:00
//	windows        ├────┤    ├──────────────┤            1 h and 3 h elapsed
//
// The window still closes when the wall shows 04:00, and is an hour shorter.
func ExamplePerson_Windows() {
	zone, err := time.LoadLocation("Europe/Dublin")
	if err != nil {
		fmt.Println(err)
		return
	}
	saturday := resources.Date{Year: 2027, Month: time.March, Day: 27}
	nell := resources.Person{
		Name:  "Nell",
		Hours: []resources.Hours{{Days: resources.Weekdays(0).With(time.Saturday), From: 22 * 60, Until: 4 * 60}},
		Away:  []resources.Span{{From: saturday.At(23*60, zone), Until: saturday.At(24*60, zone)}},
	}
	night := resources.Span{From: saturday.At(12*60, zone), Until: saturday.AddDays(1).At(12*60, zone)}
	for _, w := range nell.Windows(night, zone) {
		fmt.Printf("%s to %s: %d min\n", w.From.In(zone).Format("Mon 15:04 MST"), w.Until.In(zone).Format("Mon 15:04 MST"), w.Length())
	}
	// Output:
	// Sat 22:00 GMT to Sat 23:00 GMT: 60 min
	// Sun 00:00 GMT to Sun 04:00 IST: 180 min
}
