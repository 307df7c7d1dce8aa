package rowtext

// content is what the instructions of rows are. Rows of the same text share one, so that a thousand equal rows are
// read once; its places are those of the first of them.
type content struct {
	start  int
	again  *again // they are those of other rows
	body   *body
	faults Errors
	id     int
}

// contentAt is the content of a piece of the text.
func (r *reader) contentAt(at span) *content {
	piece := r.text[at.start:at.end]
	if known, ok := r.contents[piece]; ok {
		return known
	}
	made := r.readContent(at)
	made.start, made.id = at.start, len(r.contents)
	r.contents[piece] = made
	return made
}

// readContent reads a piece of the text.
func (r *reader) readContent(at span) *content {
	var f faults
	if at.end-at.start > maxText {
		f.add(at, "", "the row is longer than %d KiB", maxText>>10)
		return &content{faults: f.list}
	}
	tokens := unbroken(lex(r.text, at))
	r.work += len(tokens)
	c := &cursor{text: r.text, tokens: tokens}
	if a, ok := c.again(); ok {
		if a.unread.start < a.unread.end && !a.aside {
			f.add(a.unread, "write rep rows 1-4 three more times", "this cannot be read behind the rows to repeat")
		}
		return &content{again: &a, faults: f.list}
	}
	c.i = 0
	if c.opensNamed() {
		f.add(at, "write out its rows", "a stitch pattern by its name alone: its rows differ between looms and needles")
		return &content{faults: f.list}
	}
	b, faults := parseBody(r.text, tokens, r.options.Size)
	return &content{body: b, faults: faults}
}

// unbroken is tokens without line breaks and the bullets behind them.
func unbroken(tokens []token) []token {
	kept := tokens[:0]
	broken := false
	for _, t := range tokens {
		if t.kind == tokLine || t.kind == tokBullet && broken {
			broken = true
			continue
		}
		broken = false
		kept = append(kept, t)
	}
	return kept
}

// report adds the faults of a content found at a piece of the text.
func (r *reader) report(known *content, at span) {
	for _, e := range known.faults {
		r.shifted(e, at.start-known.start, "")
	}
}

// shifted adds a fault that was found in the same words elsewhere.
func (r *reader) shifted(e *Error, by int, before string) {
	r.addError(&Error{Start: e.Start + by, End: e.End + by, Msg: before + e.Msg, Hint: e.Hint})
}

// addError adds a fault unless it is there already.
func (r *reader) addError(e *Error) {
	for _, other := range r.list {
		if *other == *e {
			return
		}
	}
	if len(r.list) < maxErrors {
		r.list = append(r.list, e)
	}
}
