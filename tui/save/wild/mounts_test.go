//go:build linux

package wild_test

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
	"bypeg/tui/save"
)

// self is this program, also for those who may not enter the folder it lies in.
const self = "/proc/self/exe"

// asAlone is the variable that tells the test binary that its mounts are its own.
const asAlone = "BYPEG_WILD_ALONE"

// alone runs the test that calls it once more, in a process whose mounts are its own:
// they go with the process, however it ends. There it returns true. Where the machine
// lets nobody do that the test is skipped.
func alone(t *testing.T) bool {
	t.Helper()
	if os.Getenv(asAlone) != "" {
		if err := syscall.Mount("none", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, ""); err != nil {
			figures.Skip(t, "the right to mount: "+err.Error())
		}
		return true
	}
	cmd := exec.Command(self, "-test.run=^"+t.Name()+"$", "-test.v", "-test.timeout=300s")
	if testing.Short() {
		cmd.Args = append(cmd.Args, "-test.short")
	}
	cmd.Env = append(environment(), asAlone+"=1", "TMPDIR="+t.TempDir())
	cmd.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWNS, Pdeathsig: syscall.SIGKILL}
	if os.Geteuid() != 0 {
		cmd.SysProcAttr.Cloneflags |= syscall.CLONE_NEWUSER
		cmd.SysProcAttr.UidMappings = []syscall.SysProcIDMap{{HostID: os.Geteuid(), Size: 1}}
		cmd.SysProcAttr.GidMappings = []syscall.SysProcIDMap{{HostID: os.Getegid(), Size: 1}}
	}
	out, err := cmd.CombinedOutput()
	t.Logf("%s", out)
	if ended := (*exec.ExitError)(nil); err != nil && !errors.As(err, &ended) {
		figures.Skip(t, "root, or namespaces for users: "+err.Error())
	}
	require.NoError(t, err, "%s", out)
	if strings.Contains(string(out), "\n--- SKIP: ") {
		t.Skip("skipped in the process of its own")
	}
	require.Contains(t, string(out), "\n--- PASS: "+t.Name()+" ")
	return false
}

