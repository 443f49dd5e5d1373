package config

import (
	"fmt"

	"go.yaml.in/yaml/v3"
)

// extent is how much stands below a node when every alias is written out.
type extent struct{ nodes, depth int }

// survey walks a tree once before it is read. It counts what aliases stand for
// without following any of them twice, so that a few lines that stand for
// billions are refused at once, and finds what no kitchen folder needs.
type survey struct {
	page   *page
	seen   map[*yaml.Node]extent // of the nodes that have an anchor
	open   map[*yaml.Node]bool   // anchors above the node at hand
	broken bool
}

// refuse adds a fault and ends the survey.
func (s *survey) refuse(n *yaml.Node, what, want string) extent {
	if !s.broken {
		s.page.faultAt(n, Fault{What: what, Want: want})
	}
	s.broken = true
	return extent{}
}

// measure gives the extent of a node at a depth from 1.
func (s *survey) measure(n *yaml.Node, depth int) extent {
	switch {
	case s.broken:
		return extent{}
	case depth > MaxDepth:
		return s.refuse(n, fmt.Sprintf("values lie within values more than the limit of %d deep", MaxDepth), "it flatter, as in "+exampleOf(s.page.file))
	case n.Style&yaml.TaggedStyle != 0:
		return s.refuse(n, "tags (!…) are not read here; leave them out", "")
	case n.Kind == yaml.AliasNode:
		return s.alias(n, depth)
	}
	if n.Anchor != "" {
		s.open[n] = true
		defer delete(s.open, n)
	}
	e := extent{1, 1}
	for i, c := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 0 && c.Tag == "!!merge" {
			return s.refuse(c, "merge keys (<<) are not read here; write the lines out", "")
		}
		below := s.measure(c, depth+1)
		e.nodes = min(e.nodes+below.nodes, MaxNodes+1)
		e.depth = max(e.depth, below.depth+1)
	}
	if n.Anchor != "" {
		s.seen[n] = e
	}
	return e
}

// alias gives the extent of what the alias stands for.
func (s *survey) alias(n *yaml.Node, depth int) extent {
	if s.open[n.Alias] {
		return s.refuse(n, "the alias *"+clip(n.Value)+" stands for something that it is itself a part of", "what it stands for in its place")
	}
	e, ok := s.seen[n.Alias]
	if !ok {
		e = s.measure(n.Alias, depth)
	}
	if depth+e.depth > MaxDepth {
		return s.refuse(n, fmt.Sprintf("values lie within values more than the limit of %d deep", MaxDepth), "it flatter, as in "+exampleOf(s.page.file))
	}
	return e
}

// solid follows an alias to what it stands for.
func solid(n *yaml.Node) *yaml.Node {
	for n != nil && n.Kind == yaml.AliasNode {
		n = n.Alias
	}
	return n
}

// null reports whether nothing was written: an empty value, ~ or null.
func null(n *yaml.Node) bool {
	n = solid(n)
	return n == nil || n.Kind == yaml.ScalarNode && n.Tag == "!!null"
}
