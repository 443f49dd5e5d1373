// Package trust tells phones how to trust the authority that a server of the kitchen's own has its https
// from, over http and over https at one port. It knows the authority's certificate, which anybody may have,
// and nothing of the kitchen: no address, no key, no plan.
//
// # Two ways at one port
//
// A phone that does not trust the server yet cannot be told by https how to. So the port takes both: a
// connection whose first byte is that of a TLS handshake (RFC 8446, 5.1) is the server's, and any other is
// answered with the steps, whatever it asks for. It is never redirected: an address that was asked for over
// http has told its key already, and a phone that was led on from there would go on telling it. What is no
// page of ours answers 403, for a calendar that is polled there must not be taken for empty, or gone.
//
// What is said of phones and other machines are the steps as their makers name them; where a maker names
// them otherwise from one edition to the next, as common practice has them.
//
// Reading order: split.go (which connections are whose), pages.go (what is answered).
package trust
