package authority

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
)

// File is the name under which the authority is kept: its certificate and its key in one, so that they are
// always of one making (PEM, RFC 7468).
const File = "authority.pem"

// The two parts of the file.
const (
	certificatePart = "CERTIFICATE"
	keyPart         = "PRIVATE KEY" // PKCS #8, RFC 5958
)

// Store keeps files for their owner alone, each whole or not at all.
type Store interface {
	// Read gives a file's bytes; the error is fs.ErrNotExist when there is none.
	Read(name string) ([]byte, error)
	Write(name string, text []byte) error
}

// Read reads the authority that is kept; nil when there is none.
func Read(store Store) (*Authority, error) {
	text, err := store.Read(File)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	a, err := decode(text)
	if err != nil {
		return nil, fmt.Errorf("%s, which holds the authority that phones trust, is damaged: %w; put back a good copy, or remove it: then a new authority is made and each phone must be told to trust that one", File, err)
	}
	return a, nil
}

// Keep writes the authority.
func (a *Authority) Keep(store Store) error {
	key, err := x509.MarshalPKCS8PrivateKey(a.key)
	if err != nil {
		return fmt.Errorf("writing the authority's key: %w", err)
	}
	text := pem.EncodeToMemory(&pem.Block{Type: certificatePart, Bytes: a.cert.Raw})
	return store.Write(File, append(text, pem.EncodeToMemory(&pem.Block{Type: keyPart, Bytes: key})...))
}

// decode reads the text of the file. What it says of the authority is believed only where the key is the
// certificate's own.
func decode(text []byte) (*Authority, error) {
	der, text, err := part(text, certificatePart)
	if err != nil {
		return nil, err
	}
	secret, text, err := part(text, keyPart)
	if err != nil {
		return nil, err
	}
	if len(bytes.TrimSpace(text)) > 0 {
		return nil, errors.New("something comes after its key")
	}
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, errors.New("its certificate cannot be read")
	}
	parsed, err := x509.ParsePKCS8PrivateKey(secret)
	key, ok := parsed.(*ecdsa.PrivateKey)
	switch {
	case err != nil || !ok || key.Curve != elliptic.P256():
		return nil, errors.New("its key cannot be read")
	case !key.PublicKey.Equal(cert.PublicKey):
		return nil, errors.New("its key is not that of its certificate")
	case !cert.IsCA || cert.KeyUsage&x509.KeyUsageCertSign == 0:
		return nil, errors.New("its certificate is not that of an authority")
	case cert.CheckSignatureFrom(cert) != nil:
		return nil, errors.New("its certificate is not signed with its key")
	}
	return &Authority{cert, key}, nil
}

// part takes the next part off the text. Nothing may stand before it: a file that was joined of two would
// otherwise pass for one.
func part(text []byte, kind string) (der, rest []byte, err error) {
	text = bytes.TrimLeft(text, " \t\r\n")
	block, rest := pem.Decode(text)
	if block == nil || !bytes.HasPrefix(text, []byte("-----BEGIN "+kind+"-----")) || block.Type != kind || len(block.Headers) > 0 {
		return nil, nil, fmt.Errorf("there is no %q where it should be", kind)
	}
	return block.Bytes, rest, nil
}
