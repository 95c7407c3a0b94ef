package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// display is an X server without a screen. Its picture lies in a file.
type display struct {
	cmd  *exec.Cmd
	name string
	dir  string
}

// startDisplay starts Xvfb on a free display number of its own choice.
func startDisplay(w, h int) (*display, error) {
	dir, err := os.MkdirTemp("", "hillset-display")
	if err != nil {
		return nil, err
	}
	r, wr, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	cmd := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", w, h), "-fbdir", dir, "-nolisten", "tcp")
	cmd.ExtraFiles = []*os.File{wr}
	if err := cmd.Start(); err != nil {
		return nil, fmt.Errorf("starting Xvfb: %w", err)
	}
	wr.Close()
	line := make(chan string, 1)
	go func() {
		s, _ := bufio.NewReader(r).ReadString('\n')
		line <- strings.TrimSpace(s)
	}()
	select {
	case n := <-line:
		if n != "" {
			return &display{cmd: cmd, name: ":" + n, dir: dir}, nil
		}
	case <-time.After(20 * time.Second):
	}
	_ = cmd.Process.Kill()
	return nil, fmt.Errorf("no display was named by Xvfb within 20 s")
}

// env makes a program draw on the display, in software.
func (d *display) env() []string {
	return []string{"DISPLAY=" + d.name, "LIBGL_ALWAYS_SOFTWARE=1", "HILLSET_XWD=" + filepath.Join(d.dir, "Xvfb_screen0")}
}

func (d *display) stop() {
	_ = d.cmd.Process.Kill()
	_ = d.cmd.Wait()
	_ = os.RemoveAll(d.dir)
}
