package cli

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"stowright/internal/bundle"
)

func files(names ...string) []bundle.File {
	var l []bundle.File
	for _, n := range names {
		l = append(l, bundle.File{Name: n, Bytes: []byte(n)})
	}
	return l
}

func TestFolderIsReplacedWhole(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	if err := writeFolder(dir, files("a.txt", "views/b.svg")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "notes.txt"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(dir, files("c.txt")); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "a.txt")); !errors.Is(err, os.ErrNotExist) {
		t.Error("a.txt of the first packet is still there")
	}
	if b, _ := os.ReadFile(filepath.Join(dir, "notes.txt")); string(b) != "mine" {
		t.Error("a file of the maker's was lost")
	}
	left, _ := os.ReadDir(filepath.Dir(dir))
	if len(left) != 1 {
		t.Errorf("left beside the folder: %v", left)
	}
}

// What the maker keeps in the folder stays as it is: a script can still be run, a link leads where it led, an empty
// folder is there; and the folder may be the one that the shell stands in.
func TestMakersThingsStayAsTheyAre(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	if err := writeFolder(dir, files("a.txt")); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	if err := errors.Join(os.WriteFile("run", []byte("#!/bin/sh\n"), 0o755), os.Symlink("a.txt", "link"), os.MkdirAll("photos/day one", 0o755)); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(".", files("a.txt", "b.txt")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Lstat(filepath.Join(dir, "run")); err != nil || info.Mode() != 0o755 {
		t.Errorf("the script is %v (%v)", info, err)
	}
	if to, err := os.Readlink(filepath.Join(dir, "link")); to != "a.txt" {
		t.Errorf("the link leads to %q (%v)", to, err)
	}
	if info, err := os.Stat(filepath.Join(dir, "photos", "day one")); err != nil || !info.IsDir() {
		t.Errorf("the empty folder: %v", err)
	}
	if b, _ := os.ReadFile(filepath.Join(dir, "b.txt")); string(b) != "b.txt" {
		t.Error("the new file is not there")
	}
}

func TestForeignFolderIsRefused(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "thesis.txt"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(dir, files("a.txt")); !errors.Is(err, errNotOurs) {
		t.Errorf("got %v, want a refusal", err)
	}
	if _, err := os.Stat(filepath.Join(dir, "a.txt")); err == nil {
		t.Error("wrote into a folder that is not ours")
	}
}

func TestMakersFileOfTheSameNameIsNotOverwritten(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	if err := writeFolder(dir, files("a.txt")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "b.txt"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(dir, files("b.txt")); err == nil {
		t.Error("no refusal")
	}
	if b, _ := os.ReadFile(filepath.Join(dir, "b.txt")); string(b) != "mine" {
		t.Error("the maker's file is gone")
	}
}
