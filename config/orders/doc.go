// Package orders reads orders from a spreadsheet: a file of comma-separated values with a
// line an order, as RFC 4180 has it, in UTF-8. It makes targets of them that
// [config.AddTargets] writes into targets.yaml, each order a promise.
//
// The first line that holds anything names the columns, in any order and in capitals or
// not: date, who, cheese, pieces and price, of which price may be missing. It also says
// what stands between cells: a comma, a semicolon or a tab. A date alone means 12:00, a
// price left out 1, and a price may have a decimal comma. Spaces around a cell do not
// count, nor do lines of empty cells.
//
// What is wrong with the file as a whole, its columns or its size, is one fault, and
// nothing of it is taken. Otherwise each line is an order or is refused with a fault of
// its own, beside which the others hold.
//
// Orders of one name for one moment are one target with several wants. It is called as
// whoever orders; where a target of that name is there for another moment, with the date
// behind it, and then with the time. An order of a cheese that a target of that name wants
// at that moment already is refused, so that reading a file twice orders nothing twice.
//
// Reading order: limits.go, read.go (the whole), table.go (header and lines), order.go (one
// line), date.go (when it leaves), targets.go (what orders become).
package orders
