package builder

import (
	"cmp"
	"errors"
	"maps"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"caseleaf/content"
)

// Summary says what a build wrote.
type Summary struct {
	Cases      int
	Operations int
	Decisions  int
	Pages      int
	Files      int
	Carried    int // of the files, those of the last build that stand unchanged
	Bytes      int64
	Start      string   // the file to open
	HeldBack   []string // ids of cases that are not released
	Warnings   []Place  // what the last look at the written files warns of
}

// Build writes the handout of a bank. The bank must have no errors; callers
// check that and decide what to say.
//
// The handout appears whole or not at all: files are written into a folder
// beside it, which is then exchanged for it. Files in the old folder that
// caseleaf did not write are carried over untouched.
//
// Errors are those of the machine (disk, permission), of a theme's templates,
// [ErrForeignFolder], [NoCourseError], [ErrNoRecord], [ErrOtherPart], or an
// [IdentifyingError] of the last look at the files.
func Build(bank *content.Bank, options Options) (Summary, error) {
	made, err := prepare(bank, options)
	if err != nil {
		return Summary{}, err
	}
	summary, err := made.write(options)
	if errors.Is(err, errFallen) {
		options.planAll = true
		return Build(bank, options)
	}
	return summary, err
}

// write lays out what was planned and puts it in the handout's place.
func (made prepared) write(options Options) (Summary, error) {
	site := made.site
	stage, err := newStage(options.onDisk(), options.out())
	if err != nil {
		return Summary{}, err
	}
	defer stage.discard()
	stage.gate = newOutputGate(site.Bank)
	stage.gate.pinned = options.Charts.paths()
	stage.gate.dates = options.CourseDates
	if err := stage.fill(made); err != nil {
		return Summary{}, err
	}
	if err := stage.seal(site.manifest()); err != nil {
		return Summary{}, err
	}
	look := stage.gate.result()
	if err := look.Err(); err != nil {
		return Summary{}, err
	}
	if err := look.LeaveErr(); options.Leaving && err != nil {
		return Summary{}, err
	}
	if err := stage.publish(); err != nil {
		return Summary{}, err
	}
	options.Memory.note(site, stage)
	return summarise(site.Bank, site, stage, made.heldBack), nil
}

func summarise(bank *content.Bank, site *Site, stage *stage, heldBack []string) Summary {
	sum := Summary{
		Cases: len(bank.Cases), Operations: bank.Logbook.Len(), Decisions: len(bank.Decisions),
		Pages: len(site.Pages), Files: len(stage.files) + 1, Carried: stage.count, HeldBack: heldBack, Warnings: stage.gate.result().Warnings,
		Start: filepath.Join(stage.out, "index.html"),
	}
	for _, f := range stage.files {
		sum.Bytes += f.Size
	}
	return sum
}

// fixedFiles are the files that aren't laid out from a template: styles,
// scripts, pictures.
func (s *Site) fixedFiles(theme laidTheme) (map[string][]byte, error) {
	files := maps.Clone(theme.assets)
	if s.Options.Leaving {
		files[startHereName] = s.startHere()
	}
	if err := s.addPictures(files); err != nil {
		return nil, err
	}
	return files, s.addCharts(files, theme.files)
}

// parallel does the jobs on all processors and returns what went wrong. After
// a first error no new job is begun.
func parallel(jobs []func() error, progress func(done, total int)) error {
	var (
		next   atomic.Int64
		done   atomic.Int64
		failed atomic.Bool
		mu     sync.Mutex
		errs   []error
		wg     sync.WaitGroup
	)
	for range min(runtime.GOMAXPROCS(0), len(jobs)) {
		wg.Go(func() {
			for !failed.Load() {
				i := int(next.Add(1)) - 1
				if i >= len(jobs) {
					return
				}
				if err := jobs[i](); err != nil {
					failed.Store(true)
					mu.Lock()
					errs = append(errs, err)
					mu.Unlock()
					return
				}
				if progress != nil {
					progress(int(done.Add(1)), len(jobs))
				}
			}
		})
	}
	wg.Wait()
	slices.SortFunc(errs, func(a, b error) int { return cmp.Compare(a.Error(), b.Error()) })
	return errors.Join(errs...)
}
