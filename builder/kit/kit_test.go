package kit_test

import (
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/kit"
	"caseleaf/casebank"
	"caseleaf/content"
)

// demo reads the demonstration course: 6 groups, 16 participants, one wave,
// 10 % spares.
func demo(t *testing.T) *content.Course {
	t.Helper()
	bank, found, err := content.Read(casebank.FS())
	if err != nil || found.Failed() || len(bank.Courses) != 1 {
		t.Fatalf("%v, %d courses", err, len(bank.Courses))
	}
	return bank.Courses[0]
}

// Worked by hand from casebank/courses/wet-lab.yaml, in the order of the file.
// The last part of each line is the sum: pieces of each station, spares before
// rounding up, packs.
func TestShoppingOfDemo(t *testing.T) {
	type row struct {
		item, size        string
		need, spares, buy int
	}
	want := []row{
		{"operating-microscope", "", 4, 0, 4},             // one a station, 4 stations
		{"eye-holder", "", 4, 1, 5},                       // 4; only the first has spares, 100 % of 1
		{"porcine-eye", "24 mm", 32, 7, 39},               // 16 + 16; 20 % is 6.4
		{"side-port-blade", "1.1 mm", 34, 4, 42},          // 16 + 6 + 6 + 6; 3.4; 38 is 7 packs of 6
		{"keratome", "2.4 mm", 28, 3, 36},                 // 16 + 6 + 6; 2.8; 31 is 6 packs of 6
		{"cohesive-ovd", "1 mL", 32, 4, 40},               // 16 + 16; 3.2; 36 is 4 packs of 10
		{"nylon-suture", "", 38, 4, 48},                   // 32 + 6; 3.8; 42 is 4 packs of 12
		{"needle-holder", "", 2, 0, 2},                    // 2 stations
		{"tying-forceps", "", 1, 0, 1},                    // 1
		{"toothed-forceps", "0.12 mm", 1, 0, 1},           // 1
		{"ruler-card", "", 2, 0, 2},                       // 2 stations
		{"locking-syringe", "5 mL", 24, 3, 30},            // 12 + 12; 2.4; 27 is 3 packs of 10
		{"balanced-salt-solution", "500 mL", 13, 3, 16},   // 1 + 6 + 6; 1 + 0.6 + 0.6
		{"viscous-sponge", "", 64, 7, 80},                 // 32 + 32; 6.4; 71 is 8 packs of 10
		{"nitrile-gloves", "", 64, 7, 100},                // 16 at 4 stations; 6.4; 71 is 2 packs of 50
		{"splash-glasses", "", 16, 2, 18},                 // carried: 16; 1.6
		{"bench-drape", "", 18, 2, 20},                    // 6 + 6 + 6; 1.8; 2 packs of 10
		{"sharps-bin", "", 4, 0, 4},                       // 4 stations
		{"tissue-bag", "", 12, 2, 20},                     // 6 + 6; 1.2; 14 is 2 packs of 10
		{"synthetic-eye", "", 48, 5, 54},                  // 32 + 16; 4.8; 53 is 9 packs of 6
		{"cystotome", "27 G", 16, 2, 20},                  // 16; 1.6; 18 is 2 packs of 10
		{"rhexis-forceps", "", 1, 0, 1},                   // 1
		{"micro-rhexis-forceps", "", 1, 0, 1},             // 1
		{"capsule-scissors", "", 1, 0, 1},                 // 1
		{"locking-syringe", "1 mL", 12, 2, 20},            // 12; 1.2; 14 is 2 packs of 10
		{"phaco-machine", "", 1, 0, 1},                    // 1
		{"phaco-handpiece", "", 1, 0, 1},                  // 1
		{"phaco-tip", "", 1, 1, 2},                        // 1; 100 %
		{"irrigation-sleeve", "2.4 mm", 1, 1, 2},          // 1; 100 %
		{"ia-handpiece", "", 1, 0, 1},                     // 1
		{"chopper", "", 1, 0, 1},                          // 1
		{"second-instrument", "", 1, 0, 1},                // 1
		{"hydrodissection-cannula", "27 G", 6, 1, 10},     // 6; 0.6; 7 is 1 pack of 10
		{"dispersive-ovd", "1 mL", 32, 4, 40},             // 16 + 16; 3.2; 36 is 4 packs of 10
		{"rescue-tray", "", 1, 0, 1},                      // 1
		{"vitrector", "23 G", 6, 1, 7},                    // 6; 0.6
		{"egg-white", "30 mL", 6, 1, 7},                   // 6; 0.6
		{"chalk-suspension", "20 mL", 1, 0, 1},            // 1
		{"three-piece-iol", "6.0 mm", 16, 2, 18},          // 16; 1.6
		{"iol-injector", "", 6, 1, 7},                     // 6; 0.6
		{"wire-vectis", "", 1, 0, 1},                      // 1
		{"lens-glide", "", 6, 1, 7},                       // 6; 0.6
		{"iris-hooks", "", 24, 3, 30},                     // 24; 2.4; 27 is 6 packs of 5
		{"capsule-hooks", "", 24, 3, 30},                  // as the iris hooks
		{"capsular-tension-ring", "13.0 mm", 6, 1, 7},     // 6; 0.6
		{"pupil-expansion-ring", "6.25 mm", 6, 1, 7},      // 6; 0.6
		{"trypan-blue: 3/5 mL of 0.4 %", "", 0, 0, 1},     // see the dilution; one vial of 1 mL
		{"balanced-salt-solution: 97/10 mL", "", 0, 0, 0}, // to dilute with: 3.4 + 6.3
		{"triamcinolone: 7/10 mL of 40 mg/mL", "", 0, 0, 1},
	}
	var got []row
	for _, l := range kit.Shopping(demo(t)) {
		name := l.Item
		if l.Volume != nil {
			name += ": " + l.Volume.RatString() + " mL"
			if l.Strength != "" {
				name += " of " + l.Strength
			}
		}
		got = append(got, row{name, l.Size, l.Need, l.Spares, l.Buy})
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(row{})); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

// course reads a course of 3 stations and 2 groups of 2 and 3, with the kit of
// the first station given.
func course(t *testing.T, kitLines, more string) *content.Course {
	t.Helper()
	text := "course: lab\ntitle: Lab\nstart: \"09:00\"\ngroups: [{name: A, size: 2}, {name: B, size: 3}]\n" + more +
		"stations:\n  - id: one\n    title: One\n    minutes: 30\n    kit:\n" + kitLines + "  - {id: two, title: Two, minutes: 20}\n"
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":        {Data: []byte("title: Bank\nlanguage: en\ninvented: yes\n")},
		"courses/lab.yaml": {Data: []byte(text)},
	})
	if err != nil || found.Failed() {
		var out fmt.Stringer
		t.Fatalf("%v %v", err, out)
	}
	return bank.Courses[0]
}

