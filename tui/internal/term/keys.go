package term

// Key is one press as the bytes a terminal sends for it. A printable key is its
// own text: Key("j").
type Key string

// The keys that are no text of their own.
const (
	Space     Key = " "
	Enter     Key = "\r"
	Tab       Key = "\t"
	Esc       Key = "\x1b"
	Backspace Key = "\x7f"
	Up        Key = "\x1b[A"
	Down      Key = "\x1b[B"
	Right     Key = "\x1b[C"
	Left      Key = "\x1b[D"
	Home      Key = "\x1b[H"
	End       Key = "\x1b[F"
	PageUp    Key = "\x1b[5~"
	PageDown  Key = "\x1b[6~"
	CtrlC     Key = "\x03"
	CtrlZ     Key = "\x1a"
)

// Pasted is text as a terminal sends it when it is pasted rather than typed.
func Pasted(text string) string { return "\x1b[200~" + text + "\x1b[201~" }
