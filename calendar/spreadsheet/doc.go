// Package spreadsheet writes tables for spreadsheets, every one that the program prints: values with
// commas between them, lines that end in CRLF (RFC 4180, section 2), a first line of column names.
//
// A cell never does anything when a spreadsheet opens it: what would be taken for a formula has an
// apostrophe in front, which has it taken for a text, and no control character is left. A plain
// whole number stays one, below 0 too.
package spreadsheet
