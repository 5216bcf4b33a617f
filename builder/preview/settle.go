package preview

import (
	"context"
	"time"

	"caseleaf/content"
	"caseleaf/content/diagnose"
)

// How long a save may take. Most editors are done at once; some empty a file
// first, write it in parts, or put it away and make it anew.
const (
	quiet    = 5 * time.Millisecond   // after a change that looks whole
	patience = 250 * time.Millisecond // after one that has new faults, or has lost much
	missing  = 500 * time.Millisecond // while a file is empty or away
	longest  = 1200 * time.Millisecond
)

// run keeps the preview up to date until the context ends.
func (p *Preview) run(ctx context.Context) {
	defer p.watch.close()
	for ctx.Err() == nil {
		told := p.watch.next(ctx, max(lookEvery, spare*p.looking))
		p.settle(ctx, changes{all: !told})
	}
}

// settle looks at what may have changed in the bank, waits until a save is over,
// and takes the new version. However many events come, it takes one within the
// longest wait.
func (p *Preview) settle(ctx context.Context, perhaps changes) {
	until := time.Now().Add(longest)
	wait := quiet
	for ctx.Err() == nil {
		for time.Now().Before(until) && p.watch.next(ctx, min(wait, time.Until(until))) {
		}
		perhaps.add(p.watch.heard())
		now, changed, err := p.look(perhaps)
		if err != nil {
			p.fault(err)
			return
		}
		if len(changed) == 0 {
			p.seen = now
			return
		}
		over := !time.Now().Before(until)
		if longer := p.doubt(now, changed); longer > wait && !over {
			wait = longer
			continue
		}
		if p.accept(now, wait < patience && !over) {
			return
		}
		wait = patience
	}
}

// look takes a snapshot of what may have changed, and says what has.
func (p *Preview) look(perhaps changes) (now snapshot, changed []string, err error) {
	if !perhaps.all && len(p.seen) > 0 {
		return p.seen.again(p.folder, perhaps.names)
	}
	started := time.Now()
	now, folders, err := take(p.folder, p.seen)
	p.looking = time.Since(started)
	p.watch.follow(folders)
	if err != nil {
		return nil, nil, err
	}
	return now, p.seen.changed(now), nil
}

// doubt says how much longer a change must stand still before it is believed.
func (p *Preview) doubt(now snapshot, changed []string) time.Duration {
	if !p.seen.doubtful(now, changed) {
		return 0
	}
	return missing
}

// accept reads the bank. With wary set, a version with errors that the last one
// had not is not believed yet, and accept reports false.
func (p *Preview) accept(now snapshot, wary bool) bool {
	bank, found, err := p.read(now)
	if err != nil {
		p.fault(err)
		return true
	}
	if wary && found.Count(diagnose.Error) > p.state.Load().errors {
		return false
	}
	p.seen = now
	p.take(bank, found)
	return true
}

// take makes a version of what was read the one that readers see. One with
// errors leaves the last good pages standing under its messages.
func (p *Preview) take(bank *content.Bank, found diagnose.Diagnostics) {
	last := p.state.Load()
	next := &version{number: last.number + 1, proof: last.proof, messages: messagesOf(found), errors: found.Count(diagnose.Error)}
	if !found.Failed() {
		proof, err := last.proof.Next(bank, p.options)
		if err != nil {
			next.messages = append(next.messages, message{Severity: diagnose.Error.String(), Text: err.Error()})
			next.errors++
		} else {
			next.proof = proof
		}
	}
	p.show(next)
}

// fault shows that the machine could not read the bank; the last good pages
// stay. The same fault is shown once.
func (p *Preview) fault(err error) {
	last := p.state.Load()
	if len(last.messages) == 1 && last.messages[0].Text == err.Error() {
		return
	}
	p.show(&version{
		number: last.number + 1, proof: last.proof, errors: last.errors,
		messages: []message{{Severity: diagnose.Error.String(), Text: err.Error()}},
	})
	p.seen = snapshot{} // what is there when it can be read again is news
}
