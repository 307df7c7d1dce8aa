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
	sep := "\n    "
	for _, f := range a.Fits {
		for done := f.From; done <= f.To; done++ {
			fmt.Fprintf(w, "%s%s", sep, compact(jsonFit{done, f.Row}))
			sep = ",\n    "
		}
	}
	fmt.Fprint(w, "\n  ],\n  \"fits_but\": [")
	sep = "\n    "
	for _, b := range a.But {
		c := e.Clues[b.Clue]
		but := jsonFitBut{But: c.Kind.String(), Done: b.From, Row: b.Row}
		if c.Kind.OfPeg() {
			but.Peg = &c.Peg
		}
		fmt.Fprintf(w, "%s%s", sep, compact(but))
		sep = ",\n    "
	}
	fmt.Fprintf(w, "\n  ],\n  \"question\": %s,\n  \"schema\": %d\n}\n", compact(orNull(words)), jsonSchema)
}
