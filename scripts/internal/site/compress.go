package site

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/andybalholm/brotli"
)

// coding is one way to compress a file.
type coding struct {
	suffix string
	writer func(io.Writer) io.WriteCloser
	reader func(io.Reader) (io.Reader, error)
}

var codings = []coding{
	{
		".br",
		func(w io.Writer) io.WriteCloser {
			return brotli.NewWriterOptions(w, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: 24})
		},
		func(r io.Reader) (io.Reader, error) { return brotli.NewReader(r), nil },
	},
	{
		".gz",
		func(w io.Writer) io.WriteCloser {
			z, _ := gzip.NewWriterLevel(w, gzip.BestCompression) // fails for unknown levels only
			return z
		},
		func(r io.Reader) (io.Reader, error) { return gzip.NewReader(r) },
	},
}

var gzipped = codings[1]

// compressible says whether a file of this name gets compressed copies. Most
// of the page as one file is compressed already.
func compressible(name string) bool {
	return name != Single && (isText(name) || filepath.Ext(name) == ".wasm")
}

// compress returns the content compressed.
func (c coding) compress(content []byte) ([]byte, error) {
	var out bytes.Buffer
	w := c.writer(&out)
	if _, err := w.Write(content); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// holds says whether small is the content, compressed.
func (c coding) holds(small, content []byte) bool {
	r, err := c.reader(bytes.NewReader(small))
	if err != nil {
		return false
	}
	full, err := io.ReadAll(r)
	return err == nil && bytes.Equal(full, content)
}

// cache keeps compressed files between builds, because brotli takes several
// seconds for the program. It is a folder, or empty where there is none. What
// cannot be kept is compressed again, so its errors are of no consequence.
type cache string

// keep is how long a compressed file is kept after its last use.
const keep = 30 * 24 * time.Hour

func openCache() cache {
	base, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	dir := filepath.Join(base, "keelrow", "compressed")
	if os.MkdirAll(dir, 0o777) != nil {
		return ""
	}
	return cache(dir)
}

func (d cache) compress(c coding, content []byte) ([]byte, error) {
	sum := sha256.Sum256(content)
	name := filepath.Join(string(d), hex.EncodeToString(sum[:])+c.suffix)
	if d != "" {
		if small, err := os.ReadFile(name); err == nil && c.holds(small, content) {
			now := time.Now()
			os.Chtimes(name, now, now)
			return small, nil
		}
	}
	small, err := c.compress(content)
	if err == nil && d != "" {
		replace(name, small)
		d.clear()
	}
	return small, err
}

// clear removes what has not been used for long.
func (d cache) clear() {
	entries, _ := os.ReadDir(string(d))
	for _, e := range entries {
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > keep {
			os.Remove(filepath.Join(string(d), e.Name()))
		}
	}
}
