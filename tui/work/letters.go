package work

import "strings"

// letters are drawn five dots high, for large print. Small letters are drawn as
// capitals; what is not here is left blank.
var letters = map[rune][5]string{
	'A': {".##.", "#..#", "####", "#..#", "#..#"},
	'B': {"###.", "#..#", "###.", "#..#", "###."},
	'C': {".###", "#...", "#...", "#...", ".###"},
	'D': {"###.", "#..#", "#..#", "#..#", "###."},
	'E': {"####", "#...", "###.", "#...", "####"},
	'F': {"####", "#...", "###.", "#...", "#..."},
	'G': {".###", "#...", "#.##", "#..#", ".###"},
	'H': {"#..#", "#..#", "####", "#..#", "#..#"},
	'I': {"###", ".#.", ".#.", ".#.", "###"},
	'J': {"..##", "...#", "...#", "#..#", ".##."},
	'K': {"#..#", "#.#.", "##..", "#.#.", "#..#"},
	'L': {"#...", "#...", "#...", "#...", "####"},
	'M': {"#...#", "##.##", "#.#.#", "#...#", "#...#"},
	'N': {"#..#", "##.#", "####", "#.##", "#..#"},
	'O': {".##.", "#..#", "#..#", "#..#", ".##."},
	'P': {"###.", "#..#", "###.", "#...", "#..."},
	'Q': {".##.", "#..#", "#..#", "#.#.", ".#.#"},
	'R': {"###.", "#..#", "###.", "#.#.", "#..#"},
	'S': {".###", "#...", ".##.", "...#", "###."},
	'T': {"#####", "..#..", "..#..", "..#..", "..#.."},
	'U': {"#..#", "#..#", "#..#", "#..#", ".##."},
	'V': {"#...#", "#...#", ".#.#.", ".#.#.", "..#.."},
	'W': {"#...#", "#...#", "#.#.#", "##.##", "#...#"},
	'X': {"#..#", "#..#", ".##.", "#..#", "#..#"},
	'Y': {"#...#", ".#.#.", "..#..", "..#..", "..#.."},
	'Z': {"####", "..#.", ".#..", "#...", "####"},
	'0': {".##.", "#..#", "#..#", "#..#", ".##."},
	'1': {".#.", "##.", ".#.", ".#.", "###"},
	'2': {"###.", "...#", ".##.", "#...", "####"},
	'3': {"###.", "...#", ".##.", "...#", "###."},
	'4': {"#..#", "#..#", "####", "...#", "...#"},
	'5': {"####", "#...", "###.", "...#", "###."},
	'6': {".##.", "#...", "###.", "#..#", ".##."},
	'7': {"####", "...#", "..#.", ".#..", ".#.."},
	'8': {".##.", "#..#", ".##.", "#..#", ".##."},
	'9': {".##.", "#..#", ".###", "...#", ".##."},
	'-': {"...", "...", "###", "...", "..."},
	'/': {"..#", "..#", ".#.", "#..", "#.."},
	' ': {"..", "..", "..", "..", ".."},
	'<': {"..#..", ".#...", "#####", ".#...", "..#.."}, // an arrow to the left
	'>': {"..#..", "...#.", "#####", "...#.", "..#.."},
}

// dots are the five lines of dots of a text in large letters, one blank dot between two.
func dots(text string) [5]string {
	var lines [5]string
	for i, r := range strings.ToUpper(text) {
		letter, known := letters[r]
		if !known {
			letter = letters[' ']
		}
		for y := range lines {
			if i > 0 {
				lines[y] += "."
			}
			lines[y] += letter[y]
		}
	}
	return lines
}

// scale is how large a dot is.
type scale struct {
	across, down int  // cells of a dot
	half         bool // two dots, one above the other, share a cell instead
}

// scales are the sizes of large print, the largest first. A cell is about twice as tall
// as wide. Where half blocks can't be drawn the last one goes.
var scales = []scale{{6, 3, false}, {4, 2, false}, {2, 1, false}, {1, 1, false}, {1, 1, true}}

// width is how many cells a text takes.
func (s scale) width(text string) int { return s.across * len(dots(text)[0]) }

// draw sets a text in large letters. No line has more than width() cells; blanks at the
// ends are left out.
func (s scale) draw(text, dot string) []string {
	rows := dots(text)
	var lines []string
	if s.half {
		rows := append(rows[:], strings.Repeat(".", len(rows[0])))
		for y := 0; y < len(rows); y += 2 {
			lines = append(lines, halves(rows[y], rows[y+1]))
		}
		return lines
	}
	signs := strings.NewReplacer("#", strings.Repeat(dot, s.across), ".", strings.Repeat(" ", s.across))
	for _, row := range rows {
		line := strings.TrimRight(signs.Replace(row), " ")
		for range s.down {
			lines = append(lines, line)
		}
	}
	return lines
}

// halves draws two lines of dots in one of cells.
func halves(upper, lower string) string {
	var b strings.Builder
	for x := range upper {
		switch [2]byte{upper[x], lower[x]} {
		case [2]byte{'#', '#'}:
			b.WriteString("█")
		case [2]byte{'#', '.'}:
			b.WriteString("▀")
		case [2]byte{'.', '#'}:
			b.WriteString("▄")
		default:
			b.WriteByte(' ')
		}
	}
	return strings.TrimRight(b.String(), " ")
}
