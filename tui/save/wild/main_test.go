//go:build unix

package wild_test

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"
)

// asWriter is the variable that makes the test binary a writer, and says how.
const asWriter = "BYPEG_WILD_WRITER"

func TestMain(m *testing.M) {
	text, ok := os.LookupEnv(asWriter)
	if !ok {
		os.Exit(m.Run())
	}
	var w ways
	if err := json.Unmarshal([]byte(text), &w); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	os.Exit(write(w))
}

// long tells whether there is time for many more rounds.
func long() bool { return os.Getenv("BYPEG_LONG") == "1" }

// rounds is how often to do something that is done n times on every push.
func rounds(n, longer int) int {
	switch {
	case testing.Short():
		return (n + 9) / 10
	case long():
		return longer
	}
	return n
}
