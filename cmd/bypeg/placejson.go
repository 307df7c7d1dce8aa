package main

import (
	"bufio"
	"fmt"

	"bypeg/pattern"
	"bypeg/pattern/find"
)

// What place tells programs, a place a line: there may be many. Fields stand in the order of
// their names. Row is the row to work next or under way, one above the last where all are
// done; done is the stitches worked in it.

type jsonFit struct {
	Done int `json:"done"`
	Row  int `json:"row"`
}

type jsonFitBut struct {
	But  string `json:"but"`
	Done int    `json:"done"`
	Peg  *int   `json:"peg"` // where the thing is said of one peg
	Row  int    `json:"row"`
}

func writePlaceJSON(w *bufio.Writer, o pattern.Order, e find.Evidence, a *find.Answer) {
	var kind, words string
	if a.Asks {
		kind, words = a.Ask.Kind.String(), a.Ask.Words(o)
	}
	fmt.Fprintf(w, "{\n  \"ask\": %s,\n  \"ask_peg\": %s,\n  \"fits\": [", compact(orNull(kind)), compact(orNull(a.Ask.Peg)))
	var fits, but lines
	for _, f := range a.Fits {
		for done := f.From; done <= f.To; done++ {
			fits.add(w, jsonFit{done, f.Row})
		}
	}
	fits.end(w)
	fmt.Fprint(w, "],\n  \"fits_but\": [")
	for _, b := range a.But {
		c := e.Clues[b.Clue]
		one := jsonFitBut{But: c.Kind.String(), Done: b.From, Row: b.Row}
		if c.Kind.OfPeg() {
			one.Peg = &c.Peg
		}
		but.add(w, one)
	}
	but.end(w)
	fmt.Fprintf(w, "],\n  \"question\": %s,\n  \"schema\": %d\n}\n", compact(orNull(words)), jsonSchema)
}

// lines writes values of a list, each on a line of its own; it is how many there are.
type lines int

func (n *lines) add(w *bufio.Writer, v any) {
	if *n > 0 {
		w.WriteByte(',')
	}
	w.WriteString("\n    ")
	w.Write(compact(v))
	*n++
}

func (n *lines) end(w *bufio.Writer) {
	if *n > 0 {
		w.WriteString("\n  ")
	}
}
