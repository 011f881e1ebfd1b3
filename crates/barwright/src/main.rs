//! The program: commands first, a window later.

fn main() {}
