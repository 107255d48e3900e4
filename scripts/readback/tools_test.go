package readback

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// The readers, at the version they were looked at. On Debian and Ubuntu the
// other one comes with the system.
const (
	parserPackage  = "dxf-parser"
	parserVersion  = "1.1.2"
	pythonLibrary  = "ezdxf"
	pythonAptEntry = "python3-ezdxf"
)

// patience is the longest a program may take. A reader may go round for ever on
// a drawing with something missing.
const patience = time.Minute

// command runs a program and returns what it printed. An error has what it
// said.
func command(name string, args ...string) ([]byte, error) {
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	var out, complaints bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaints
	if err := cmd.Run(); err != nil {
		if ctx.Err() != nil {
			err = fmt.Errorf("not done after %v", patience)
		}
		return nil, fmt.Errorf("%s: %w\n%s%s", name, err, out.Bytes(), complaints.Bytes())
	}
	return out.Bytes(), nil
}

// nodeParser returns the folder dxf-parser is in, in the user's cache. It is
// fetched the first time.
func nodeParser(t *testing.T) string {
	t.Helper()
	for _, program := range []string{"node", "npm"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Fatalf("%s is not on the path; the drawings are read back with %s, which runs on Node. Install it (on Debian and Ubuntu: apt-get install nodejs npm) and run this again.", program, parserPackage)
		}
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		t.Fatalf("There is no folder for downloads: %v. Set XDG_CACHE_HOME and run this again.", err)
	}
	home := filepath.Join(cache, "keelrow", parserPackage+"-"+parserVersion)
	folder := filepath.Join(home, "node_modules", parserPackage)
	if _, err := os.Stat(filepath.Join(folder, "package.json")); err == nil {
		return folder
	}
	if err := os.MkdirAll(home, 0o755); err != nil {
		t.Fatal(err)
	}
	if _, err := command("npm", "install", "--prefix", home, "--no-audit", "--no-fund", "--ignore-scripts", parserPackage+"@"+parserVersion); err != nil {
		t.Fatalf("npm cannot fetch %s %s, with which the drawings are read back: %v", parserPackage, parserVersion, err)
	}
	return folder
}

// python returns a Python that can import ezdxf, which is installed where that
// is allowed. The system's own Python, which has the system's libraries, need
// not be the first on the path.
func python(t *testing.T) string {
	t.Helper()
	program := ""
	imports := func() error {
		var err error
		for _, program = range []string{"python3", "/usr/bin/python3"} {
			if _, err = command(program, "-c", "import "+pythonLibrary); err == nil {
				return nil
			}
		}
		return err
	}
	err := imports()
	if err == nil {
		return program
	}
	if _, apt := exec.LookPath("apt-get"); apt == nil && os.Geteuid() == 0 {
		t.Logf("%s is missing and is installed now", pythonAptEntry)
		install := func() error {
			_, err := command("apt-get", "install", "-q", "-y", "--no-install-recommends", pythonAptEntry)
			return err
		}
		if err = install(); err != nil { // the list of packages may be old
			if _, err = command("apt-get", "update", "-q"); err == nil {
				err = install()
			}
		}
		if err == nil {
			err = imports()
		}
	}
	if err != nil {
		t.Fatalf("Python cannot import %s, with which the drawings are read back. Install it (on Debian and Ubuntu: apt-get install %s) and run this again. It says: %v", pythonLibrary, pythonAptEntry, err)
	}
	return program
}
