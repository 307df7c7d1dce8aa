// Package darkbg keeps a program that imports bubbletea from questioning the
// terminal before main begins. Package main imports it for that effect alone; it
// is not the place for colours, which are chosen without regard to the background.
//
// Bubbletea's own init asks the terminal for its background colour and waits up
// to five seconds where nothing answers, so even --version would write escape
// codes. An answer set beforehand stops it. Go initialises packages that are ready
// in the order of their import paths, so this one comes first as long as its path
// sorts before github.com/charmbracelet/bubbletea and it imports nothing but
// lipgloss.
package darkbg

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }
