// Asks imports bubbletea and says one word: the terminal is questioned first.
package main

import (
	"fmt"

	_ "github.com/charmbracelet/bubbletea"
)

func main() { fmt.Println("hello") }
