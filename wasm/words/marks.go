package words

// Marks is the texts about lines, marks, leftovers and rows to check.
type Marks struct {
	Title string
}

func englishMarks() Marks {
	return Marks{
		Title: "Marks from one hook of the tape",
	}
}
