package rowtext

// Print writes runs as a plain list: "k3, p2, k3", always with counts. Read on as many
// pegs they are the same runs where neighbours differ.
func Print(runs []Run) string {
	to := make([]byte, 0, 6*len(runs))
	for i, r := range runs {
		if i > 0 {
			to = append(to, ", "...)
		}
		to = Wording{}.step(to, r)
	}
	return string(to)
}

// Shortest writes runs as the shortest row that says as much, with the repeat found:
// "p3, *k4, p2; rep from * to last 7, k4, p3". Read on as many loops it is the same
// runs where neighbours differ. What is chosen, and why, is told at the head of
// shorten.go.
func Shortest(runs []Run) string { return Wording{}.Row(runs) }
