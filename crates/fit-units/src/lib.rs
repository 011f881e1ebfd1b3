//! Lengths and angles as people type them.
