package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"stowright/internal/bundle"
)

// marker is the file by which a folder is known as one of ours. It lists what we wrote.
const marker = ".stowright-files"

// errNotOurs refuses to touch a folder that somebody else made.
var errNotOurs = errors.New("was not made by stowright and is not empty")

// writeFolder puts files into dir so that it holds either all of the old or all of the new:
// everything is written and synced beside it first, then the folders change places. Files in
// one of our folders that we did not write are carried over.
func writeFolder(dir string, files []bundle.File) error {
	dir, err := filepath.Abs(dir) // "." has neither a name nor a parent
	if err != nil {
		return err
	}
	foreign, exists, err := contents(dir)
	if err != nil {
		return err
	}
	parent := filepath.Dir(dir)
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(parent, "."+filepath.Base(dir)+"-new-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(fresh)
	if err := os.Chmod(fresh, 0o755); err != nil {
		return err
	}
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	if err := writeAll(fresh, files); err != nil {
		return err
	}
	slices.Sort(names)
	if err := writeFile(filepath.Join(fresh, marker), []byte(strings.Join(names, "\n")+"\n")); err != nil {
		return err
	}
	if !exists {
		return os.Rename(fresh, dir)
	}
	for _, name := range foreign {
		if slices.Contains(names, name) {
			return fmt.Errorf("%s: %s is yours and would be overwritten; move it away", dir, name)
		}
		if err := carry(filepath.Join(dir, filepath.FromSlash(name)), filepath.Join(fresh, filepath.FromSlash(name))); err != nil {
			return err
		}
	}
	old, err := os.MkdirTemp(parent, "."+filepath.Base(dir)+"-old-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(old)
	kept := filepath.Join(old, "kept")
	if err := os.Rename(dir, kept); err != nil {
		return err
	}
	if err := os.Rename(fresh, dir); err != nil {
		return errors.Join(err, os.Rename(kept, dir))
	}
	return nil
}

// carry puts a file, a link or an empty folder in a second place as well, unchanged: until the folders change places
// both have it.
func carry(from, to string) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	info, err := os.Lstat(from)
	if err != nil {
		return err
	}
	switch {
	case info.IsDir():
		return os.Mkdir(to, info.Mode().Perm())
	case info.Mode()&fs.ModeSymlink != 0:
		target, err := os.Readlink(from)
		if err != nil {
			return err
		}
		return os.Symlink(target, to)
	}
	if err := os.Link(from, to); err == nil || !info.Mode().IsRegular() {
		return err
	}
	b, err := os.ReadFile(from) // a disk that knows no second names
	if err != nil {
		return err
	}
	if err := writeFile(to, b); err != nil {
		return err
	}
	if err := os.Chmod(to, info.Mode().Perm()); err != nil {
		return err
	}
	return os.Chtimes(to, info.ModTime(), info.ModTime())
}

// contents gives the files and the empty folders in dir that we did not make, and whether dir is there.
func contents(dir string) (foreign []string, exists bool, err error) {
	info, err := os.Lstat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, err
	}
	if !info.IsDir() {
		return nil, false, fmt.Errorf("%s is there and is no folder", dir)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, false, err
	}
	if len(entries) == 0 {
		return nil, true, nil
	}
	b, err := os.ReadFile(filepath.Join(dir, marker))
	if err != nil {
		return nil, false, fmt.Errorf("%s %w; name a new folder with -o", dir, errNotOurs)
	}
	ours := strings.Split(strings.TrimSpace(string(b)), "\n")
	err = filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || p == dir {
			return err
		}
		if d.IsDir() {
			if in, err := os.ReadDir(p); err != nil || len(in) > 0 {
				return err
			}
		}
		name, err := filepath.Rel(dir, p)
		if err != nil {
			return err
		}
		if name = filepath.ToSlash(name); name != marker && !slices.Contains(ours, name) {
			foreign = append(foreign, name)
		}
		return nil
	})
	return foreign, true, err
}

// writeAll writes files, many at a time: most of the time goes by until the disk has each.
func writeAll(dir string, files []bundle.File) error {
	errs := make([]error, len(files))
	var wait sync.WaitGroup
	free := make(chan struct{}, 16)
	for i, f := range files {
		free <- struct{}{}
		wait.Go(func() {
			errs[i] = writeFile(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Bytes)
			<-free
		})
	}
	wait.Wait()
	return errors.Join(errs...)
}

// writeFile writes a new file and the folders above it; one that is there is an error.
func writeFile(path string, b []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if _, err := f.Write(b); err != nil {
		f.Close()
		return err
	}
	if err := f.Sync(); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
