//! The tables people maintain: CSV with a source column, embedded in the binary.

pub mod register_headings;
