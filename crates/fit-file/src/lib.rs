//! Sessions and stock lists on disk.
