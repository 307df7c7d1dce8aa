package ordeal_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
)

// mistake is a change of one place in the sources of the store that somebody might make
// and no compiler would mind, and the test that catches it.
type mistake struct {
	name    string
	file    string // in tui/save
	is      string
	becomes string
	in      string // the package of the test, from here
	test    string
}

const (
	here   = "."
	store  = ".."
	damage = "../damage"
)

var mistakes = []mistake{
	{
		"a step counts as saved before it is synced", "journal.go",
		"if err := j.file.Sync(); err != nil {", "if err := error(nil); err != nil {",
		here, "TestNoPowerCutTakesBackWhatWasShown",
	},
	{
		"a file whose sync failed is gone on with", "journal.go",
		"if err := j.file.Sync(); err != nil {\n\t\tj.leave()\n", "if err := j.file.Sync(); err != nil {\n",
		store, "TestAFileWhoseSyncFailedIsNeverSyncedAgain",
	},
	{
		"a sync that failed is tried again, and believed", "journal.go",
		"if err := j.file.Sync(); err != nil {", "if j.file.Sync() == nil {\n\t} else if err := j.file.Sync(); err != nil {",
		here, "TestAFailureThenWorkThenAPowerCut",
	},
	{
		"what a failed sync left is shown without being written again", "open.go",
		"p.journal.owed, p.journal.adrift = a.unvouched(p.answered)", "",
		here, "TestAFailureThenAKillThenAPowerCut",
	},
	{
		"the name of a new segment is not synced", "journal.go",
		"if err := j.fs.SyncDir(j.dir); err != nil {", "if err := error(nil); err != nil {",
		here, "TestAFailureThenWorkThenAPowerCut",
	},
	{
		"the name of a file that replaces another is not synced", "fs.go",
		"return fsys.SyncDir(dir)\n}\n\n// createFile", "return nil\n}\n\n// createFile",
		here, "TestNoPowerCutTakesBackWhatWasShown",
	},
	{
		"a file gets its name before its bytes are synced", "fs.go",
		"if err := f.Sync(); err != nil {\n\t\treturn err\n\t}\n\tinfo", "info",
		here, "TestNoPowerCutTakesBackWhatWasShown",
	},
	{
		"the names of folders that are there already are not synced", "fs.go",
		"err = fsys.SyncDir(parent)\n\tif there", "if there {\n\t\treturn nil\n\t}\n\terr = fsys.SyncDir(parent)\n\tif there",
		here, "TestNoFailureThenAPowerCutTakesBackWhatWasShown",
	},
	{
		"a pattern is named before it is on disk", "steps.go",
		"mark, err := keepPattern(p.env.FS, p.dir, text)\n", "mark, err := patternMark(text), error(nil)\n\tdefer keepPattern(p.env.FS, p.dir, text)\n",
		here, "TestNoPowerCutTakesBackWhatWasShown",
	},
	{
		"half a line is written on behind", "open.go",
		"t.size, !t.newline, true", "t.size, false, true",
		store, "TestAJournalCutAnywhereKeepsEveryWholeLine",
	},
	{
		"half a line of this very run is written on behind", "journal.go",
		"j.guard = true\n\tinfo", "info",
		store, "TestADiskThatFillsUpAndIsFreed",
	},
	{
		"a number is used again after its write failed", "journal.go",
		"if err != nil {\n\t\treturn err\n\t}\n\tj.top", "if err != nil {\n\t\tj.next -= uint64(len(records))\n\t\treturn err\n\t}\n\tj.top",
		store, "TestADiskThatFillsUpAndIsFreed",
	},
	{
		"nobody looks whether the file is still the one of that name", "journal.go",
		"if !j.fs.SameFile(held, named) || held.Size() != j.size {", "if named == nil || held.Size() != j.size {",
		store, "TestAFileThatSomethingElseChangedIsLeftAlone",
	},
	{
		"nobody looks whether the file has the size it must have", "journal.go",
		"if !j.fs.SameFile(held, named) || held.Size() != j.size {", "if !j.fs.SameFile(held, named) {",
		here, "TestNoFailureThenAPowerCutTakesBackWhatWasShown",
	},
	{
		"a journal that cannot be read is an empty one", "scan.go",
		"return nil, err\n\t\t}\n\t}\n\tvar best", "files[i] = nil\n\t\t}\n\t}\n\tvar best",
		store, "TestAReadThatFailsIsNeverAnEmptyJournal",
	},
	{
		"a sum is not looked at", "record.go",
		"return line[:cut], sum, string(digits[:]) == line[cut+len(sumField):]", "return line[:cut], sum, true",
		damage, "TestEveryBitOfAJournalFlipped",
	},
	{
		"the sum of a plain line is not looked at", "plain.go",
		"if binary.BigEndian.Uint64(text[end-8:]) != hexDigits(p.sum) {", "if hexDigits(p.sum) == 0 {",
		damage, "TestEveryBitOfAJournalFlipped",
	},
	{
		"nothing is read behind a line that does not check", "scan.go",
		"s.line(string(line), full)\n", "n := len(s.atEnd)\n\t\ts.line(string(line), full)\n\t\tif len(s.atEnd) > n {\n\t\t\tbreak\n\t\t}\n",
		damage, "TestEveryBitOfAJournalFlipped",
	},
	{
		"the second copy goes back", "copy.go",
		"case old != nil && (old.number > c.number || old.version > copyVersion):", "case old != nil && old.version > copyVersion:",
		store, "TestTheSecondCopyNeverGoesBack",
	},
	{
		"a step that failed is taken for the saved one", "steps.go",
		"if err != nil {\n\t\tif errors.Is(err, ErrChangedUnderneath) && !p.stale {", "p.saved = records[len(records)-1]\n\tif err != nil {\n\t\tif errors.Is(err, ErrChangedUnderneath) && !p.stale {",
		store, "TestADiskThatFillsUpAndIsFreed",
	},
	{
		"what is not saved yet is said to be", "writer.go",
		"ack := Ack{Through: w.saved, Err: err}", "ack := Ack{Through: w.put, Err: err}",
		store, "TestWhatCouldNotBeSavedIsKeptAndTriedAgain",
	},
	{
		"lines owed make a write longer than a batch", "journal.go",
		"if bytes.Count(j.owed, []byte{'\\n'})+len(records) > MaxBatch {", "if bytes.Count(j.owed, []byte{'\\n'}) > MaxBatch {",
		here, "TestLinesOwedAreNotLeftBehindAWholeBatch",
	},
	{
		"a second copy that can't be read is none", "open.go",
		"case a.unread():\n\t\to.LookOnly", "case false:\n\t\to.LookOnly",
		store, "TestASecondCopyThatCannotBeReadIsNotTakenForNone",
	},
	{
		"a piece is read before it is locked", "open.go",
		"lock(p)\n\to, err := p.load()\n", "o, err := p.load()\n\tlock(p)\n",
		store, "TestAPieceIsReadAfterItIsLocked",
	},
}

