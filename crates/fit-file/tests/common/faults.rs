//! A disk on which the n-th call goes wrong.

use fit_file::{Disk, Stat, Storage};
use std::cell::Cell;
use std::fs::{File, Permissions};
use std::io;
use std::path::{Path, PathBuf};

/// How a call goes wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Fault {
    /// The call fails with this number of the system, and does nothing.
    Error(i32),
    /// A write takes seven bytes at most. Other calls work.
    ShortWrite,
    /// A write says that it took everything and flips a bit. Other calls work.
    LyingWrite,
}

/// The real disk with a fault.
pub(crate) struct Faulty {
    fault: Fault,
    at: usize,
    for_good: bool,
    calls: Cell<usize>,
}

impl Faulty {
    /// The fault comes at the call of this number, counted from 0; once, or from then on.
    pub(crate) fn new(fault: Fault, at: usize, for_good: bool) -> Self {
        Self { fault, at, for_good, calls: Cell::new(0) }
    }

    /// A disk without fault, to count the calls.
    pub(crate) fn none() -> Self {
        Self::new(Fault::ShortWrite, usize::MAX, false)
    }

    /// Calls so far.
    pub(crate) fn calls(&self) -> usize {
        self.calls.get()
    }

    /// Counts a call and says whether it goes wrong.
    fn strikes(&self) -> bool {
        let call = self.calls.get();
        self.calls.set(call + 1);
        call == self.at || (self.for_good && call > self.at)
    }

    fn call<T>(&self, work: impl FnOnce() -> io::Result<T>) -> io::Result<T> {
        match self.fault {
            Fault::Error(number) if self.strikes() => Err(io::Error::from_raw_os_error(number)),
            Fault::Error(_) => work(),
            Fault::ShortWrite | Fault::LyingWrite => {
                self.strikes();
                work()
            }
        }
    }
}

impl Storage for Faulty {
    type File = File;

    fn canonicalise(&self, path: &Path) -> io::Result<PathBuf> {
        self.call(|| Disk.canonicalise(path))
    }

    fn stat(&self, path: &Path) -> io::Result<Stat> {
        self.call(|| Disk.stat(path))
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        self.call(|| Disk.read(path, most))
    }

    fn create_new(&self, path: &Path, permissions: Option<&Permissions>) -> io::Result<File> {
        self.call(|| Disk.create_new(path, permissions))
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<usize> {
        let strikes = self.strikes();
        match self.fault {
            _ if !strikes => Disk.write(file, bytes),
            Fault::Error(number) => Err(io::Error::from_raw_os_error(number)),
            Fault::ShortWrite => Disk.write(file, &bytes[..bytes.len().min(7)]),
            Fault::LyingWrite => {
                let mut wrong = bytes.to_vec();
                wrong[bytes.len() / 2] ^= 1;
                Disk.write(file, &wrong)
            }
        }
    }

    fn sync(&self, file: &mut File) -> io::Result<()> {
        self.call(|| Disk.sync(file))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.call(|| Disk.rename(from, to))
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.call(|| Disk.remove(path))
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        self.call(|| Disk.sync_folder(path))
    }
}
