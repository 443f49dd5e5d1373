//go:build long

package authority

import (
	"encoding/pem"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"ripeby/schedule/testrun"
)

// OpenSSL, which shares no code with Go, takes the certificates for each name of the server, strictly by
// RFC 5280 (-x509_strict), and what a stolen key signs for a bank it does not.
func TestOpenSSLVerifies(t *testing.T) {
	program, err := exec.LookPath("openssl")
	if err != nil {
		testrun.Missing(t, "there is no openssl here")
	}
	a := made(t, "Saltgrass Lane & Söhne", sampleReach())
	dir := t.TempDir()
	put := func(name string, der []byte) string {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, pem.EncodeToMemory(&pem.Block{Type: certificatePart, Bytes: der}), 0o600); err != nil {
			t.Fatal(err)
		}
		return file
	}
	ca := put("ca.pem", a.Certificate())
	at := "1805184000" // 2027-03-17 00:00 UTC
	tests := []struct {
		name  string
		reach Reach
		flag  string
		host  string
		want  string
	}{
		{"a name", sampleReach(), "-verify_hostname", "larder.local", "OK"},
		{"a name alone", sampleReach(), "-verify_hostname", "larder", "OK"},
		{"the name of --url", sampleReach(), "-verify_hostname", "kitchen.example", "OK"},
		{"this machine", sampleReach(), "-verify_ip", "127.0.0.1", "OK"},
		{"an address", sampleReach(), "-verify_ip", "192.168.1.7", "OK"},
		{"an address of IPv6", sampleReach(), "-verify_ip", "fd00::7", "OK"},
		{"another address", sampleReach(), "-verify_ip", "192.168.1.8", "IP address mismatch"},
		{"a bank", Reach{Names: []string{"bank.example"}}, "-verify_hostname", "bank.example", "permitted subtree violation"},
		{"a bank's address", Reach{IPs: []net.IP{net.ParseIP("198.51.100.7")}}, "-verify_ip", "198.51.100.7", "permitted subtree violation"},
	}
	for _, c := range tests {
		pair, err := a.issue(c.reach.ordered(), sampleNow)
		if err != nil {
			t.Fatal(err)
		}
		leaf := put("leaf.pem", pair.Certificate[0])
		out, err := exec.Command(program, "verify", "-x509_strict", "-purpose", "sslserver", "-attime", at, "-CAfile", ca, c.flag, c.host, leaf).CombinedOutput()
		if !strings.Contains(string(out), c.want) || (err == nil) != (c.want == "OK") {
			t.Errorf("%s: got %s (%v), want %q", c.name, out, err, c.want)
		}
	}
}
