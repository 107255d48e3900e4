package words

// Show is the words of the picture alone. They are a client's words: no
// numbers, and nothing that only the trade says.
type Show struct {
	_                            incomparable
	Controls, Hide               string
	Wood, Light, View, Compare   string
	Keep, Away, Play, Stop, Back string
	Divider                      string
	Kept, Open, Beside, Remove   string // with {n}
	BesideWord, RemoveWord       string // on buttons that are narrow
	Full, Removed, PutBack       string
	NotKept                      string
	BesideFails, Same            string
	Flat                         string
	Working, NoPicture           string
	NoVideo, Recording, NoRecord string
	Saved, NotTaken              string
}

func englishShow() Show {
	return Show{
		Controls: "Controls", Hide: "Put away",
		Wood: "Wood", Light: "Light", View: "View", Compare: "Compare",
		Keep: "Keep", Away: "Take away", Play: "Play", Stop: "Stop", Back: "Back",
		Divider: "Where the two floors meet",
		Kept:    "Kept", Open: "Show kept choice {n}", Beside: "Put kept choice {n} beside this one", Remove: "Remove kept choice {n}",
		BesideWord: "Beside", RemoveWord: "Remove",
		Full:    "Six choices are kept. Remove one to keep another.",
		Removed: "Removed.", PutBack: "Put back",
		NotKept:     "This browser keeps nothing: your choices last as long as the page is open.",
		BesideFails: "The other floor does not fit this room.",
		Same:        "Both floors are the same.",
		Flat:        "This device paints the floor flat and from above. For standing in the room, moving light and the figure of the wood it needs a graphics card.",
		Working:     "One moment …", NoPicture: "This device has no memory for so large a picture. The smaller one may do.",
		NoVideo: "This browser cannot record a video.", Recording: "Recording …", NoRecord: "The video could not be recorded.",
		Saved:    "{name} is among your downloads.",
		NotTaken: "This browser has no sharing of its own. Take the picture instead.",
	}
}
