package caption

import (
	"fmt"
	"strings"
	"testing"

	"caseleaf/content/term"
)

// TestTimesOfEvents: what a narrator says before and after an event is named
// tells when it began, was noticed and was acted on; "-" is unknown.
func TestTimesOfEvents(t *testing.T) {
	tests := []struct {
		name, told, want string
	}{
		{
			"a wait that is told to last is no cry", `
[1:00] capsulorhexis with the forceps
[1:20] wait thirty seconds and count with me
[1:25] the flap is folded over
[1:50] so that is a rhexis run-out
[1:55] I stop and fill the chamber`,
			"rhexis-run-out - 110 115",
		},
		{
			"a name that begins like a cry is none", `
[1:00] stop and chop now and the first quadrant
[1:35] hold on
[1:38] a posterior capsule tear under the last piece
[1:42] foot off and viscoelastic in`,
			"posterior-capsule-tear - 95 102",
		},
		{
			"one rare word after when points back, past other remarks", `
[0:30] bridle suture with the silk under the muscle
[0:50] peritomy from ten to two
[1:10] a lump is swelling there
[1:14] superior rectus haematoma
[1:20] my needle went through it when I passed the silk
[1:26] it has stopped growing so press for a minute`,
			"superior-rectus-haematoma 30 74 86",
		},
		{
			"something taken up is something done", `
[0:40] hydrodissection with the cannula
[1:00] phaco tip in and sculpting a trench
[1:10] deeper with every pass
[1:30] oh the pupil is coming down
[1:34] nobody touched it
[1:40] phenylephrine into the chamber`,
			"intraoperative-miosis 90 90 100",
		},
		{
			"what cannot be overlooked shows itself as it begins", `
[1:00] hydrodissection with the cannula
[1:20] see it roll like a flag in the breeze that is iris billowing
[1:40] lower the bottle`,
			"floppy-iris-syndrome 80 80 100",
		},
		{
			"the same again after two minutes and a cry is a second event", `
[1:00] paracentesis at two o'clock
[1:10] whoa that is a descemet detachment
[1:20] I stop and take the cannula out
[5:00] wound hydration now
[5:20] oh no look at that a descemet detachment again
[5:30] I put air in`,
			"descemet-detachment 70 70 80; descemet-detachment 320 320 330",
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, e := range File("", []byte(strings.TrimSpace(tt.told)), term.Cataract(), Options{}).Events {
				got = append(got, fmt.Sprintf("%s %s %s %s", e.Term, whole(e.Began), whole(e.Noticed), whole(e.Acted)))
			}
			if got := strings.Join(got, "; "); got != tt.want {
				t.Errorf("got  %s\nwant %s", got, tt.want)
			}
		})
	}
}

func whole(at *float64) string {
	if at == nil {
		return "-"
	}
	return fmt.Sprintf("%.0f", *at)
}
