package words

// Offline is the texts about the page that is kept on the device.
type Offline struct {
	_       incomparable
	Works   string
	Version string // "Version {n}"
	Renew   string // the button, when a new version waits
}

func englishOffline() Offline {
	return Offline{
		Works:   "Works offline",
		Version: "Version {n}",
		Renew:   "New version: load it",
	}
}
