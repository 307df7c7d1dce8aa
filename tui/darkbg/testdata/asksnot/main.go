// Asksnot imports bubbletea behind darkbg and says one word, and nothing else.
package main

import (
	"fmt"

	_ "github.com/charmbracelet/bubbletea"

	_ "bypeg/tui/darkbg"
)

func main() { fmt.Println("hello") }
