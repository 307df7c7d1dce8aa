package darkbg

import (
	"go/parser"
	"go/token"
	"reflect"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The Go language specification, "Program initialization": packages are sorted by
// import path, and the first in the list that is ready is initialised next.
func TestThePathSortsBeforeTheOneItMustPrecede(t *testing.T) {
	own := reflect.TypeFor[here]().PkgPath()
	late := reflect.TypeFor[tea.Program]().PkgPath()
	assert.Equal(t, "github.com/charmbracelet/bubbletea", late)
	assert.Less(t, own, late, "give the module a path that sorts first")
}

type here struct{}

func TestNothingButTheRecipientOfTheAnswerIsImported(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "darkbg.go", nil, parser.ImportsOnly)
	require.NoError(t, err)
	require.Len(t, f.Imports, 1)
	assert.Equal(t, `"github.com/charmbracelet/lipgloss"`, f.Imports[0].Path.Value)
}
