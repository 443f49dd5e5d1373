package main

import (
	"bufio"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

// zoneSource says where time zone rules come from: folders, of which the first that has
// a zone counts, before the rules built into the program.
type zoneSource struct{ folders []string }

// systemZones lists the places that are tried before the rules built into the
// program: what $ZONEINFO names and the system's, the newest edition first. Of two
// with one edition, or none told, the one that comes first by its place is taken.
func systemZones(env func(string) string) zoneSource {
	folders := []string{"/usr/share/zoneinfo", "/usr/share/lib/zoneinfo", "/usr/lib/locale/TZ", "/etc/zoneinfo"}
	if runtime.GOOS == "windows" {
		folders = nil // Windows keeps no zone files; the Go runtime does not look for any
	}
	if named := env("ZONEINFO"); named != "" {
		folders = append([]string{named}, folders...)
	}
	return newestFirst(folders)
}

// newestFirst puts folders in the order of their editions: 2025b before 2024a, and both
// before one that is not told. A folder that is not there comes last.
func newestFirst(folders []string) zoneSource {
	rank := map[string]string{}
	for _, folder := range folders {
		switch _, err := os.Stat(folder); {
		case err != nil:
			rank[folder] = ""
		case editionIn(folder) == untoldEdition: // of a zip file too, which the runtime reads as well
			rank[folder] = "0"
		default:
			rank[folder] = editionIn(folder)
		}
	}
	slices.SortStableFunc(folders, func(a, b string) int { return strings.Compare(rank[b], rank[a]) })
	return zoneSource{folders}
}

// use has the Go runtime read zones from the first folder; it looks there once, so this
// comes before anything that asks for a zone.
func (z zoneSource) use() {
	if len(z.folders) > 0 {
		os.Setenv("ZONEINFO", z.folders[0])
	}
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
	return untoldEdition
}

// untoldEdition stands where neither file is there.
const untoldEdition = "edition not told"

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
