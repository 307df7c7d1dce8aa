package main

import "errors"

// once is the value of a flag that is given once at most: of two the first would be lost.
type once struct {
	to   *string
	why  string // it is refused the second time
	told bool
}

// String is what it says.
func (o *once) String() string {
	if o.to == nil { // as pflag makes one to learn what is empty
		return ""
	}
	return *o.to
}

// Set takes what it says.
func (o *once) Set(text string) error {
	if o.told {
		return errors.New(o.why)
	}
	*o.to, o.told = text, true
	return nil
}

// Type is what help calls it.
func (o *once) Type() string { return "string" }
