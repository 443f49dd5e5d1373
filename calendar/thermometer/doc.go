// Package thermometer takes what a thermometer in a kitchen reads: one number, sent by POST to the address of
// its place. It is HTTP and the words that a device sends, and hands the reading on to a [Desk]; it knows neither
// the kitchen nor its files.
//
//	POST /t/TOKEN   4.6                                                        what stands there
//	                temperature=40.1 °F                                        as a form
//	                {"temperature": 4.6, "at": "2027-03-16T08:02:00Z"}         as JSON
//	                temperature=4.6&at=2027-03-16T08:02:00%2B01:00             read a while ago
//	GET             says in one line how to post
//
// The address is the key, and opens nothing else: no page, and not what was sent before. What kind of text is
// sent is seen by the text, for devices and curl name it wrongly. A number without a unit is in °C.
//
// Answers: 204, the reading is kept, or one of the same quarter of an hour is; 400, 413 and 422 say in one line
// what is wrong with it; 429 and 503 are to be tried again later; 500 too, the disk may be full.
//
// Reading order: handler.go (from request to answer), sent.go (what is sent), pace.go.
package thermometer
