package present

// Texts is the words of the controls and of the sheet, in one language.
type Texts struct {
	Wood, Grade, Tone, Finish, Edge, Joint, Border string
	Woods, Grades, Tones, Finishes, Edges, Joints  map[string]string
	Same, Sample                                   string

	LightFrom, Sun, Day, Lamp, Window    string
	Left, Ahead, Right, Behind, Further  string
	Hour, Morning, Evening, PlayDay      string
	Round, Height, Low, High             string
	From, Above, In, Pattern, Turn       string
	Whole, ViewHint, Flat                string
	OtherSize, Smaller, Larger, Longer   string
	OtherPattern, OtherWood              string
	Herringbone, Chevron, Single, Double string
	Triple, Steeper, Flatter, Turned     string
	NoBorder, WithBorder                 string
	Then, ChangePlaces, TakeOther, Alone string
	CompareHint                          string

	Picture, AsSeen, Large, Video, Sheet, Share string
	Link, Copy, CodeHint, NoCode                string

	SheetTitle, Blocks, BorderName, None, Area string
}

// In returns the texts of a language, English where there are none.
func In(lang string) *Texts { return &english }

var english = Texts{
	Wood: "Wood", Grade: "Calm or lively", Tone: "Colour", Finish: "Finish", Edge: "Edges", Joint: "Lines between the blocks", Border: "Wood of the border",
	Woods: map[string]string{"oak": "Oak", "ash": "Ash", "beech": "Beech", "birch": "Birch", "maple": "Maple", "walnut": "Walnut", "cherry": "Cherry",
		"elm": "Elm", "chestnut": "Chestnut", "larch": "Larch", "teak": "Teak", "wenge": "Wenge"},
	Grades:   map[string]string{"calm": "Calm", "mixed": "Mixed", "lively": "Lively"},
	Tones:    map[string]string{"natural": "Natural", "smoked": "Smoked", "limed": "Limed"},
	Finishes: map[string]string{"raw": "Raw", "oiled": "Oiled", "lacquered": "Lacquered"},
	Edges:    map[string]string{"bevelled": "Soft", "square": "Sharp"},
	Joints:   map[string]string{"natural": "As the wood", "dark": "Dark", "light": "Light"},
	Same:     "As the floor",
	Sample:   "Colours on a screen and real wood differ: decide by a laid sample.",

	LightFrom: "Light from", Sun: "The sun", Day: "A day", Lamp: "A lamp", Window: "Or a window",
	Left: "Left", Ahead: "Far", Right: "Right", Behind: "Near", Further: "Another",
	Hour: "Time of day", Morning: "Morning", Evening: "Evening", PlayDay: "Play a day",
	Round: "Where the sun stands", Height: "How high", Low: "Low", High: "High",
	From: "Look", Above: "From above", In: "Walk in", Pattern: "Pattern", Turn: "Turn the pattern", Whole: "All of the floor",
	ViewHint: "Touch the floor where you want to stand and drag the way you look, then walk in. Inside, drag to look round and pinch to walk.",
	Flat:     "This device paints the floor flat and from above. For standing in the room, moving light and the figure of the wood it needs a graphics card.",

	OtherSize: "Beside it, blocks that are", Smaller: "Smaller", Larger: "Larger", Longer: "Longer",
	OtherPattern: "Beside it, the pattern as", OtherWood: "Beside it, the wood as",
	Herringbone: "Herringbone", Chevron: "Chevron", Single: "Herringbone", Double: "Double herringbone", Triple: "Triple herringbone",
	Steeper: "Steeper", Flatter: "Flatter", Turned: "Turned", NoBorder: "Without a border", WithBorder: "With a border",
	Then: "And then", ChangePlaces: "Change places", TakeOther: "Take the one on the right", Alone: "One floor again",
	CompareHint: "Drag the line between the two floors. “Beside” puts a kept choice next to the floor.",

	Picture: "To take away", AsSeen: "Picture", Large: "Large picture", Video: "Video", Sheet: "Sheet to print", Share: "Share",
	Link: "The floor itself", Copy: "Copy the link",
	CodeHint: "A camera pointed here opens this floor.",
	NoCode:   "This room has too many corners for a code to hold its link. Copy the link instead.",

	SheetTitle: "Your floor", Blocks: "Blocks", BorderName: "Border", None: "None", Area: "Area of the room",
}
