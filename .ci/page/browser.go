package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"time"
)

// stepTime is the most that one step of the browser may take.
const stepTime = 60 * time.Second

// browser is a headless one, spoken to through a pair of pipes by the protocol of its
// developer tools: JSON messages parted by a zero byte.
type browser struct {
	cmd      *exec.Cmd
	to       *os.File
	messages chan message
	last     int
	session  string
	events   []message // since they were last taken
}

type message struct {
	ID     int             `json:"id,omitempty"`
	Method string          `json:"method,omitempty"`
	Params json.RawMessage `json:"params,omitempty"`
	Result json.RawMessage `json:"result,omitempty"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error,omitempty"`
	Session string `json:"sessionId,omitempty"`
}

// open starts a browser with an empty page and a folder of its own.
func open(program, folder string) (*browser, error) {
	theirIn, ourOut, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	ourIn, theirOut, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	b := &browser{to: ourOut, messages: make(chan message, 1000)}
	b.cmd = exec.Command(program, "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--hide-scrollbars", "--force-color-profile=srgb", "--remote-debugging-pipe", "--user-data-dir="+folder)
	b.cmd.ExtraFiles = []*os.File{theirIn, theirOut} // descriptors 3 and 4
	if err := b.cmd.Start(); err != nil {
		return nil, err
	}
	theirIn.Close()
	theirOut.Close()
	go func() {
		defer close(b.messages)
		r := bufio.NewReaderSize(ourIn, 1<<20)
		for {
			text, err := r.ReadBytes(0)
			if err != nil {
				return
			}
			var m message
			if json.Unmarshal(text[:len(text)-1], &m) == nil {
				b.messages <- m
			}
		}
	}()
	var target struct {
		ID string `json:"targetId"`
	}
	if err := b.call("Target.createTarget", map[string]any{"url": "about:blank"}, &target); err != nil {
		return nil, errors.Join(err, b.close())
	}
	var attached struct {
		Session string `json:"sessionId"`
	}
	if err := b.call("Target.attachToTarget", map[string]any{"targetId": target.ID, "flatten": true}, &attached); err != nil {
		return nil, errors.Join(err, b.close())
	}
	b.session = attached.Session
	for _, domain := range []string{"Page", "Runtime", "Log", "Network"} {
		if err := b.call(domain+".enable", nil, nil); err != nil {
			return nil, errors.Join(err, b.close())
		}
	}
	return b, nil
}

// close ends the browser that open started.
func (b *browser) close() error {
	b.to.Close()
	done := make(chan error, 1)
	go func() { done <- b.cmd.Wait() }()
	select {
	case <-done:
		return nil
	case <-time.After(5 * time.Second):
		return b.cmd.Process.Kill()
	}
}

// call sends a command and waits for its answer; events on the way are kept.
func (b *browser) call(method string, params, result any) error {
	b.last++
	text, err := json.Marshal(map[string]any{"id": b.last, "method": method, "params": orEmpty(params)})
	if b.session != "" {
		text, err = json.Marshal(map[string]any{"id": b.last, "method": method, "params": orEmpty(params), "sessionId": b.session})
	}
	if err != nil {
		return err
	}
	if _, err := b.to.Write(append(text, 0)); err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	m, err := b.await(method, func(m message) bool { return m.ID == b.last })
	switch {
	case err != nil:
		return err
	case m.Error != nil:
		return fmt.Errorf("%s: %s", method, m.Error.Message)
	case result == nil:
		return nil
	}
	return json.Unmarshal(m.Result, result)
}

func orEmpty(params any) any {
	if params == nil {
		return map[string]any{}
	}
	return params
}

// await reads messages until one will do.
func (b *browser) await(what string, is func(message) bool) (message, error) {
	late := time.After(stepTime)
	for {
		select {
		case m, ok := <-b.messages:
			switch {
			case !ok:
				return m, fmt.Errorf("%s: the browser ended", what)
			case is(m):
				return m, nil
			case m.Method != "":
				b.events = append(b.events, m)
			}
		case <-late:
			return message{}, fmt.Errorf("%s: no answer in %v", what, stepTime)
		}
	}
}

// show opens a page and waits until it is loaded.
func (b *browser) show(url string) error {
	if err := b.call("Page.navigate", map[string]any{"url": url}, nil); err != nil {
		return err
	}
	for _, e := range b.events {
		if e.Method == "Page.loadEventFired" {
			return nil
		}
	}
	_, err := b.await("load", func(m message) bool { return m.Method == "Page.loadEventFired" })
	return err
}

// look chooses the width of the window, the colour scheme and the medium.
func (b *browser) look(width int, scheme, media string) error {
	if err := b.call("Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": false}, nil); err != nil {
		return err
	}
	return b.call("Emulation.setEmulatedMedia", map[string]any{"media": media,
		"features": []map[string]string{{"name": "prefers-color-scheme", "value": scheme}}}, nil)
}

// run evaluates JavaScript in the page, into result.
func (b *browser) run(script string, result any) error {
	var out struct {
		Result    struct{ Value json.RawMessage }
		Exception *struct{ Text string } `json:"exceptionDetails"`
	}
	if err := b.call("Runtime.evaluate", map[string]any{"expression": script, "returnByValue": true, "awaitPromise": true}, &out); err != nil {
		return err
	}
	if out.Exception != nil {
		return fmt.Errorf("script: %s: %.80s", out.Exception.Text, script)
	}
	return json.Unmarshal(out.Result.Value, result)
}

// faults takes the events that a sound page does not give: errors, and anything
// fetched from elsewhere.
func (b *browser) faults() []string {
	var list []string
	for _, e := range b.events {
		var p struct {
			Entry   struct{ Level, Text string }
			Type    string
			Request struct{ URL string }
		}
		_ = json.Unmarshal(e.Params, &p) // other events have other shapes
		switch {
		case e.Method == "Runtime.exceptionThrown",
			e.Method == "Runtime.consoleAPICalled" && p.Type == "error",
			e.Method == "Log.entryAdded" && p.Entry.Level == "error":
			list = append(list, e.Method+" "+string(e.Params))
		case e.Method == "Network.requestWillBeSent" && len(p.Request.URL) > 5 && p.Request.URL[:5] != "file:" && p.Request.URL[:5] != "data:":
			list = append(list, "fetched "+p.Request.URL)
		}
	}
	b.events = nil
	return list
}
