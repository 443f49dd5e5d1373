// Package readings reads and writes the files of thermometers: readings/2027-03.csv in the kitchen folder, one
// a month by the local date of a reading, one reading a line, in the order in which they came.
//
//	at,place,celsius
//	2027-03-16 08:02,fridge,4.60
//	2027-03-16 08:04,"cave, back",-0.50
//
// Of one place there is at most one line a quarter of an hour (00, 15, 30, 45): the first that comes. What is
// read later in the same quarter is not written, so what goes up and down within one is not seen; a line that
// stands is never made another. at is local time, with its offset only where the clocks show a time twice; a
// place is a cell as its caller writes it (calendar/spreadsheet).
//
// Whole lines are added at the end with one write, under a lock, and are on the disk before it is said that
// they are kept. A line that was cut, by a full disk or a lost plug, must not be taken for another number: 12.5
// is not 1. So what is written has two decimals always. A last line that ends before them and before its line
// break counts for nothing; the next write ends it with a mark, and begins its own. A write that failed while
// the program goes on is taken out again at once.
//
//	killed or failed     what may be there            what the next one does
//	within the write     nothing, or a line cut       marks that, writes it when it is sent again
//	before the flush     nothing, a line cut, or all  finds its quarter, and flushes
//	before the answer    all                          finds its quarter
//
// People may change the files, or open and save them with a spreadsheet. A line that cannot be read is told
// with file and line, passed over, and left where it is.
//
// Reading order: limits.go, line.go (a line written, and read), read.go (the months of a span), keep.go (adding).
package readings
