package content_test

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strings"

	"caseleaf/content"
	"caseleaf/content/diagnose"

	"github.com/yuin/goldmark/ast"
)

// caseMeaning lists everything that a case says, as paths and values: its
// fields as read, and the story as blocks with their texts and where their
// links lead. Places in the file, and line breaks within a paragraph, are no
// part of it.
func caseMeaning(c *content.Case) map[string]string {
	m := map[string]string{}
	fieldMeaning(m, "", reflect.ValueOf(c).Elem())
	storyMeaning(m, &c.Body)
	return m
}

var noMeaning = []reflect.Type{reflect.TypeFor[diagnose.Span](), reflect.TypeFor[*diagnose.Source](), reflect.TypeFor[content.Body]()}

func fieldMeaning(m map[string]string, path string, v reflect.Value) {
	if slices.Contains(noMeaning, v.Type()) {
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if name := v.Type().Field(i).Name; path != "" || name != "File" {
				fieldMeaning(m, path+"."+name, v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			fieldMeaning(m, fmt.Sprintf("%s[%d]", path, i), v.Index(i))
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			m[path] = "there"
			fieldMeaning(m, path, v.Elem())
		}
	default:
		if !v.IsZero() {
			m[path] = fmt.Sprint(v)
		}
	}
}

func storyMeaning(m map[string]string, b *content.Body) {
	story := b.Story()
	if story.Root == nil {
		return
	}
	count := 0
	_ = ast.Walk(story.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		kind := n.Kind().String()
		switch n := n.(type) {
		case *ast.Heading:
			kind = fmt.Sprint(kind, n.Level)
		case *ast.Link:
			m[fmt.Sprintf("story[%d]target", count)] = fmt.Sprint(story.Targets[n])
		case *ast.Text, *ast.String:
			return ast.WalkContinue, nil
		}
		m[fmt.Sprintf("story[%d]kind", count)] = kind
		if n.Type() == ast.TypeBlock && n.Kind() != ast.KindDocument && n.Kind() != ast.KindList && n.Kind() != ast.KindListItem {
			m[fmt.Sprintf("story[%d]text", count)] = strings.Join(strings.Fields(content.PlainText(n, b.Markdown)), " ")
		}
		count++
		return ast.WalkContinue, nil
	})
}

// The kinds of silent change.
const (
	silentText      = "silent: a slip within a sentence"
	silentStory     = "silent: a line of the story left out or moved"
	silentLine      = "silent: a whole optional line of front matter left out"
	silentMarkup    = "silent structure: of the story"
	silentStructure = "silent structure: of front matter"
	silentValue     = "silent value"
)

// unknowable are the kinds that no program can know.
var unknowable = map[string]bool{silentText: true, silentStory: true, silentLine: true}

// reordered is no silent change: the lists of unordered have no order that says
// something.
const reordered = "same meaning, entries of a list in another order"

var unordered = regexp.MustCompile(`\.(Kit|Lessons|Alternatives|Related|Sources|Options|Risks)\[`)

// sentences are the fields that hold text for people.
var sentences = strings.Fields("Title Summary Plan BackupPlan History Examination Complaint Diagnosis Position Experience Note Sign Cause Action Question Text For Against " +
	"Because Result FurtherSurgery Lessons Alternatives Limits Reason Size Tolerance Perspective Interests Shown")

// changed says of what kind the difference between two meanings is; ofLine tells
// that a whole line was taken away, doubled or moved.
func changed(before, after map[string]string, ofLine bool) (state, told string) {
	var lost, gained, differ []string
	for path, value := range before {
		if other, ok := after[path]; !ok {
			lost = append(lost, path)
		} else if other != value {
			differ = append(differ, path)
		}
	}
	for path := range after {
		if _, ok := before[path]; !ok {
			gained = append(gained, path)
		}
	}
	slices.Sort(differ)
	all := slices.Concat(differ, lost, gained)
	for _, path := range all {
		told += fmt.Sprintf("    %s: %.90q -> %.90q\n", path, before[path], after[path])
	}
	inStory := !slices.ContainsFunc(all, func(p string) bool { return !strings.HasPrefix(p, "story[") })
	switch {
	case len(all) == 0:
		return unchanged, ""
	case len(lost)+len(gained) == 0 && !slices.ContainsFunc(differ, func(p string) bool { return !isSentence(p) }):
		return silentText, told
	case inStory && ofLine:
		return silentStory, told
	case inStory:
		return silentMarkup, told
	case slices.Equal(valuesOf(before), valuesOf(after)) && !slices.ContainsFunc(all, func(p string) bool { return !unordered.MatchString(p) }):
		return reordered, ""
	case ofLine && isSubset(valuesOf(after), valuesOf(before)):
		return silentLine, told
	case len(lost)+len(gained) > 0:
		return silentStructure, told
	}
	return silentValue + ": " + lastName(differ[len(differ)-1]), told
}

// valuesOf lists the values of a meaning, wherever they stand.
func valuesOf(m map[string]string) []string {
	var all []string
	for path, v := range m {
		if !strings.HasSuffix(path, "State") {
			all = append(all, v)
		}
	}
	slices.Sort(all)
	return all
}

// isSubset reports whether every value of one sorted list is in another.
func isSubset(some, all []string) bool {
	for _, s := range some {
		i, ok := slices.BinarySearch(all, s)
		if !ok {
			return false
		}
		all = all[i+1:]
	}
	return true
}

func isSentence(path string) bool {
	return strings.HasSuffix(path, "]text") || slices.Contains(sentences, lastName(path))
}

// lastName is the name of the field that a path ends in.
func lastName(path string) string {
	path = strings.TrimSuffix(strings.TrimSuffix(path, ".Value"), ".State")
	path = path[strings.LastIndexByte(path, '.')+1:]
	name, _, _ := strings.Cut(path, "[")
	return name
}
