package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"os/signal"
	"strconv"
	"syscall"

	"caseleaf/builder"
	"caseleaf/builder/preview"
)

// previewPort is tried when none is named; when it is taken, any free one is.
const previewPort = 7420

type previewCommand struct {
	bankArgument
	Port           int    `default:"0" help:"Port on this machine (default: 7420, or any free one)."`
	Listen         string `placeholder:"ADDRESS:PORT" help:"Answer on another address than this machine's own. Everybody who reaches it can read the bank."`
	WithUnreleased bool   `help:"Show cases that are not released too, marked on every page."`
	Offline        bool   `env:"CASELEAF_OFFLINE" help:"Never try to get the chart library through npm."`
}

// Run shows the bank until it is interrupted.
func (c previewCommand) Run(s streams) error {
	files, name, err := c.open()
	if err != nil {
		return err
	}
	folder := c.Bank
	if folder == "" {
		folder = defaultBank
	}
	if _, err := os.Stat(folder); err != nil {
		return failure{exitUse, fmt.Errorf("there is no folder %s; lay a bank out with `caseleaf begin %s`, then preview it", folder, folder)}
	}
	library, note := buildCommand{bankArgument: c.bankArgument, Offline: c.Offline}.library(files)
	if note != "" {
		fmt.Fprintln(s.out, note)
	}
	p, err := preview.New(preview.Settings{
		Folder:  folder,
		Options: builder.Options{WithUnreleased: c.WithUnreleased, Charts: library},
		Say:     func(line string) { fmt.Fprintln(s.out, line) },
	})
	if err != nil {
		return failure{exitMachine, err}
	}
	listener, hosts, err := c.listen(s)
	if err != nil {
		return err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	fmt.Fprintf(s.out, "%s is shown at http://%s/  Save a file and the page follows. Control-C stops.\n", name, listener.Addr())
	if err := p.Serve(ctx, listener, hosts); err != nil {
		return failure{exitMachine, err}
	}
	return nil
}

// listen opens the address and says under which names it is answered.
func (c previewCommand) listen(s streams) (net.Listener, []string, error) {
	if c.Listen == "" {
		listener, err := listenHere(c.Port)
		return listener, preview.Loopback, err
	}
	host, _, err := net.SplitHostPort(c.Listen)
	if err != nil {
		return nil, nil, failure{exitUse, fmt.Errorf("--listen takes an address and a port, such as 192.0.2.7:7420: %w", err)}
	}
	listener, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return nil, nil, failure{exitMachine, err}
	}
	ip := net.ParseIP(host)
	if host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		fmt.Fprintln(s.err, "caseleaf: warning: everybody who reaches this address can read the bank as it is being written. Use it on a network that you trust, and stop it when you are done.")
	}
	if host == "" || ip != nil && ip.IsUnspecified() {
		host = preview.AnyNumber
	}
	return listener, append([]string{host}, preview.Loopback...), nil
}

// listenHere listens on this machine's own address, which no other machine
// reaches.
func listenHere(port int) (net.Listener, error) {
	if port != 0 {
		listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
		if err != nil {
			return nil, failure{exitUse, fmt.Errorf("port %d can't be used: %w", port, err)}
		}
		return listener, nil
	}
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(previewPort)))
	if err == nil {
		return listener, nil
	}
	listener, err = net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, failure{exitMachine, errors.Join(errors.New("no port is free on this machine"), err)}
	}
	return listener, nil
}
