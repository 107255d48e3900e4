//go:build js && wasm

package main

import (
	"strings"

	"keelrow/wasm/backup"
)

func init() {
	answers["export"] = func(o order) (string, string) { return backup.Export(o.rest), "" }
	answers["import"] = bringIn
}

// bringIn answers with the sentences about a file, a line each, an empty
// line, and the jobs that can be kept.
func bringIn(o order) (text, problem string) {
	packed, said := backup.Import(o.rest)
	return strings.Join(said, "\n") + "\n\n" + packed, ""
}