// Dilutions against worked examples. C₁V₁ = C₂V₂ with 1 % = 10 mg/mL and 1:n =
// 1 g in n mL (trade reference); the sums are done by hand. Teaching only: what
// may be put into an eye is for the local protocol and pharmacy.
func TestDilutions(t *testing.T) {
	for _, c := range []struct {
		name, line                         string
		times, need, take, add, made, step string
	}{
		// 10 mL of 1:10 000 from 1:1000: one part in ten.
		{"tenfold", "adrenaline, count: 1, volume: 10 mL, strength: 1:10000, stock: 1:1000", "10", "10", "1", "9", "10", "1/10"},
		// 1:1000 diluted 1 to 3 is 1:4000 (trade reference); 8 mL take 2 mL and 6 mL.
		{"one to three", "adrenaline, count: 1, volume: 8 mL, strength: 1:4000, stock: 1:1000", "4", "8", "2", "6", "8", "1/10"},
		// 0.4 % is 20/3 of 0.06 %: 3 steps of stock make 20. For 3.3 mL, 0.5 mL
		// would be 3.33 mL, which no syringe shows; 0.6 mL makes 4.
		{"dye", "trypan-blue, count: 6, volume: 0.5 mL, strength: 0.06 %, stock: 0.4 %, spare: 10 %", "20/3", "33/10", "3/5", "17/5", "4", "1/10"},
		// 40 mg/mL to 4 mg/mL, two groups of 1 mL and 10 %: 2.2 mL; 0.3 mL make 3 mL.
		{"steroid", "triamcinolone, count: 1, per: group, volume: 1 mL, strength: 4 mg/mL, stock: 40 mg/mL, spare: 10 %", "10", "11/5", "3/10", "27/10", "3", "1/10"},
		// A thousandfold: 0.1 mL would make 100 mL for 5, so the fine syringe: 0.01 mL make 10.
		{"thousandfold", "adrenaline, count: 1, volume: 5 mL, strength: 1:1000000, stock: 1:1000", "1000", "5", "1/100", "999/100", "10", "1/100"},
		// Told in two ways: 1 % is 10 mg/mL, so 2 mg/mL is one in five.
		{"two ways of telling", "lidocaine, count: 5, volume: 200 uL, strength: 2 mg/mL, stock: 1 %", "5", "1", "1/5", "4/5", "1", "1/10"},
		// 1 % to 0.07 %: 100/7. A step of 0.1 mL takes 0.7 mL and makes 10 for 1; 0.01 mL takes 0.07 and makes 1.
		{"sevenths", "lidocaine, count: 1, volume: 1 mL, strength: 0.07 %, stock: 1 %", "100/7", "1", "7/100", "93/100", "1", "1/100"},
		// 1 % to 0.0137 %: no syringe; exactly what is needed.
		{"no syringe", "lidocaine, count: 1, volume: 1 mL, strength: 0.0137 %, stock: 1 %", "10000/137", "1", "137/10000", "9863/10000", "1", ""},
		{"units", "hyaluronidase, count: 1, volume: 10 mL, strength: 15 IU/mL, stock: 1500 IU/mL", "100", "10", "1/10", "99/10", "10", "1/10"},
		{"as strong already", "lidocaine, count: 1, volume: 3 mL, strength: 1 %, stock: 1 %", "1", "3", "3", "0", "3", "1/10"},
	} {
		list := kit.Dilutions(course(t, "      - {item: "+c.line+"}\n", ""))
		if len(list) != 1 {
			t.Errorf("%s: %d dilutions", c.name, len(list))
			continue
		}
		d := list[0]
		step := ""
		if d.Step != nil {
			step = d.Step.RatString()
		}
		got := []string{d.Times.RatString(), d.Need.RatString(), d.Take.RatString(), d.Add.RatString(), d.Make.RatString(), step}
		if diff := cmp.Diff([]string{c.times, c.need, c.take, c.add, c.made, c.step}, got); diff != "" {
			t.Errorf("%s: times, need, take, add, make, step (-want +got)\n%s", c.name, diff)
		}
	}
}

