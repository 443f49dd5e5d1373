//go:build long

package main

import (
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"ripeby/schedule/testrun"
)

// installed finds the first of some programs that is there.
func installed(t *testing.T, names ...string) string {
	t.Helper()
	for _, name := range names {
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	testrun.Missing(t, "there is no "+strings.Join(names, ", nor ")+" here")
	return ""
}

// trustingBrowser is a Chromium of somebody who trusts an authority: it is in their own store, where the
// steps of the page put it. Further flags are name and value.
func trustingBrowser(t *testing.T, der []byte, flags ...string) context.Context {
	t.Helper()
	certutil, program := installed(t, "certutil"), installed(t, "chromium", "chromium-browser", "google-chrome")
	home := t.TempDir()
	file := filepath.Join(home, "authority.crt")
	if err := os.WriteFile(file, der, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, place := range []string{".pki/nssdb", ".local/share/pki/nssdb"} { // where Chromium has it, by its age
		store := filepath.Join(home, place)
		if err := os.MkdirAll(store, 0o700); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"-N", "--empty-password"}, {"-A", "-n", "authority", "-t", "C,,", "-i", file}} {
			if out, err := exec.Command(certutil, append([]string{"-d", "sql:" + store}, args...)...).CombinedOutput(); err != nil {
				t.Fatalf("certutil %v: %v, %s", args, err, out)
			}
		}
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true), chromedp.Env("HOME="+home, "XDG_DATA_HOME="+filepath.Join(home, ".local/share")))
	for i := 0; i < len(flags); i += 2 {
		opts = append(opts, chromedp.Flag(flags[i], flags[i+1]))
	}
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(stop)
	return ctx
}

// Once a browser trusts the authority the page opens without a warning, and may be kept for times without a
// network; before, it does not open.
func TestABrowserTrustsTheAuthority(t *testing.T) {
	folder := newFolder(t)
	s := servingOn(t, folder, nil, "--own-https")
	cert, _ := keptAuthority(t, folder)
	s.trusting(cert)
	s.wait("the page", func() bool { status, _, _ := s.get(s.path("page"), ""); return status == 200 })
	page := s.site + s.path("page")

	_, stranger := madeCertificate(t, t.TempDir(), 1)
	other, err := os.ReadFile(filepath.Join(filepath.Dir(stranger), "cert.pem"))
	if err != nil {
		t.Fatal(err)
	}
	block, _ := pem.Decode(other)
	if err := chromedp.Do(trustingBrowser(t, block.Bytes), chromedp.Navigate(page)); err == nil || !strings.Contains(err.Error(), "ERR_CERT_AUTHORITY_INVALID") {
		t.Errorf("a browser that trusts another: got %v, want it not to open", err)
	}

	ctx := trustingBrowser(t, cert.Raw)
	if err := chromedp.Do(ctx, chromedp.Navigate(page)); err != nil {
		t.Fatal(err)
	}
	kept, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`navigator.serviceWorker.ready.then(() => isSecureContext)`, chromedp.EvalAwaitPromise))
	if err != nil || !kept {
		t.Errorf("got %v (%v), want a page that is kept", kept, err)
	}
}

// What a stolen key signs for a bank Chromium does not take, though it trusts the authority.
func TestABrowserHoldsTheAuthorityToItsNames(t *testing.T) {
	folder := newFolder(t)
	if got := runWith(t.Context(), nil, "serve", "-C", folder, "--addresses", "--own-https"); got.code != 0 {
		t.Fatal(got.err)
	}
	cert, text := keptAuthority(t, folder)
	_, text = pem.Decode(text)
	block, _ := pem.Decode(text)
	stolen, err := x509.ParsePKCS8PrivateKey(block.Bytes)
	if err != nil {
		t.Fatal(err)
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	names := []string{"bank.example", "larder.local"}
	byName := map[string]*tls.Certificate{}
	for _, name := range names {
		form := &x509.Certificate{NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), DNSNames: []string{name},
			KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
		der, err := x509.CreateCertificate(rand.Reader, form, cert, &key.PublicKey, stolen)
		if err != nil {
			t.Fatal(err)
		}
		byName[name] = &tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key}
	}
	l, err := tls.Listen("tcp", "127.0.0.1:0", &tls.Config{GetCertificate: func(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
		return byName[hello.ServerName], nil
	}})
	if err != nil {
		t.Fatal(err)
	}
	server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = io.WriteString(w, "come in") }),
		ErrorLog: log.New(io.Discard, "", 0)}
	go func() { _ = server.Serve(l) }()
	t.Cleanup(func() { server.Close() })
	port := l.Addr().(*net.TCPAddr).Port
	ctx := trustingBrowser(t, cert.Raw, "host-resolver-rules", "MAP * 127.0.0.1")
	if err := chromedp.Do(ctx, chromedp.Navigate(fmt.Sprintf("https://larder.local:%d/", port))); err != nil {
		t.Errorf("a name that it may speak for: %v", err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate(fmt.Sprintf("https://bank.example:%d/", port))); err == nil || !strings.Contains(err.Error(), "ERR_CERT_") {
		t.Errorf("a bank: got %v, want it not to open", err)
	}
}
