package words

// Survey is the texts about the room as it was taped.
type Survey struct {
	Report string
}

func englishSurvey() Survey {
	return Survey{
		Report: "What the tape says",
	}
}