// The tests of the store can fail: each mistake is made in the real sources, in a build
// of its own, and the test that it is for must catch it.
func TestEveryMistakeInTheStoreIsCaught(t *testing.T) {
	if hasty() {
		t.Skip("builds the store once for each mistake")
	}
	goTool, err := exec.LookPath("go")
	if err != nil {
		figures.Skip(t, "the go command")
	}
	for _, m := range mistakes {
		t.Run(m.name, func(t *testing.T) {
			t.Parallel()
			cmd := exec.Command(goTool, "test", "-overlay", m.make(t), "-vet=off", "-count=1", "-short", "-run", "^"+m.test+"$", m.in)
			cmd.Env = append(os.Environ(), "BYPEG_FIGURES=") // what it counts is not counted here
			said, err := cmd.CombinedOutput()
			require.Error(t, err, "%s lets it pass", m.test)
			assert.Contains(t, string(said), "--- FAIL: "+m.test, "it is to be caught, and not to keep the test from running")
		})
	}
	t.Cleanup(func() { figures.Say(t, "%d mistakes, all caught", len(mistakes)) })
	assert.GreaterOrEqual(t, len(mistakes), 12)
}

// make writes the sources with the mistake, for the go command to build instead of the
// real ones.
func (m mistake) make(t *testing.T) (overlay string) {
	t.Helper()
	source, err := filepath.Abs(filepath.Join("..", m.file))
	require.NoError(t, err)
	text, err := os.ReadFile(source)
	require.NoError(t, err)
	require.Equal(t, 1, strings.Count(string(text), m.is), "the place in %s", m.file)
	dir := t.TempDir()
	changed := filepath.Join(dir, m.file)
	require.NoError(t, os.WriteFile(changed, []byte(strings.Replace(string(text), m.is, m.becomes, 1)), 0o600))
	list, err := json.Marshal(map[string]map[string]string{"Replace": {source: changed}})
	require.NoError(t, err)
	overlay = filepath.Join(dir, "overlay.json")
	require.NoError(t, os.WriteFile(overlay, list, 0o600))
	return overlay
}
