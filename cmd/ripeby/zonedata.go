package main

import (
	"bufio"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// zoneSource says where time zone rules come from, in the order in which the Go
// runtime looks for them.
type zoneSource struct{ folders []string }

// systemZones lists the places that are tried before the rules built into the
// program: what $ZONEINFO names, then the system's.
func systemZones(env func(string) string) zoneSource {
	folders := []string{"/usr/share/zoneinfo", "/usr/share/lib/zoneinfo", "/usr/lib/locale/TZ", "/etc/zoneinfo"}
	if runtime.GOOS == "windows" {
		folders = nil // Windows keeps no zone files; the Go runtime does not look for any
	}
	if named := env("ZONEINFO"); named != "" {
		folders = append([]string{named}, folders...)
	}
	return zoneSource{folders}
}

// edition names the edition of the rules in use for a zone, such as "2025b, from
// /usr/share/zoneinfo".
func (z zoneSource) edition(zone string) string {
	for _, folder := range z.folders {
		info, err := os.Stat(filepath.Join(folder, filepath.FromSlash(zone)))
		if err != nil || info.IsDir() {
			continue
		}
		return editionIn(folder) + ", from " + folder
	}
	return "built into ripeby with " + runtime.Version()
}

// editionIn finds the edition in one of the two files that tell it: tzdata.zi
// begins "# version 2025b" (tz database, Makefile, rule tzdata.zi), and some
// systems have it alone in +VERSION.
func editionIn(folder string) string {
	if first := firstLine(filepath.Join(folder, "tzdata.zi")); strings.HasPrefix(first, "# version ") {
		return strings.TrimPrefix(first, "# version ")
	}
	if first := firstLine(filepath.Join(folder, "+VERSION")); first != "" {
		return first
	}
	return "edition not told"
}

// firstLine gives the first line of a file, "" when it cannot be read.
func firstLine(path string) string {
	f, err := os.Open(path)
	if err != nil {
		return ""
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	lines.Scan()
	return strings.TrimSpace(lines.Text())
}
