//! A disk on which the n-th call goes wrong, to try what becomes of a save.

use super::{Stat, Storage};
use std::cell::{Cell, RefCell};
use std::ffi::OsString;
use std::fmt;
use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};

/// Bytes that a write takes which takes too few.
const SHORT: usize = 7;

/// How a call goes wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// The call fails with this number of the system, and does nothing.
    Error(i32),
    /// A write takes seven bytes at most. Other calls work.
    ShortWrite,
    /// A write says that it took everything and flips a bit. Other calls work.
    LyingWrite,
    /// The program ends here: half of a write is done, nothing of any other call, and nothing after.
    Stop,
    /// The call takes long, and something else happens before it is done.
    Meanwhile,
}

/// A disk with a fault.
pub struct Faulty<S> {
    inner: S,
    fault: Fault,
    at: usize,
    for_good: bool,
    calls: Cell<usize>,
    meanwhile: RefCell<Option<Box<dyn FnOnce()>>>,
}

impl<S> fmt::Debug for Faulty<S> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { fault, at, for_good, calls, .. } = self;
        write!(f, "{fault:?} at call {at}, for good: {for_good}, {} calls so far", calls.get())
    }
}

impl<S: Storage> Faulty<S> {
    /// The fault comes at the call of this number, counted from 0; once, or from then on.
    pub fn new(inner: S, fault: Fault, at: usize, for_good: bool) -> Self {
        let calls = Cell::new(0);
        Self { inner, fault, at, for_good, calls, meanwhile: RefCell::new(None) }
    }

    /// The program ends at the call of this number.
    pub fn stopped(inner: S, at: usize) -> Self {
        Self::new(inner, Fault::Stop, at, true)
    }

    /// Something else happens just before the call of this number is done.
    pub fn meanwhile(inner: S, at: usize, what: impl FnOnce() + 'static) -> Self {
        let slow = Self::new(inner, Fault::Meanwhile, at, false);
        *slow.meanwhile.borrow_mut() = Some(Box::new(what));
        slow
    }

    /// A disk without fault, to count the calls.
    pub fn none(inner: S) -> Self {
        Self::new(inner, Fault::ShortWrite, usize::MAX, false)
    }

    /// Calls so far.
    pub fn calls(&self) -> usize {
        self.calls.get()
    }

    /// Counts a call and says whether it goes wrong.
    fn strikes(&self) -> bool {
        let call = self.calls.get();
        self.calls.set(call + 1);
        call == self.at || (self.for_good && call > self.at)
    }

    fn call<T>(&self, work: impl FnOnce(&S) -> io::Result<T>) -> io::Result<T> {
        if self.strikes() {
            match self.fault {
                Fault::Error(number) => return Err(io::Error::from_raw_os_error(number)),
                Fault::Stop => return Err(stopped()),
                Fault::Meanwhile => self.something_else(),
                Fault::ShortWrite | Fault::LyingWrite => {}
            }
        }
        work(&self.inner)
    }

    fn something_else(&self) {
        if let Some(what) = self.meanwhile.borrow_mut().take() {
            what();
        }
    }
}

fn stopped() -> io::Error {
    io::Error::other("the program was stopped")
}

impl<S: Storage> Storage for Faulty<S> {
    type File = S::File;
    type Lock = S::Lock;

    fn canonicalise(&self, path: &Path) -> io::Result<PathBuf> {
        self.call(|disk| disk.canonicalise(path))
    }

    fn stat(&self, path: &Path) -> io::Result<Stat> {
        self.call(|disk| disk.stat(path))
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        self.call(|disk| disk.read(path, most))
    }

    fn create_new(&self, path: &Path, permissions: Option<&Permissions>) -> io::Result<S::File> {
        self.call(|disk| disk.create_new(path, permissions))
    }

    fn empty(&self, path: &Path) -> io::Result<S::File> {
        self.call(|disk| disk.empty(path))
    }

    fn write(&self, file: &mut S::File, bytes: &[u8]) -> io::Result<usize> {
        if !self.strikes() {
            return self.inner.write(file, bytes);
        }
        match self.fault {
            Fault::Error(number) => Err(io::Error::from_raw_os_error(number)),
            Fault::ShortWrite => self.inner.write(file, &bytes[..bytes.len().min(SHORT)]),
            Fault::LyingWrite => {
                let mut wrong = bytes.to_vec();
                if let Some(byte) = wrong.get_mut(bytes.len() / 2) {
                    *byte ^= 1;
                }
                self.inner.write(file, &wrong)
            }
            Fault::Stop => {
                // only the call that it ends in gets so far
                if self.calls.get() == self.at + 1 {
                    self.inner.write(file, &bytes[..bytes.len() / 2])?;
                }
                Err(stopped())
            }
            Fault::Meanwhile => {
                self.something_else();
                self.inner.write(file, bytes)
            }
        }
    }

    fn sync(&self, file: &mut S::File) -> io::Result<()> {
        self.call(|disk| disk.sync(file))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.call(|disk| disk.rename(from, to))
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.call(|disk| disk.remove(path))
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        self.call(|disk| disk.sync_folder(path))
    }

    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.call(|disk| disk.link(from, to))
    }

    fn create_folder(&self, path: &Path) -> io::Result<()> {
        self.call(|disk| disk.create_folder(path))
    }

    fn create_shared_folder(&self, path: &Path, as_in: &Path) -> io::Result<()> {
        self.call(|disk| disk.create_shared_folder(path, as_in))
    }

    fn close_folder(&self, path: &Path) -> io::Result<()> {
        self.call(|disk| disk.close_folder(path))
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        self.call(|disk| disk.remove_folder(path))
    }

    fn list(&self, path: &Path) -> io::Result<Vec<OsString>> {
        self.call(|disk| disk.list(path))
    }

    fn try_lock(&self, path: &Path) -> io::Result<Option<S::Lock>> {
        self.call(|disk| disk.try_lock(path))
    }
}
