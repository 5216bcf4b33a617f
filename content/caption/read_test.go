package caption

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const captionDir = "../../testdata/captions"

func readFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(captionDir, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// lines prints cues as "start speaker| text" for comparing.
func lines(track Track) []string {
	var out []string
	for _, c := range track.Cues {
		out = append(out, fmt.Sprintf("%d %g-%g %s| %s", c.Index, c.Start, c.End, c.Speaker, c.Text))
	}
	return out
}

func messages(problems []Problem) []string {
	var out []string
	for _, p := range problems {
		out = append(out, fmt.Sprintf("%d: %s [%s]", p.Line, p.Message, p.Text))
	}
	return out
}

// The expected cues of this and the next test are those of field reports FR-31
// and FR-32.
func TestMeetingSoftware(t *testing.T) {
	track, problems := Read("whatever.vtt", readFile(t, "fr-31-meeting.vtt"))
	want := []string{
		"1 40-43.5 Speaker 1| Main wound now.",
		"2 65.2-69 Speaker 2| Pupil < 5 mm & getting smaller",
		"3 69-72 Trainer| use the hooks at 3:20, please.",
		"4 3730.5-3732 | IOL in now",
	}
	if diff := cmp.Diff(want, lines(track)); diff != "" {
		t.Errorf("cues (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"28: time line not understood, cue left out [broken time line]"}, messages(problems)); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]int{1, 2}, track.Speakers); diff != "" {
		t.Errorf("names removed (-want +got):\n%s", diff)
	}
}

func TestOddSubRip(t *testing.T) {
	track, problems := Read("", readFile(t, "fr-32-odd.srt"))
	want := []string{
		"1 40-43.5 | Main wound now.",
		"2 65.2-69 | Pupil is small. Very small, under 5 mm.",
		"3 68-72 | 27",
		"4 72.5-75 | Hooks please",
		"5 80-82 | No number, dots for commas.",
		"7 85-87 | Number used twice, and earlier.",
		"6 90-90 | Ends before it starts.",
		"9 110-112 | 1.567.202 counts, 12:30 on the clock",
	}
	if diff := cmp.Diff(want, lines(track)); diff != "" {
		t.Errorf("cues (-want +got):\n%s", diff)
	}
	wantProblems := []string{
		"12: overlaps the cue that starts at 1:05 []",
		"24: ends before it starts; the start is kept []",
	}
	if diff := cmp.Diff(wantProblems, messages(problems)); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

func TestFormats(t *testing.T) {
	for _, c := range []struct {
		name, in string
		want     []string
		problems []string
	}{
		{"plain", "Notes of the evening\n[0:27] side port\n and OVD\n1:02:03 lens in\n(2:00:00) done",
			[]string{"1 27-3723 | side port and OVD", "2 3723-7200 | lens in", "3 7200-7201 | done"},
			[]string{"1: text before the first time, left out [Notes of the evening]"}},
		{"rolling", "WEBVTT\n\n00:01.000 --> 00:02.000\none two\n\n00:02.000 --> 00:02.010\none two\n \n\n00:02.010 --> 00:04.000\none two\nthree<00:02.500><c> four</c>\n\n00:04.000 --> 00:06.000\nthree four\nfive\n\n00:06.000 --> 00:08.000\nfive\nsix",
			[]string{"1 1-2 | one two", "3 2.01-4 | three four", "4 4-6 | five", "5 6-8 | six"}, nil},
		{"growing", "WEBVTT\n\n00:01.000 --> 00:02.000\none\n\n00:02.000 --> 00:03.000\none two\n\n00:03.000 --> 00:04.000\none two three",
			[]string{"1 1-2 | one", "2 2-3 | two", "3 3-4 | three"}, nil},
		{"said twice", "1\n00:00:01,000 --> 00:00:02,000\nslowly\n\n2\n00:00:02,100 --> 00:00:03,000\nslowly\n",
			[]string{"1 1-2 | slowly", "2 2.1-3 | slowly"}, nil},
		{"windows-1252", "[0:01] caf\xe9 \x96 5 mm",
			[]string{"1 1-2.6 | café – 5 mm"}, []string{"1: not UTF-8; read as Windows-1252 []"}},
		{"utf-16", "\xff\xfe[\x000\x00:\x001\x00]\x00 \x00h\x00i\x00",
			[]string{"1 1-2 | hi"}, []string{"1: read as UTF-16LE []"}},
		{"two times in a block", "WEBVTT\n\n00:01.000 --> 00:02.000\none\n00:03.000 --> 00:04.000\ntwo",
			[]string{"1 1-2 | one", "2 3-4 | two"}, nil},
		{"loose text", "WEBVTT\n\nno time here\n\n00:01.000 --> 00:02.000\none",
			[]string{"1 1-2 | one"}, []string{"3: text without a time, left out [no time here]"}},
		{"nothing", "", nil, []string{"1: no caption found: want WebVTT, SubRip or lines such as [0:27] text []"}},
	} {
		track, problems := Read(c.name, []byte(c.in))
		if diff := cmp.Diff(c.want, lines(track)); diff != "" {
			t.Errorf("%s: cues (-want +got):\n%s", c.name, diff)
		}
		if diff := cmp.Diff(c.problems, messages(problems)); diff != "" {
			t.Errorf("%s: problems (-want +got):\n%s", c.name, diff)
		}
	}
}

// TestNothingIsLost: each word of a file's speech is in a cue or a problem.
func TestNothingIsLost(t *testing.T) {
	data := readFile(t, "fr-32-odd.srt")
	track, problems := Read("", data)
	all := strings.Join(append(lines(track), messages(problems)...), "\n")
	for _, line := range strings.Split(string(data), "\n") {
		line = cleanText(line)
		if strings.Contains(line, "-->") || strings.Trim(line, "0123456789") == "" {
			continue
		}
		if !strings.Contains(all, line) {
			t.Errorf("lost: %q", line)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, name := range []string{"fr-31-meeting.vtt", "fr-32-odd.srt"} {
		f.Add(readFile(f, name))
	}
	for _, s := range []string{"WEBVTT\n\n00:01 --> 00:02\nx", "[0:01] x\ny", "-->", "1\n0:0:1 --> 0:0:2\n\n2\n-->", "\xff\xfe\x00", "\xfe\xff\x00-\x00-\x00>", "{\\an8}<v A>x</v>"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		track, problems := Read("x", data)
		last := -1.0
		for _, c := range track.Cues {
			if c.Start < last || c.End < c.Start || c.Text == "" || c.Index < 1 {
				t.Fatalf("cue out of order or empty: %+v", c)
			}
			last = c.Start
		}
		if len(track.Cues) == 0 && len(problems) == 0 {
			t.Fatal("nothing read and nothing said")
		}
	})
}
