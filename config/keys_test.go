package config

import (
	"errors"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"go.yaml.in/yaml/v3"

	"ripeby/config/keys"
)

// wherever is one key of the table, and where the example folder has it or could have it.
type wherever struct {
	path string
	key  keys.Key
	in   *yaml.Node // the mapping in which it stands, or would
}

// everywhere finds the mappings of a file in which each key of the table can stand: in a list the
// first entry that has the key, else the first.
func everywhere(m *keys.Mapping, at []*yaml.Node, path string) (all []wherever) {
	for _, k := range m.Keys {
		in := at[0]
		for _, n := range at {
			if under(n, k.Name) != nil {
				in = n
				break
			}
		}
		all = append(all, wherever{path + k.Name, k, in})
		if k.In == nil || k.In.Any != nil {
			continue
		}
		var below []*yaml.Node
		for _, n := range at {
			switch v := under(n, k.Name); {
			case v == nil:
			case v.Kind == yaml.MappingNode:
				below = append(below, v)
			default:
				below = append(below, slices.DeleteFunc(slices.Clone(v.Content), func(n *yaml.Node) bool { return n.Kind != yaml.MappingNode })...)
			}
		}
		if len(below) > 0 {
			all = append(all, everywhere(k.In, below, path+k.Name+".")...)
		}
	}
	return all
}

// under is what stands under a key, nil for nothing.
func under(n *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// put has a value stand under a key; without one the key is taken out.
func put(n *yaml.Node, key string, value *yaml.Node) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			if value == nil {
				n.Content = slices.Delete(n.Content, i, i+2)
			} else {
				n.Content[i+1] = value
			}
			return
		}
	}
	if value != nil {
		n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, value)
	}
}

// files are the files of the example folder to which the table belongs.
var files = map[string]string{"kitchen": "kitchen.yaml", "recipe": "recipes/ash-button.yaml", "targets": "targets.yaml", "begun": "begun.yaml"}

// changed reads the example folder with one thing changed in the node tree of one file; what gives the
// faults.
func changed(t *testing.T, word, path string, change func(w wherever)) Faults {
	t.Helper()
	folder := saltgrass(t)
	edit(t, folder, "kitchen.yaml", "{from: 2027-03-26, until: 2027-03-29}", "{from: 2027-03-10, until: 2027-03-29}")
	edit(t, folder, "kitchen.yaml", "boxes: 12}", "boxes: 12, taken: [{from: 2027-01-10, until: 2027-04-01}]}")
	edit(t, folder, "kitchen.yaml", "closed: [2027-03-26]", "closed: [{from: 2027-03-11, until: 2027-03-15}]")
	edit(t, folder, "targets.yaml", "every: week ", "every: week\n    except: [2027-04-17] #")
	edit(t, folder, "kitchen.yaml", "room: 20 °C", "room: [{from: 2027-01-01, is: 17 °C}]")
	edit(t, folder, "recipes/ash-button.yaml", "best: 22 h, most: 28 h}", "best: 22 h, most: 28 h, goes_by: {temperature: 21 °C}}")
	edit(t, folder, "kitchen.yaml", "pots:", "businesses: [{name: Mill}]\nlabel: {size: 60 x 40 mm, sheet: {paper: A4}}\npots:")
	edit(t, folder, "recipes/ash-button.yaml", "stages:", "label: {milk: raw}\nstages:")
	edit(t, folder, "begun.yaml", "pieces: 13", "pieces: 10")
	edit(t, folder, "recipes/ash-button.yaml", "fresh: [box]", "fresh: [box], box: {name: ripening box, takes: 8}")
	edit(t, folder, "recipes/ash-button.yaml", packLine, packLine+"needs: [{what: rennet, stage: make, per_litre: 4.5 IMCU, strength: 200 IMCU/mL}]\nmeasures: [{what: pH, stage: drain, from: 4.4, to: 4.7, else: look again}]\n")
	var doc yaml.Node
	if err := yaml.Unmarshal(folder[files[word]].Data, &doc); err != nil {
		t.Fatal(err)
	}
	top := keys.Files()[slices.IndexFunc(keys.Files(), func(f keys.File) bool { return f.Word == word })].Top
	all := everywhere(top, []*yaml.Node{doc.Content[0]}, "")
	i := slices.IndexFunc(all, func(w wherever) bool { return w.path == path })
	if i < 0 {
		t.Fatalf("%s: the example folder has nowhere to write %s", word, path)
	}
	change(all[i])
	text, err := yaml.Marshal(&doc)
	if err != nil {
		t.Fatal(err)
	}
	folder[files[word]] = &fstest.MapFile{Data: text}
	_, err = LoadFS(folder, Options{From: saltgrassFrom})
	var faults Faults
	if err != nil && !errors.As(err, &faults) {
		t.Fatal(err)
	}
	return faults
}

