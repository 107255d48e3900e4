package words

// Sheets is the texts of the printed sheets and of the files.
type Sheets struct {
	Title string
}

func englishSheets() Sheets {
	return Sheets{
		Title: "Sheets and files",
	}
}