// memory mounts a file system of so many bytes that lies in memory.
func memory(t testing.TB, size string) (dir string) {
	t.Helper()
	dir = t.TempDir()
	require.NoError(t, syscall.Mount("tmpfs", dir, "tmpfs", 0, "mode=0700,size="+size))
	t.Cleanup(func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

// beyondFull is more steps than filled has room for, and fewer than when there is room.
const beyondFull = 550

// filled is a small file system on which a writer has worked until it was full. Room
// can be made.
func filled(t testing.TB) (root string, makeRoom func(), r *run) {
	t.Helper()
	dir := memory(t, "64k")
	root = filepath.Join(dir, "pieces")
	ballast := filepath.Join(dir, "ballast")
	require.NoError(t, os.WriteFile(ballast, make([]byte, 16<<10), 0o600))
	begin(t, ways{Root: root})
	r = start(t, bounds{1, 1}, ways{Root: root, Ahead: 7, Patient: true, Tries: 1000, Rest: beyondFull})
	assert.Regexp(t, `^\d disk full$`, r.until("unsaved "))
	assert.Greater(t, r.acked, 100)
	return root, func() { require.NoError(t, os.Remove(ballast)) }, r
}

func TestAFullDiskIsToldAndGoneOnWithWhenThereIsRoom(t *testing.T) {
	t.Parallel()
	if !alone(t) {
		return
	}
	root, makeRoom, r := filled(t)
	full := r.acked
	makeRoom()
	r.tell("there is room")
	r.until("rest ")
	r.kill()
	figures.Say(t, "%d steps saved until the disk was full, %d after there was room", full, r.acked-full)
	goesOn(t, root, r.bounds)
}

func TestAKillOnAFullDiskLosesNothing(t *testing.T) {
	t.Parallel()
	if !alone(t) {
		return
	}
	root, makeRoom, r := filled(t)
	r.kill()
	still := start(t, r.bounds, ways{Root: root, Steps: 3, Tries: 2})
	assert.Contains(t, []int{leftUnsaved, notOpened}, still.wait(), "%q", still.said)
	assert.NoError(t, r.judge(still.at), "what is saved can be seen on a full disk, at least to look at: %q", still.said)
	assert.False(t, still.has("ack "), "%q", still.said)
	assert.True(t, still.has("disk full"), "%q", still.said)
	still.put = max(still.put, r.put)
	makeRoom()
	goesOn(t, root, still.bounds)
}

func TestNothingIsBegunOnAFullDisk(t *testing.T) {
	t.Parallel()
	if !alone(t) {
		return
	}
	dir := memory(t, "16k")
	root := filepath.Join(dir, "pieces")
	ballast := filepath.Join(dir, "ballast")
	_ = os.WriteFile(ballast, make([]byte, 64<<10), 0o600) // as much as there is room for
	r := start(t, bounds{}, ways{Root: root, Begin: true, Steps: 1})
	assert.Equal(t, notOpened, r.wait(), "%q", r.said)
	assert.True(t, r.has("failed not saved: the piece could not be begun: disk full"), "%q", r.said)
	require.NoError(t, os.Truncate(ballast, 0))
	left, err := save.List(save.System("the test"), root)
	require.NoError(t, err)
	assert.Empty(t, left)
	begin(t, ways{Root: root})
}

func TestAPieceOnADiskThatCanOnlyBeReadIsLookedAt(t *testing.T) {
	t.Parallel()
	if !alone(t) {
		return
	}
	dir := memory(t, "1m")
	root := filepath.Join(dir, "pieces")
	begin(t, ways{Root: root})
	require.NoError(t, syscall.Mount("tmpfs", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""))
	r := start(t, bounds{1, 1}, ways{Root: root, Steps: 1})
	assert.Equal(t, notOpened, r.wait(), "%q", r.said)
	assert.True(t, r.has("look only at 1: the disk can only be read"), "%q", r.said)
	r = start(t, bounds{}, ways{Root: root, ID: "k7q3", Begin: true, Steps: 1})
	assert.Equal(t, notOpened, r.wait(), "%q", r.said)
	assert.True(t, r.has("failed not saved: the piece could not be begun: the disk can only be read"), "%q", r.said)
	require.NoError(t, syscall.Mount("tmpfs", dir, "", syscall.MS_REMOUNT, ""))
	goesOn(t, root, bounds{1, 1})
}

// nobody is a user that is not root; who runs the tests, where that is one already.
const nobody = 65534

// startAsNobody starts a writer that file permissions bind.
func startAsNobody(t testing.TB, known bounds, w ways) *run {
	t.Helper()
	cmd := exec.Command(self)
	if os.Geteuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	return startCommand(t, known, w, cmd)
}

// homeOfNobody is a folder for pieces that belongs to nobody.
func homeOfNobody(t testing.TB) (root string) {
	t.Helper()
	dir := t.TempDir()
	if os.Geteuid() == 0 {
		for d := dir; d != os.TempDir(); d = filepath.Dir(d) {
			require.NoError(t, os.Chmod(d, 0o755))
		}
		require.NoError(t, os.Chown(dir, nobody, nobody))
	}
	return filepath.Join(dir, "bypeg", "pieces")
}

func TestWhatMayNotBeWrittenIsTold(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		file   string // below the piece
		mode   fs.FileMode
		code   int
		said   string
		workOn bool // steps are saved all the same
	}{
		{"the folder: steps go into the journal that is there", ".", 0o500, endedWell,
			"notice the second copy of the place is behind", true},
		{"the journal", journalName, 0o400, notOpened, "look only at 1: no permission to write", false},
		{"the lock", "lock", 0o400, notOpened, "look only at 1: no permission to write", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			root := homeOfNobody(t)
			w := ways{Root: root, Begin: true, Steps: 1}
			r := startAsNobody(t, bounds{}, w)
			require.Equal(t, endedWell, r.wait(), "%q", r.said)
			path := filepath.Join(root, newID, c.file)
			before, err := os.Stat(path)
			require.NoError(t, err)
			require.NoError(t, os.Chmod(path, c.mode))
			r = startAsNobody(t, bounds{1, 1}, ways{Root: root, Steps: 60, Ahead: 4, Tries: 2})
			assert.Equal(t, c.code, r.wait(), "%q", r.said)
			assert.True(t, r.has(c.said), "%q", r.said)
			assert.Equal(t, c.workOn, r.acked == 61)
			require.NoError(t, os.Chmod(path, before.Mode()))
			last := startAsNobody(t, r.bounds, ways{Root: root, Steps: 2})
			require.Equal(t, endedWell, last.wait(), "%q", last.said)
			assert.NoError(t, r.judge(last.at))
			assert.Equal(t, last.at+2, last.acked)
		})
	}
}

// The umask binds nobody but those who are not root.
func TestNobodyElseCanReadAPieceOfNobodyWhateverTheUmask(t *testing.T) {
	t.Parallel()
	for _, mask := range []int{0, 0o277, 0o777} {
		root := homeOfNobody(t)
		r := startAsNobody(t, bounds{}, ways{Root: root, Begin: true, Masked: true, Umask: mask, Steps: 60, Ahead: 8})
		require.Equal(t, endedWell, r.wait(), "umask %o: %q", mask, r.said)
		modes(t, filepath.Dir(root))
		r = startAsNobody(t, r.bounds, ways{Root: root, Masked: true, Umask: mask, Steps: 2})
		require.Equal(t, endedWell, r.wait(), "umask %o: %q", mask, r.said)
	}
}