// paths lists the keys of a table with those above them.
func paths(m *keys.Mapping, above string) (all []wherever) {
	for _, k := range m.Keys {
		all = append(all, wherever{path: above + k.Name, key: k})
		if k.In != nil {
			all = append(all, paths(k.In, above+k.Name+".")...)
		}
	}
	return all
}

// Every key of the table is read: its example as it stands, what is needed is missed and nothing
// else is, and what is written in a unit is not taken without one.
func TestTheTableOfKeysIsWhatIsRead(t *testing.T) {
	read := 0
	for _, f := range keys.Files() {
		for _, k := range paths(f.Top, "") {
			read++
			name := f.Word + " " + k.path
			if scalar(k.key) {
				faults := changed(t, f.Word, k.path, func(w wherever) { put(w.in, k.key.Name, parsed(t, k.key.Example)) })
				if faults = besides(faults, "not both", "what stands in a cold place", "goes_by goes by the make room", "how much is written once"); len(faults) > 0 && !reference(faults) {
					t.Errorf("%s: its example %s is refused: %v", name, k.key.Example, faults)
				}
			}
			// These two are asked for because of what stands beside them.
			asked := slices.Contains([]string{"stock.at", "every"}, strings.TrimPrefix(k.path, "targets."))
			faults := changed(t, f.Word, k.path, func(w wherever) { put(w.in, k.key.Name, nil) })
			if got := strings.Contains(faults.Error(), k.key.Name+" is missing"); got != k.key.Needed() && !asked {
				t.Errorf("%s: left out it is missed: %v, want %v; got %v", name, got, k.key.Needed(), faults)
			}
			if slices.Contains([]string{"elapsed time", "amount", "strength", "volume", "mass", "temperature", "size", "moment", "date", "weeks"}, k.key.As) {
				faults := changed(t, f.Word, k.path, func(w wherever) { put(w.in, k.key.Name, parsed(t, "7")) })
				if len(faults) == 0 || !strings.Contains(faults[0].Error(), k.key.Name) {
					t.Errorf("%s: it is told as %s, and 7 is taken: %v", name, k.key.As, faults)
				}
			}
		}
	}
	if read < 100 {
		t.Errorf("got %d keys", read)
	}
}

// scalar reports whether a key's example is a value that can be written alone.
func scalar(k keys.Key) bool {
	return k.In == nil || k.Example != "" && !strings.Contains(k.Example, ", or ")
}

// reference reports whether faults are only about names of things that the folder has not.
func reference(faults Faults) bool {
	return !slices.ContainsFunc(faults, func(f Fault) bool {
		return !strings.Contains(f.What, "there is no ") && !strings.Contains(f.What, "the stage does not use this") && !strings.Contains(f.What, "this name is taken")
	})
}

func besides(faults Faults, some ...string) Faults {
	return slices.DeleteFunc(faults, func(f Fault) bool {
		return slices.ContainsFunc(some, func(one string) bool { return strings.Contains(f.What, one) })
	})
}

// parsed is a value as YAML has it.
func parsed(t *testing.T, text string) *yaml.Node {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(text), &n); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return n.Content[0]
}

// KEYS.md is what ripeby keys --markdown prints.
func TestThePageOfKeys(t *testing.T) {
	got := keys.Page(Keys())
	if *update {
		if err := os.WriteFile("KEYS.md", []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile("KEYS.md")
	if err != nil || string(text) != got {
		t.Errorf("KEYS.md is not what the table of keys says (%v); go test ./config -run PageOfKeys -update", err)
	}
}

// A line of the listing is no longer than the terminal is wide, but for what is one word or written
// for a key; and all of each file's listing is YAML.
func TestTheListingOfKeysIsYAML(t *testing.T) {
	for _, f := range keys.Files() {
		for _, width := range []int{60, 80, 132} {
			text := keys.Listing([]keys.File{f}, width)
			for _, line := range strings.Split(text, "\n") {
				if n := len([]rune(line)); n > width && !strings.Contains(line, ": ") {
					t.Errorf("%s: %d columns, want at most %d: %s", f.Name, n, width, line)
				}
			}
			var any map[string]any
			if err := yaml.Unmarshal([]byte(text), &any); err != nil {
				t.Errorf("%s at %d: %v", f.Name, width, err)
			} else if len(any) != len(f.Top.Keys) {
				t.Errorf("%s: got %d keys of %d", f.Name, len(any), len(f.Top.Keys))
			}
		}
	}
}
