// Package tables writes what stands beside the stages and is read rather than
// typed: the survey's report, marks, leftovers, row checks and the cut list,
// as HTML. The desk uses it, a second program that works beside the page, so
// that the page itself stays small. Nothing here knows about a browser.
package tables
