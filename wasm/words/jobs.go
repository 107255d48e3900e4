package words

// Jobs is the texts about the jobs kept on this device.
type Jobs struct {
	_                              incomparable
	Title, Lead                    string
	Name, Keep, KeepNew, Suggested string // Suggested has {date}
	Kept, None, This, Open         string // Open has {name}
	More, Copy, Copied, Delete     string // Copied has {name}
	Deleted, PutBack               string // Deleted has {name}
	Undo, Redo                     string
	File, Export, ExportAll        string
	ShareAll, Import, FileHelp     string
	Saved                          string // {name}
	Brought                        string // {added}, {known} and {beside}
	TooLarge                       string
	Safe, Unsafe, Private          string
	Blocked, Full, Cleared         string
	Elsewhere, Followed, Gone      string
	TakeThat, KeepCopy             string
	Broken, Later                  string // {n}
	Close                          string
	Files, ToSave, ToShare         string
	NotShared                      string
}

func englishJobs() Jobs {
	return Jobs{
		Title: "Jobs", Lead: "Floors kept on this device, each under a name. What you change is kept as you go.",
		Name: "Name", Keep: "Keep this job", KeepNew: "Keep as another job", Suggested: "Floor, {date}",
		Kept: "Kept here", None: "No job is kept yet. A link holds a job too.", This: "Open now", Open: "Open {name}",
		More: "More", Copy: "Duplicate", Copied: "{name} (copy)", Delete: "Delete",
		Deleted: "“{name}” is deleted.", PutBack: "Put it back",
		Undo: "Undo", Redo: "Redo",
		File: "Put away or pass on", Export: "Save as a file", ExportAll: "Save all as a file",
		ShareAll: "Share all", Import: "Bring in a file", FileHelp: "Or drop the file on the page. What is here stays.",
		Saved:     "{name} is saved.",
		Brought:   "Brought in: {added}. Here already: {known}. Kept beside as a copy: {beside}.",
		TooLarge:  "This is no file of kept jobs: such a file has at most 4 MB.",
		Safe:      "The browser keeps them until you clear its data.",
		Unsafe:    "The browser may clear them when the device runs short of room. Save them as a file now and then.",
		Private:   "In a private window they go when it is shut; the page cannot tell if this is one.",
		Blocked:   "This browser lets the page keep nothing: its store is closed to this page. The link still holds the job.",
		Full:      "There is no room left on this device for the page, so the last change is not kept. The link still holds the job. Save the jobs as a file, and delete one.",
		Cleared:   "The browser had cleared this job. It is kept again.",
		Elsewhere: "This job was changed in another tab.",
		Followed:  "Changed in another tab: this is how it is now.",
		Gone:      "This job was deleted in another tab. The link still holds it.",
		TakeThat:  "Take that one", KeepCopy: "Keep this one as a copy",
		Broken: "Kept jobs that cannot be read: {n}. They are left as they are.",
		Later:  "Kept jobs of a later version of this page: {n}. They are left alone.",
		Close:  "Close",
		Files:  "Files are", ToSave: "saved", ToShare: "shared",
		NotShared: "The device would not share it. Save it instead.",
	}
}
