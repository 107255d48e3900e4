package main

import (
	"fmt"
	"os"
	"os/exec"
)

// tool is a program that tests need beside Go.
type tool struct {
	commands []string // any of them will do
	pkg      string   // Debian's package
	why      string
}

var (
	node     = tool{[]string{"node"}, "nodejs", "runs the tests as WebAssembly"}
	chromium = tool{[]string{"chromium", "chromium-browser"}, "chromium", "opens the page"}
	poppler  = tool{[]string{"pdftotext"}, "poppler-utils", "reads the printed sheets"}
	ffmpeg   = tool{[]string{"ffprobe"}, "ffmpeg", "reads the films that the page makes"}
	zbar     = tool{[]string{"zbarimg"}, "zbar-tools", "reads the codes that the page draws"}
	firefox  = tool{[]string{"firefox-esr", "firefox"}, "firefox-esr", "opens the page in another engine"}
	xvfb     = tool{[]string{"xvfb-run"}, "xvfb", "gives WebKit a screen"}
	webkit   = tool{[]string{"WebKitWebDriver"}, "webkit2gtk-driver", "opens the page in another engine"}
)

// found says whether the tool is on the path.
func (t tool) found() bool {
	for _, c := range t.commands {
		if _, err := exec.LookPath(c); err == nil {
			return true
		}
	}
	return false
}

// need makes sure of a tool. As root on Debian or Ubuntu it installs one that
// is missing; elsewhere it says what to install, and the check has failed.
func (s *suite) need(t tool) bool {
	if t.found() {
		return true
	}
	if _, err := exec.LookPath("apt-get"); err == nil && os.Geteuid() == 0 {
		fmt.Fprintf(s.out, "%s is missing and is installed now\n", t.pkg)
		if !s.refreshed {
			s.refreshed = true
			s.apt("update", "-q")
		}
		s.apt("install", "-q", "-y", t.pkg)
	}
	if t.found() {
		return true
	}
	s.verdict(t.pkg, fmt.Errorf("%s is not on the path; it %s. Install it (on Debian and Ubuntu: apt-get install %s) and run this again", t.commands[0], t.why, t.pkg), nil)
	return false
}

// needAll makes sure of several tools, all of them, so that one look says what
// is missing.
func (s *suite) needAll(tools ...tool) bool {
	all := true
	for _, t := range tools {
		all = s.need(t) && all
	}
	return all
}

// apt runs apt-get and shows what it said only if it failed.
func (s *suite) apt(args ...string) {
	cmd := exec.Command("apt-get", args...)
	cmd.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	if out, err := cmd.CombinedOutput(); err != nil {
		s.out.Write(out)
		fmt.Fprintf(s.out, "apt-get %s: %v\n", args[0], err)
	}
}
