package worksheet

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

const (
	diskPath = "STEELYARD_TEST_SAVE"
	diskCase = "STEELYARD_TEST_CASE"
	diskTask = "STEELYARD_TEST_TASK"
)

// TestMain turns the test program into one that saves under hard conditions
// when it is asked to: as a user without rights, or with no room left.
func TestMain(m *testing.M) {
	path := os.Getenv(diskPath)
	if path == "" {
		os.Exit(m.Run())
	}
	if os.Getenv(diskCase) == "room" {
		signal.Ignore(syscall.SIGXFSZ)
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 50, Max: 50}); err != nil {
			fmt.Println(err)
		}
	} else if os.Getuid() == 0 {
		if err := syscall.Setuid(65534); err != nil {
			fmt.Println(err)
		}
	}
	s, problem := Load(path)
	if problem == nil && os.Getenv(diskTask) == "record" {
		problem = Replay(context.Background(), s, Options{Record: true}).Problem
	} else if problem == nil {
		_, problem = Save(path, entered("m = 2 kg", "k = 2*m", "# a long remark, so that there is something to write"), Saving{Since: s.Stamp()})
	}
	if problem != nil {
		fmt.Print(problem.Error())
		os.Exit(0)
	}
	fmt.Print("saved")
	os.Exit(0)
}

func savedElsewhere(t *testing.T, path, kind, task string) string {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program)
	cmd.Env = append(os.Environ(), diskPath+"="+path, diskCase+"="+kind, diskTask+"="+task)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return string(out)
}

func TestHardDisks(t *testing.T) {
	wrong := strings.Replace(plunger, "0.4624", "0.5", 1)
	for _, c := range []struct{ kind, task, say string }{
		{"room", "save", "larger than this system allows"},
		{"folder", "save", "no permission"},
		{"room", "record", "larger than this system allows"},
		{"folder", "record", "no permission"},
	} {
		kind, say := c.kind, c.say
		t.Run(c.task+" "+kind, func(t *testing.T) {
			dir, err := os.MkdirTemp("/tmp", "steelyard-test-")
			if err != nil {
				t.Skip("no folder to try it in")
			}
			t.Cleanup(func() { os.Chmod(dir, 0o755); os.RemoveAll(dir) })
			path := filepath.Join(dir, "plunger.worked")
			if err := os.WriteFile(path, []byte(wrong), 0o666); err != nil {
				t.Fatal(err)
			}
			os.Chmod(path, 0o666)
			os.Chmod(dir, map[string]os.FileMode{"room": 0o777, "folder": 0o555}[kind])
			if said := savedElsewhere(t, path, kind, c.task); !strings.Contains(said, say) || !strings.Contains(said, "plunger.worked") {
				t.Errorf("said %q, want %q", said, say)
			}
			if got := content(t, path); got != wrong {
				t.Errorf("the original is not intact: %q", got)
			}
			onlyFiles(t, dir, "plunger.worked")
		})
	}
}
