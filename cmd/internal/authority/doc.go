// Package authority makes an authority of a kitchen's own, and certificates in its name for the server, so
// that phones speak https with a machine on the kitchen's network. The authority is made once and kept; each
// phone is told once to trust it. The server's certificates are made as they are needed, live in memory
// alone and are renewed without a word.
//
// # What a stolen key could do
//
// Whoever holds the authority's key can pass for what it may speak for. So its certificate says itself what
// that is (RFC 5280, 4.2.1.10, name constraints, critical): addresses of private networks, names that end in
// .local, and what the server was reached by when the authority was made; for websites alone (4.2.1.12), and
// never through a further authority (4.2.1.9, path length 0). A bank's name is not among them. A system may
// leave the constraints of what it was told to trust out of account (6.2); Chromium, OpenSSL and Go hold it
// to them, as tests try.
//
// Clock and files are handed in; keys are drawn with crypto/rand.
//
// Reading order: reach.go (names and addresses), authority.go, kept.go (its file), speaker.go (the server's
// certificates).
package authority
