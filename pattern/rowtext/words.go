package rowtext

// stitchOf is the stitch that a word names. It covers the stitches that leave one
// loop for one, and the peg not in use.
func stitchOf(word string) (Stitch, bool) {
	switch word {
	case "k", "knit":
		return Knit, true
	case "p", "purl":
		return Purl, true
	case "sl", "slip", "skip":
		return Slip, true
	case "ew", "ewk", "ewrap", "e-wrap":
		return EWrap, true
	case "uw", "uk", "uwrap", "u-wrap":
		return UWrap, true
	case "fk":
		return FlatKnit, true
	case "tk":
		return TrueKnit, true
	case "ktbl":
		return KnitTBL, true
	case "none":
		return NoStitch, true
	}
	return NoStitch, false
}

// knownStitches is what a hint lists.
const knownStitches = "known are k, p, sl, ew, uw, fk, tk, ktbl, none"

// modified is the stitch that a word behind it makes of it: "k1 tbl", "sl1 wyif".
func modified(s Stitch, word string) (Stitch, bool) {
	switch {
	case word == "tbl" && s == Knit:
		return KnitTBL, true
	case word == "wyif" && s == Slip:
		return SlipFront, true
	case word == "wyib" && s == Slip:
		return Slip, true
	}
	return s, false
}

// numberOf is the number that a word spells.
func numberOf(word string) (int, bool) {
	for i, name := range [...]string{
		"one", "two", "three", "four", "five", "six",
		"seven", "eight", "nine", "ten", "eleven", "twelve",
	} {
		if word == name {
			return i + 1, true
		}
	}
	return 0, false
}

// loopWord tells the words that say what is counted and add nothing to the count.
func loopWord(word string) bool {
	switch word {
	case "st", "sts", "stitch", "stitches", "peg", "pegs":
		return true
	}
	return false
}

// rowWord tells the words for the whole course.
func rowWord(word string) bool {
	switch word {
	case "row", "round", "rnd":
		return true
	}
	return false
}

// repWord tells the words that send the maker back to a star.
func repWord(word string) bool { return word == "rep" || word == "repeat" }

// farWord tells the words that open a phrase of how far something goes.
func farWord(word string) bool {
	switch word {
	case "to", "until", "across", "around":
		return true
	}
	return false
}

// mannerWord tells the words for how a stitch is slipped: all the same on a peg.
func mannerWord(word string) bool { return word == "purlwise" || word == "pwise" }

// familiar tells the words that can follow a count with no blank between: "k2p2".
func familiar(word string) bool {
	if _, ok := stitchOf(word); ok {
		return true
	}
	switch word {
	case "tbl", "wyif", "wyib", "x":
		return true
	}
	return mannerWord(word) || loopWord(word) || repWord(word) || farWord(word)
}

// unknownHint is the help for a word that names no stitch.
func unknownHint(word string) string {
	switch word {
	case "kl", "pl":
		return "is that " + word[:1] + "1, with a one?"
	case "end", "ending":
		return "write what follows the last repeat without it"
	case "row", "rows", "round", "rounds", "rnd", "rnds":
		return "write what is worked in one row, without its number"
	}
	return knownStitches
}
