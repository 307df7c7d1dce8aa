package shelf

// pictureWidth is how many cells the picture of a cloth takes at most.
const pictureWidth = 26

// painting is a line of a picture, without and with its colours.
type painting struct{ plain, painted string }

// hasPicture tells whether there is room for one beside the words.
func (m Model) hasPicture() bool { return m.width >= 60 }

// picture is the cloth of the one under the hand, in so many lines at most.
func (m Model) picture(most int) []painting { return nil }
