package generalsolver

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"time"
)

// Find gives the folder of the package's own files below a folder in which it was
// installed. The error says in one line what is missing and what brings it.
func Find(folder string) (dist string, err error) {
	if _, err := exec.LookPath("node"); err != nil {
		return "", errors.New("there is no node on the path")
	}
	dist, err = filepath.Abs(filepath.Join(folder, "node_modules", "minizinc", "dist"))
	if err != nil {
		return "", err
	}
	for _, name := range []string{"minizinc-worker.js", "minizinc.wasm", "minizinc.data"} {
		if _, err := os.Stat(filepath.Join(dist, name)); err != nil {
			return "", fmt.Errorf("there is no %s in %s; \"npm install minizinc\" in %s puts it there", name, dist, folder)
		}
	}
	return dist, nil
}

// FindPython gives the python by a name or path that has the package ortools. The error says
// in one line what is missing and what brings it.
func FindPython(name string) (path string, err error) {
	if path, err = exec.LookPath(name); err != nil {
		return "", fmt.Errorf("there is no %s", name)
	}
	if err := exec.Command(path, "-c", "import ortools.sat.python.cp_model").Run(); err != nil {
		return "", fmt.Errorf("there is no ortools for %s; \"%s -m pip install ortools\" puts it there", name, name)
	}
	return path, nil
}

// Script is a program that reads questions and writes answers, each a line of JSON.
type Script struct {
	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader
}

// Start runs the text of a module under node; args are the last words of its process.argv.
func Start(text string, args ...string) (*Script, error) {
	return Run("node", append([]string{"--input-type=module", "-e", text}, args...)...)
}

// Run runs a program. What it writes beside its answers goes to standard error.
func Run(program string, args ...string) (*Script, error) {
	s := &Script{cmd: exec.Command(program, args...)}
	s.cmd.Stderr = os.Stderr
	var err error
	if s.in, err = s.cmd.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	s.out = bufio.NewReaderSize(out, 1<<20)
	return s, s.cmd.Start()
}

// Close ends the script, whatever it is doing.
func (s *Script) Close() {
	s.in.Close()
	s.cmd.Process.Kill()
	s.cmd.Wait()
}

// ErrLate says that an answer did not come in time. The script has ended.
var ErrLate = errors.New("no answer in time")

// Ask has one question answered, in no more than most by the clock; 0 for however long
// it takes. After an error the script is of no more use.
func (s *Script) Ask(question, answer any, most time.Duration) error {
	line, err := json.Marshal(question)
	if err != nil {
		return err
	}
	inTime := func() bool { return true }
	if most > 0 {
		inTime = time.AfterFunc(most, func() { s.cmd.Process.Kill() }).Stop
	}
	var text []byte
	if _, err = s.in.Write(append(line, '\n')); err == nil {
		text, err = s.out.ReadBytes('\n')
	}
	switch {
	case !inTime():
		return ErrLate
	case err != nil:
		return fmt.Errorf("the solver's script has ended: %w, %v", err, s.cmd.Wait())
	}
	if err := json.Unmarshal(text, answer); err != nil {
		return fmt.Errorf("the solver's script wrote %.200q: %w", text, err)
	}
	return nil
}
