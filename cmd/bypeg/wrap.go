//go:build !crashtest

package main

import tea "github.com/charmbracelet/bubbletea"

// wrap is where a test build puts its faults in. A real build adds nothing.
func wrap(m tea.Model) tea.Model { return m }
