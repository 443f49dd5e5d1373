package main

import (
	"encoding/json"
	"io"
)

// say prints a paragraph, wrapped. Its text may hold names from the folder.
func say(w io.Writer, width int, text string) {
	_, _ = io.WriteString(w, wrapped(plain(text), width, "")+"\n")
}

// item prints one entry of a list, wrapped.
func item(w io.Writer, width int, text string) {
	_, _ = io.WriteString(w, wrapped("- "+plain(text), width, "  ")+"\n")
}

// printJSON prints an answer for a program.
func printJSON(w io.Writer, answer any) error {
	text, err := json.MarshalIndent(answer, "", "  ")
	if err != nil {
		return err
	}
	_, _ = w.Write(append(text, '\n'))
	return nil
}
