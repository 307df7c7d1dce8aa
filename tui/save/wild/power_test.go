//go:build linux

package wild_test

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"bypeg/tui/internal/figures"
	"bypeg/tui/save"
)

// # How the power is cut
//
// A writer works on an ext4 file system that lies in a file. What it has not synced is
// in the system's memory, and not in that file. So a copy of the file is what a cut of
// the power would have left. The writer is stopped at a random moment, which is always
// between two calls to the system; the file is read until two copies of it agree, so
// that no write of the system's own falls into the middle; the copy is mounted, which
// replays the file system's own journal, and the piece on it is opened. The control, a
// writer whose syncs do nothing, must lose steps in most cuts; otherwise the copies
// would prove nothing.

// device is an ext4 file system in a file.
type device struct {
	image string
	at    string // where it is mounted
}

// needExt4 skips a test where no file system in a file can be made and mounted.
func needExt4(t testing.TB) {
	t.Helper()
	if os.Getuid() != 0 {
		figures.Skip(t, "root, to mount a file system in a file")
	}
	for _, tool := range []string{"mkfs.ext4", "mount"} {
		if _, err := exec.LookPath(tool); err != nil {
			figures.Skip(t, tool)
		}
	}
	if _, err := os.Stat("/dev/loop-control"); err != nil {
		figures.Skip(t, "loop devices")
	}
}

// newDevice makes a device in a folder.
func newDevice(t testing.TB, dir, name string) device {
	t.Helper()
	d := device{filepath.Join(dir, name), filepath.Join(dir, name+".d")}
	require.NoError(t, os.Mkdir(d.at, 0o700))
	require.NoError(t, os.WriteFile(d.image, nil, 0o600))
	require.NoError(t, os.Truncate(d.image, 8<<20))
	tool(t, "mkfs.ext4", "-q", "-F", d.image)
	return d
}

// tool runs one of the system's tools.
func tool(t testing.TB, name string, args ...string) {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	require.NoError(t, err, "%s: %s", name, out)
}

// mount mounts a device until unmount, or until the end of the test.
func (d device) mount(t testing.TB, options string) (unmount func()) {
	t.Helper()
	tool(t, "mount", "-t", "ext4", "-o", "loop,"+options, d.image, d.at)
	mounted := true
	unmount = func() {
		if mounted {
			mounted = false
			assert.NoError(t, syscall.Unmount(d.at, syscall.MNT_DETACH))
		}
	}
	t.Cleanup(unmount)
	return unmount
}

// snapshot is what is in the device's file at one moment.
func (d device) snapshot(t testing.TB) []byte {
	t.Helper()
	first, err := os.ReadFile(d.image)
	require.NoError(t, err)
	for range 100 {
		second, err := os.ReadFile(d.image)
		require.NoError(t, err)
		if bytes.Equal(first, second) {
			return first
		}
		first = second
	}
	t.Fatal("the device's file never came to rest")
	return nil
}

// cutter works a piece on a device and cuts its power again and again.
type cutter struct {
	device device
	spare  device // for copies
	dir    string
	chance *rand.Rand
}

func newCutter(t testing.TB) *cutter {
	t.Helper()
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	dir := memory(t, "64m")
	c := &cutter{device: newDevice(t, dir, "disk"), dir: dir, chance: rand.New(rand.NewPCG(seed, 0))}
	c.spare = device{filepath.Join(dir, "copy"), filepath.Join(dir, "copy.d")}
	require.NoError(t, os.Mkdir(c.spare.at, 0o700))
	return c
}

// cuts lets a writer work, cuts the power so often, and returns what each cut did.
func (c *cutter) cuts(t testing.TB, n int, options string, w ways) (acks int, results []error) {
	t.Helper()
	defer c.device.mount(t, options)()
	w.Root, w.Begin = filepath.Join(c.device.at, "pieces"), true
	r := start(t, bounds{}, w)
	defer r.kill()
	r.until("open ")
	for range n {
		r.acks(1 + c.chance.IntN(20))
		time.Sleep(time.Duration(c.chance.IntN(2000)) * time.Microsecond)
		r.stop()
		image := c.device.snapshot(t)
		results = append(results, c.restart(t, image, options, r.bounds))
		r.goOn()
	}
	return r.acked, results
}