// The rules of package kit, one at a time.
func TestRules(t *testing.T) {
	for _, c := range []struct{ name, lines, more, want string }{
		{"per station once, whatever the waves", "      - {item: chopper, count: 2}\n", "waves: 3\nspares: 50 %\n", "chopper 2+0=2"},
		{"per group and wave", "      - {item: chopper, count: 2, per: group}\n", "waves: 3\n", "chopper 12+0=12"},
		{"per participant", "      - {item: chopper, count: 2, per: participant}\n", "", "chopper 10+0=10"},
		{"sizes in two units are one line", "      - {item: keratome, count: 1, size: 2.4 mm}\n      - {item: keratome, count: 2, size: 2400 um}\n", "", "keratome 2.4 mm 3+0=3"},
		{"two sizes are two lines", "      - {item: keratome, count: 1, size: 2.4 mm}\n      - {item: keratome, count: 2, size: 2.2 mm}\n", "", "keratome 2.4 mm 1+0=1, keratome 2.2 mm 2+0=2"},
		{"spares are rounded up once", "      - {item: keratome, count: 1, per: participant}\n      - {item: keratome, count: 1, per: participant}\n", "spares: 10 %\n", "keratome 10+1=11"},
		{"a full pack is not passed", "      - {item: keratome, count: 2, per: participant, pack: 10}\n", "", "keratome 10+0=10"},
		{"one over a pack takes another", "      - {item: keratome, count: 2, per: participant, pack: 10, spare: 1 %}\n", "", "keratome 10+1=20"},
		{"carried along", "      - {item: chopper, count: 1, per: participant, carried: yes}\n      - {item: chopper, count: 1, per: participant, carried: yes}\n", "waves: 2\n", "chopper 5+0=5"},
		{"by volume, in vials", "      - {item: cefuroxime, count: 1, per: participant, volume: 300 uL, vial: 1 mL, spare: 50 %}\n", "", "cefuroxime 9/4 mL in 3 vials, 3"},
	} {
		got := ""
		for i, l := range kit.Shopping(course(t, c.lines, c.more)) {
			if i > 0 {
				got += ", "
			}
			got += l.Item
			if l.Size != "" && l.Volume == nil {
				got += " " + l.Size
			}
			if l.Volume != nil {
				got += fmt.Sprintf(" %s mL in %d vials, %d", l.Volume.RatString(), l.Vials, l.Buy)
				continue
			}
			got += fmt.Sprintf(" %d+%d=%d", l.Need, l.Spares, l.Buy)
		}
		if got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestBench(t *testing.T) {
	c := course(t, "      - {item: chopper, count: 2}\n      - {item: keratome, count: 1, per: participant, size: 2.4 mm}\n"+
		"      - {item: chopper, count: 1, per: group}\n      - {item: trypan-blue, count: 1, per: group, volume: 0.5 mL, strength: 0.06 %, stock: 0.4 %}\n", "waves: 2\n")
	want := []kit.BenchLine{
		{Item: "chopper", Per: "station", Count: 2, Lay: 2, Day: 2},
		{Item: "keratome", Size: "2.4 mm", Per: "participant", Count: 1, Lay: 3, Day: 5}, // the larger group has 3
		{Item: "chopper", Per: "group", Count: 1, Lay: 1, Day: 2},
		{Item: "trypan-blue", Size: "0.5 mL", Strength: "0.06 %", Per: "group", Count: 1, Lay: 1, Day: 2},
	}
	if diff := cmp.Diff(want, kit.Bench(c, 0)); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}
