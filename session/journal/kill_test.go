package journal

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"testing"
)

const (
	killDir  = "STEELYARD_TEST_JOURNAL"
	killFrom = "STEELYARD_TEST_FROM"
)

// TestMain turns the test program into a scratchpad's process when it is asked
// to be one: it takes up what was left, accepts one statement, says so, and
// waits to be killed.
func TestMain(m *testing.M) {
	dir := os.Getenv(killDir)
	if dir == "" {
		os.Exit(m.Run())
	}
	if err := scratchpad(dir, os.Getenv(killFrom)); err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
	select {}
}

func scratchpad(dir, number string) error {
	found := Abandoned(dir)
	var j *Journal
	var problem *Problem
	if len(found) > 0 {
		j, problem = found[0].Resume()
	} else {
		j, problem = Start(dir)
	}
	if problem != nil {
		return problem
	}
	if problem := j.Accept(enteredAs(number)); problem != nil {
		return problem
	}
	fmt.Println("accepted")
	return nil
}

func enteredAs(number string) string {
	return "formula lift" + number + ": W = m*g*h\n  W in J, work\n  m in kg, mass"
}

// A process is killed after each of a hundred accepted statements; the next
// one takes up the journal. All hundred must be there at the end, once each.
func TestKilledAfterEachStatement(t *testing.T) {
	dir := t.TempDir()
	for n := range 100 {
		killAfterOne(t, dir, fmt.Sprint(n))
	}
	found := Abandoned(dir)
	if len(found) != 1 || found[0].damaged || len(found[0].Statements) != 100 {
		t.Fatalf("found %+v", found)
	}
	for n, got := range found[0].Statements {
		if got != enteredAs(fmt.Sprint(n)) {
			t.Errorf("statement %d is %q", n, got)
		}
	}
}

func killAfterOne(t *testing.T, dir, number string) {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program)
	cmd.Env = append(os.Environ(), killDir+"="+dir, killFrom+"="+number)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	said, _ := bufio.NewReader(out).ReadString('\n')
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	if said != "accepted\n" {
		t.Fatalf("the process said %q", said)
	}
}

func BenchmarkAccept(b *testing.B) {
	j, problem := Start(b.TempDir())
	if problem != nil {
		b.Fatal(problem)
	}
	defer j.Close(false)
	for b.Loop() {
		j.Accept("k = 2*W/x^2 in N/m")
	}
}