// restart mounts what a cut has left and opens the piece on it.
func (c *cutter) restart(t testing.TB, image []byte, options string, known bounds) error {
	t.Helper()
	require.NoError(t, os.WriteFile(c.spare.image, image, 0o600))
	defer c.spare.mount(t, options)()
	root := filepath.Join(c.spare.at, "pieces")
	o, err := look(root, known)
	if errors.Is(err, save.ErrNoPiece) || errors.Is(err, save.ErrNeverBegun) || errors.Is(err, save.ErrUnreadable) {
		return errors.Join(errLost, err)
	}
	if err == nil && (o.LookOnly != "" || o.Question != nil) {
		t.Errorf("after a cut: %q, %v", o.LookOnly, o.Question)
	}
	return err
}

// lostIn counts the cuts that lost a step, and those that are wrong in another way.
func lostIn(t testing.TB, results []error) (lost, wrong int) {
	t.Helper()
	for _, err := range results {
		switch {
		case errors.Is(err, errLost):
			lost++
		case err != nil:
			t.Log(err)
			wrong++
		}
	}
	return lost, wrong
}

func TestNoCutOfThePowerLosesAStep(t *testing.T) {
	t.Parallel()
	needExt4(t)
	if !alone(t) {
		return
	}
	for _, options := range []string{"data=ordered", "data=writeback"} {
		t.Run(options, func(t *testing.T) {
			want := rounds(50, 500)
			acks, results := 0, []error(nil)
			for len(results) < want && !t.Failed() {
				t.Run("a disk", func(t *testing.T) { // a small one, so that it is not to fill up
					n, more := newCutter(t).cuts(t, min(50, want-len(results)), options, ways{Ahead: 8})
					acks, results = acks+n, append(results, more...)
				})
			}
			lost, wrong := lostIn(t, results)
			figures.Say(t, "%d cuts of the power, %d steps saved, %d lost, %d wrong", len(results), acks, lost, wrong)
			assert.Len(t, results, want)
			assert.Positive(t, acks)
			assert.Zero(t, lost)
			assert.Zero(t, wrong)
		})
	}
}

// What a killed writer had not synced may be there when the piece is opened again, since
// only the program was killed. A cut of the power must then not take back what has been
// shown.
func TestNoCutOfThePowerTakesBackWhatWasShownAfterAKill(t *testing.T) {
	t.Parallel()
	needExt4(t)
	if !alone(t) {
		return
	}
	const options = "data=ordered"
	c := newCutter(t)
	defer c.device.mount(t, options)()
	root := filepath.Join(c.device.at, "pieces")
	begin(t, ways{Root: root})
	known, unsynced := bounds{1, 1}, 0
	want := rounds(20, 100)
	for range want {
		hasty := start(t, known, ways{Root: root, Ahead: 4, Files: syncless})
		hasty.acks(1 + c.chance.IntN(20))
		hasty.kill()
		r := start(t, hasty.bounds, ways{Root: root, Wait: true})
		r.until("open ")
		r.stop()
		require.NoError(t, c.restart(t, c.device.snapshot(t), options, bounds{acked: r.at, put: r.put}))
		unsynced += r.at - known.acked
		known = bounds{r.at, r.at}
		r.kill()
	}
	figures.Say(t, "%d kills, each with a cut of the power after the next start; %d steps were not on disk before it, 0 lost", want, unsynced)
	assert.Positive(t, unsynced)
}

func TestCutsOfThePowerCatchAWriterThatDoesNotSync(t *testing.T) {
	t.Parallel()
	needExt4(t)
	if !alone(t) {
		return
	}
	want := rounds(20, 100)
	_, results := newCutter(t).cuts(t, want, "data=ordered", ways{Ahead: 8, Files: syncless})
	lost, _ := lostIn(t, results)
	figures.Say(t, "the control: %d of %d cuts lost steps", lost, len(results))
	assert.GreaterOrEqual(t, 2*lost, want, "the copies of the disk must not hold what was never synced")
}
