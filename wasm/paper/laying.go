package paper

import (
	"strconv"

	"keelrow/engine/floor"
	"keelrow/engine/pattern"
	"keelrow/engine/strike"
	"keelrow/wasm/words"
)

// laying is the rows in order, to be ticked off.
func (w *writer) laying() {
	t := &w.Words.Sheets
	w.turn(t.Laying)
	all := w.Plan.Count()
	left, right := w.Plan.CountHand(pattern.LeftHand), w.Plan.CountHand(pattern.RightHand)
	w.say("", words.Fill(t.LayingCount, "full", strconv.Itoa(all.Full), "cut", strconv.Itoa(all.Cut),
		"left", strconv.Itoa(left.Full+left.Cut), "right", strconv.Itoa(right.Full+right.Cut)))
	w.say("hint", t.LayingMeans)
	rows := [][]html{}
	for c := range strike.RowChecks(w.Plan) {
		row := c.Row
		check := html("")
		if n := len(c.Tips); n > 0 && c.Tips[n-1].Distance > 0 {
			tip := c.Tips[n-1]
			check = el("span", "ahead", text(w.wall(tip.Mark.Hole, tip.Mark.Wall))) + w.reading(tip.Distance)
		}
		rows = append(rows, []html{
			el("b", "", text(strconv.Itoa(row.Number))), text(w.rowName(row)), text(w.hand(row)),
			text(strconv.Itoa(row.Full)), text(strconv.Itoa(row.Cut)), text(strconv.Itoa(row.First + row.Blocks())),
			check, el("span", "tick", "")})
	}
	w.table(table{"of-rows", []string{w.Words.Row, "", w.Words.Hand, w.Words.Full, w.Words.Cut, t.LaidByThen, t.Check, t.Done}, rows})
}

// rowName is what a row is called.
func (w *writer) rowName(r floor.Row) string {
	k := ""
	for i, strand := range r.Strands {
		if i > 0 {
			k += " "
		}
		k += signed(strand)
	}
	switch {
	case r.Stage == floor.Spine:
		return w.Words.SpineRow
	case r.Stage == floor.Infill:
		return words.Fill(w.Words.InfillRow, "k", k)
	case r.Strands[0] < 0:
		return words.Fill(w.Words.SideRow, "k", k) + ", " + w.Words.Left
	}
	return words.Fill(w.Words.SideRow, "k", k) + ", " + w.Words.Right
}

// hand is the hand of a row's blocks.
func (w *writer) hand(r floor.Row) string {
	if len(r.Strands) > 1 {
		return w.Words.Sheets.BothHands
	}
	return w.handName(w.Plan.Pattern().Columns(r.Strands[0])[0].Hand)
}

func (w *writer) handName(h pattern.Hand) string {
	if h == pattern.LeftHand {
		return w.Words.Left
	}
	return w.Words.Right
}
