package main

import (
	"embed"
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
)

//go:embed cpsat/*.py
var cpsatModel embed.FS

// cpsat is CP-SAT of the Python package ortools, with a model of its own of a kitchen's
// facts.
type cpsat struct {
	asking
	seconds float64
	folder  string // of the model's files, while it runs
}

func (c *cpsat) name() string { return "cpsat" }

// ask answers wholly, whatever plan there is.
func (c *cpsat) ask(s *statement, _ []int64) (reply, error) {
	facts, err := s.json()
	if err != nil {
		return reply{}, err
	}
	c.asked++
	r, err := c.put(struct {
		ID      int             `json:"id"`
		Facts   json.RawMessage `json:"facts"`
		Seconds float64         `json:"seconds"`
	}{c.asked, facts, c.seconds})
	if len(r.Parts) > partLitres {
		r.Parts[partLitres] /= int64(s.measure)
	}
	r.Last.Part7 /= int64(s.measure)
	r.Last.stand(s)
	return r, err
}

func (c *cpsat) close() {
	c.asking.close()
	os.RemoveAll(c.folder)
}

// startCPSAT starts it under a python.
func startCPSAT(python string, seconds float64) (*cpsat, error) {
	path, err := generalsolver.FindPython(python)
	if err != nil {
		return nil, &missing{err}
	}
	folder, err := os.MkdirTemp("", "cpsat")
	if err != nil {
		return nil, err
	}
	files, err := fs.Sub(cpsatModel, "cpsat")
	if err == nil {
		err = os.CopyFS(folder, files)
	}
	var script *generalsolver.Script
	if err == nil {
		script, err = generalsolver.Run(path, "-B", "-u", filepath.Join(folder, "main.py"))
	}
	if err != nil {
		os.RemoveAll(folder)
		return nil, err
	}
	return &cpsat{asking{script: script}, seconds, folder}, nil
}

// spot is where a stack of so many boxes of a stay stands; shelf counts from 1, the rest is in
// micrometres.
type spot struct {
	Shelf  int   `json:"shelf"`
	X      int64 `json:"x"`
	Y      int64 `json:"y"`
	Turned bool  `json:"turned"`
	Many   int   `json:"many"`
}

// stand tells where boxes stand as kitchen.mzn does: the spots of a stay in its columns.
func (c *chosen) stand(s *statement) {
	n := len(s.space.columnOf)
	c.Stands, c.Turned = make([]bool, n), make([]bool, n)
	c.Shelf, c.SpaceX, c.SpaceY, c.Many = make([]int, n), make([]int, n), make([]int, n), make([]int, n)
	next := make([]int, len(c.Spots))
	for i, stay := range s.space.columnOf {
		if stay >= len(next) || next[stay] == len(c.Spots[stay]) {
			continue
		}
		at := c.Spots[stay][next[stay]]
		next[stay]++
		c.Stands[i], c.Shelf[i], c.Turned[i] = true, at.Shelf, at.Turned
		c.Many[i] = at.Many
		c.SpaceX[i], c.SpaceY[i] = int(resources.Micrometres(at.X)/s.space.side), int(resources.Micrometres(at.Y)/s.space.side)
	}
}
