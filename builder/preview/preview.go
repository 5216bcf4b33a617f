package preview

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"io/fs"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"caseleaf/builder"
	"caseleaf/content"
	"caseleaf/content/diagnose"
)

// Settings says what is shown and where.
type Settings struct {
	Folder  string          // of the bank
	Options builder.Options // Out, Progress and BankFiles are not used
	Say     func(string)    // one line for the author; nil for silence
}

// Preview is a bank that is being shown.
type Preview struct {
	folder  string
	options builder.Options
	say     func(string)
	watch   *watcher
	seen    snapshot      // of the version shown; only run touches it
	looking time.Duration // at the whole folder, at the last time; only run touches it
	memo    content.Memo  // of the last reading; only run touches it
	state   atomic.Pointer[version]

	mu      sync.Mutex
	readers map[chan struct{}]bool // told of each new version
}

// version is what readers see at one moment. It is never changed.
type version struct {
	number   int
	proof    *builder.Proof // the last good one; nil when there was none yet
	messages []message      // what the author has to mend
	errors   int
	shared   func() [sha256.Size]byte // see sharedSum; worked out once
}

// message is one diagnostic, as the terminal shows it.
type message struct {
	Severity string `json:"severity"`
	Text     string `json:"text"`
}

// New reads the bank once, so that there is something to show.
func New(s Settings) (*Preview, error) {
	p := &Preview{folder: s.Folder, options: s.Options, say: s.Say, readers: map[chan struct{}]bool{}}
	if p.say == nil {
		p.say = func(string) {}
	}
	p.state.Store(&version{})
	seen, folders, err := take(p.folder, nil)
	if err != nil {
		return nil, err
	}
	bank, found, err := p.read(seen)
	if err != nil {
		return nil, err
	}
	p.watch = newWatcher(p.say)
	p.watch.follow(folders)
	p.seen = seen
	p.take(bank, found)
	return p, nil
}

// read reads the bank. What was just looked at and has the bytes that the last
// reading found is not opened.
func (p *Preview) read(now snapshot) (*content.Bank, diagnose.Diagnostics, error) {
	// Opened each time, since another folder may have been put in its place; it
	// follows no link that leads out.
	root, err := os.OpenRoot(p.folder)
	if err != nil {
		return nil, nil, err
	}
	p.options.BankFiles = root.FS()
	return content.ReadWith(p.options.BankFiles, content.Options{Memo: &p.memo, Sum: now.sum})
}

// Serve answers on the listener until the context ends, then stops cleanly: open
// pages are told, answers under way are finished or cut after two seconds.
func (p *Preview) Serve(ctx context.Context, listener net.Listener, hosts []string) error {
	ctx, stop := context.WithCancel(ctx)
	var work sync.WaitGroup
	work.Go(func() { p.run(ctx) })
	server := &http.Server{
		Handler:           p.handler(ctx, hosts),
		ReadHeaderTimeout: 10 * time.Second,
		IdleTimeout:       2 * time.Minute,
	}
	work.Go(func() {
		<-ctx.Done()
		last, cancel := context.WithTimeout(context.Background(), 2*time.Second)
		defer cancel()
		if server.Shutdown(last) != nil {
			_ = server.Close()
		}
	})
	err := server.Serve(listener)
	stop()
	work.Wait()
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// show makes a version the one that is seen and tells every open page.
func (p *Preview) show(v *version) {
	v.shared = sync.OnceValue(func() [sha256.Size]byte { return sharedSum(v.proof) })
	p.state.Store(v)
	p.mu.Lock()
	defer p.mu.Unlock()
	for reader := range p.readers {
		select {
		case reader <- struct{}{}:
		default: // it has not yet looked at the last one, and will find this
		}
	}
	if v.number > 1 {
		p.say(summary(v))
	}
}

func summary(v *version) string {
	if v.errors == 0 {
		return "Shown anew."
	}
	var out strings.Builder
	out.WriteString("Not shown; the last good version stays:\n")
	for _, m := range v.messages {
		if m.Severity == diagnose.Error.String() {
			out.WriteString(m.Text)
		}
	}
	return strings.TrimRight(out.String(), "\n")
}

// messagesOf are the errors and warnings, in their order.
func messagesOf(found diagnose.Diagnostics) []message {
	list := []message{}
	for _, d := range found {
		if d.Severity == diagnose.Note {
			continue
		}
		var text bytes.Buffer
		if (diagnose.Diagnostics{d}).WriteText(&text) == nil {
			list = append(list, message{d.Severity.String(), text.String()})
		}
	}
	return list
}

// file is one file of the version, with fs.ErrNotExist where it has none.
func (v *version) file(path string) ([]byte, error) {
	if v.proof == nil {
		return nil, fs.ErrNotExist
	}
	return v.proof.File(path)
}
