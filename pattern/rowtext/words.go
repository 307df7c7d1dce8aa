package rowtext

// stitchOf is the stitch that a single word names.
func stitchOf(word string) (Stitch, bool) {
	switch word {
	case "k", "knit":
		return Knit, true
	case "p", "purl":
		return Purl, true
	case "sl", "slip", "skip", "s":
		return Slip, true
	case "ew", "ewk", "ewrap", "e-wrap", "ewraps", "e-wraps":
		return EWrap, true
	case "uw", "uk", "uwrap", "u-wrap", "uwk", "u-knit":
		return UWrap, true
	case "fk", "flat-knit":
		return FlatKnit, true
	case "tk", "true-knit":
		return TrueKnit, true
	case "ktbl":
		return KnitTBL, true
	case "ptbl":
		return PurlTBL, true
	case "yo", "yos":
		return YarnOver, true
	case "kfb":
		return KnitTwice, true
	case "ssk":
		return SlipSlipKnit, true
	case "skp", "skpo":
		return SlipKnitPass, true
	case "ssp":
		return SlipSlipPurl, true
	case "none":
		return NoStitch, true
	}
	return NoStitch, false
}

// oldStitch is the stitch that a word of old or other writers may name, and why that
// is a guess.
func oldStitch(word string) (s Stitch, doubt string, ok bool) {
	switch word {
	case "o", "over":
		return YarnOver, "o is read as a yarn over, as old books have it", true
	case "n", "narrow":
		return KnitTwo, "n is read as narrow, two knitted together, as old books have it", true
	case "yf", "yfwd", "yfd", "yon", "yrn", "yfon", "yfrn", "wfwd":
		return YarnOver, word + " is read as a yarn over; elsewhere it only brings the yarn to the front", true
	}
	return NoStitch, "", false
}

// knownStitches is what a hint lists.
const knownStitches = "known are k, p, sl, ew, uw, fk, tk, ktbl, yo, m1, kfb, k2tog, ssk, skp, p2tog, sk2p, c4f, c4b, none"

// numberWords are the numbers that old manuals spell.
var numberWords = map[string]int{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
	"eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17,
	"eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70,
	"eighty": 80, "ninety": 90,
}

// numberOf is the number that a word spells: "three", "twenty-four".
func numberOf(word string) (int, bool) {
	if n, ok := numberWords[word]; ok {
		return n, true
	}
	for i := range word {
		if word[i] != '-' {
			continue
		}
		tens, ones := numberWords[word[:i]], numberWords[word[i+1:]]
		return tens + ones, tens >= 20 && 1 <= ones && ones <= 9
	}
	return 0, false
}

// loopWord tells the words that say what is counted and add nothing to the count.
func loopWord(word string) bool {
	switch word {
	case "st", "sts", "stitch", "stitches", "peg", "pegs", "loop", "loops":
		return true
	}
	return false
}

// rowWord tells the words for the whole course.
func rowWord(word string) bool {
	switch word {
	case "row", "round", "rnd", "rows", "rounds", "rnds":
		return true
	}
	return false
}

// repWord tells the words that send the maker back to a star.
func repWord(word string) bool {
	switch word {
	case "rep", "repeat", "reps", "repeats", "repeating", "rpt":
		return true
	}
	return false
}

// farWord tells the words that open a phrase of how far something goes.
func farWord(word string) bool {
	switch word {
	case "to", "until", "till", "til", "across", "around", "up":
		return true
	}
	return false
}

// endWord tells the words that say how a row of repeats ends.
func endWord(word string) bool {
	switch word {
	case "end", "ending", "ends", "finish", "finishing":
		return true
	}
	return false
}

// mannerWord tells the words for how a stitch is slipped: all the same on a peg.
func mannerWord(word string) bool {
	switch word {
	case "purlwise", "pwise", "p-wise", "knitwise", "kwise", "k-wise", "purl-wise", "knit-wise":
		return true
	}
	return false
}

// changing tells the words that change what is worked, or how often: brackets round them
// are no remark.
func changing(word string) bool {
	switch word {
	case "front", "back", "behind", "loop", "loops", "twisted", "twist", "crossed", "yarn", "fwd", "forward", "tbl", "wyif", "wyib", "yf", "yb",
		"twice", "thrice", "once", "times", "time", "x", "more", "only", "except", "or", "if", "each", "every", "odd", "even", "alternate", "alt",
		"omit", "omitting", "skipping", "for", "inc", "dec", "increase", "decrease", "make", "bobble", "cable", "bind",
		"cast", "bo", "co", "size", "sizes", "wrapped", "double", "together", "tog", "below":
		return true
	}
	return mannerWord(word)
}

// ribWord tells the words that make a list the name of a rib.
func ribWord(word string) bool { return word == "rib" || word == "ribbing" }

// noiseWord tells the words that stand between the parts of a row and mean no stitch.
func noiseWord(word string) bool {
	switch word {
	case "and", "then", "pm", "sm", "rm", "next":
		return true
	}
	return false
}

// familiar tells the words that can follow a count with no blank between: "k2p2".
func familiar(word string) bool {
	if _, ok := stitchOf(word); ok {
		return true
	}
	switch word {
	case "tbl", "wyif", "wyib", "wyf", "wyb", "x", "tog", "c", "m":
		return true
	}
	return mannerWord(word) || loopWord(word) || repWord(word) || farWord(word) || ribWord(word) || noiseWord(word)
}

// unknownHint is the help for a word that names no stitch.
func unknownHint(word string) string {
	switch word {
	case "kl", "pl", "ki", "pi", "sll":
		return "is that " + word[:1] + "1, with a one?"
	case "row", "rows", "round", "rounds", "rnd", "rnds":
		return "write what is worked in one row, without its number"
	case "edge", "selvedge", "selvage":
		return "say what the edge stitch is: k1, p1 or sl1"
	case "rib", "ribbing":
		return "say which rib: k2, p2 rib"
	case "garter", "stockinette", "stocking", "seed", "moss", "welt", "basket", "basketweave":
		return "write its rows out: on a loom garter is k on one row and p on the next, plain fabric is k on every row"
	case "inc", "increase":
		return "say which increase: kfb, m1 or yo"
	case "dec", "decrease":
		return "say which decrease: k2tog or ssk"
	}
	return knownStitches
}
