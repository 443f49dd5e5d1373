// Package address has the addresses that lead to a kitchen's calendars and pages. Each holds 130 random
// bits and is all that is needed to read, or write, what it leads to; each can be taken back alone. They
// are kept in clear for their owner alone, so that they can be shown again, and those that were taken
// back as digests.
//
// Reading order: book.go (the addresses), pace.go (how often one may be used to say
// something), site.go (under which names the server is known that they lead to).
package address
